"""Joins bank, generate, store, marking, memory and planning for one sitting. Prints nothing.

What only a teacher's or tutor's commands need is loaded when it is named, so that a sitting's
first question does not wait for it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from drill.sitting.asked import Asked
from drill.sitting.planners import learners_planner
from drill.sitting.plans import exam_of, skill_plans, topic_of
from drill.sitting.sitting import Goal, Sitting

if TYPE_CHECKING:
    from drill.sitting.asked_before import as_asked, part_of
    from drill.sitting.remarking import Change, Remarked, remark, store_changes
    from drill.sitting.settling import JUDGES, forget_settled, settle, settled_dir
    from drill.sitting.standing import parts_of_versions, skills_of_versions, state, states

_LATER = {
    "as_asked": "asked_before",
    "part_of": "asked_before",
    "Change": "remarking",
    "Remarked": "remarking",
    "remark": "remarking",
    "store_changes": "remarking",
    "JUDGES": "settling",
    "forget_settled": "settling",
    "settle": "settling",
    "settled_dir": "settling",
    "parts_of_versions": "standing",
    "skills_of_versions": "standing",
    "state": "standing",
    "states": "standing",
}


def __getattr__(name: str) -> object:
    if name in _LATER:
        found: object = getattr(import_module(f"drill.sitting.{_LATER[name]}"), name)
        return found
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


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
