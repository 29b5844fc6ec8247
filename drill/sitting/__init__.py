"""Joins bank, generate, store, marking, memory and planning for one sitting. Prints nothing."""

from drill.sitting.plans import exam_of, skill_plans, topic_of
from drill.sitting.sitting import Asked, Goal, Sitting, make_planner

__all__ = [
    "Asked",
    "Goal",
    "Sitting",
    "exam_of",
    "make_planner",
    "skill_plans",
    "topic_of",
]
