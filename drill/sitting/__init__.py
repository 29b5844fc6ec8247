"""Joins bank, generate, store, marking, memory and planning for one sitting. Prints nothing."""

from drill.sitting.planners import learners_planner
from drill.sitting.plans import exam_of, skill_plans, topic_of
from drill.sitting.sitting import Asked, Goal, Sitting
from drill.sitting.states import parts_of_versions, skills_of_versions, state, states

__all__ = [
    "Asked",
    "Goal",
    "Sitting",
    "exam_of",
    "learners_planner",
    "parts_of_versions",
    "skill_plans",
    "skills_of_versions",
    "state",
    "states",
    "topic_of",
]
