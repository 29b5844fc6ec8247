"""Joins bank, generate, store, marking, memory and planning for one sitting. Prints nothing."""

from drill.sitting.asked import Asked
from drill.sitting.asked_before import as_asked, part_of
from drill.sitting.planners import learners_planner
from drill.sitting.plans import exam_of, skill_plans, topic_of
from drill.sitting.remarking import Change, Remarked, remark, store_changes
from drill.sitting.settling import JUDGES, forget_settled, settle, settled_dir
from drill.sitting.sitting import Goal, Sitting
from drill.sitting.states import parts_of_versions, skills_of_versions, state, states

__all__ = [
    "JUDGES",
    "Asked",
    "Change",
    "Goal",
    "Remarked",
    "Sitting",
    "as_asked",
    "exam_of",
    "forget_settled",
    "learners_planner",
    "part_of",
    "parts_of_versions",
    "remark",
    "settle",
    "settled_dir",
    "skill_plans",
    "skills_of_versions",
    "state",
    "states",
    "store_changes",
    "topic_of",
]
