"""Joins bank, generate, store, marking, memory and planning for one sitting. Prints nothing.

What only a teacher's or tutor's commands need is loaded when it is named, so that a sitting's
first question does not wait for it.

A question just answered and a history rebuilt take the same road (`drill.store.observations`), so a
rebuilt memory is the memory that grew. A worked answer counts as shown, without a verdict; showing
one deletes the cached memory, so that a crash never leaves a cache that lacks it. A start reads the
latest 500 askings and the last of each other template, so that it takes as long after 100,000
answers as after 1,000 (`tests/bench/start.py`).
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

from drill.sitting.current_question import CurrentQuestion
from drill.sitting.learner_planner import learners_planner
from drill.sitting.sitting import Goal, PaperGoal, Sitting
from drill.sitting.skill_plans import exam_of, skill_plans, topic_of

if TYPE_CHECKING:
    from drill.sitting.mastery import parts_of_versions, skills_of_versions, state, states
    from drill.sitting.moderation import (
        JUDGES,
        forget_sample,
        forget_settled,
        judge,
        judged,
        keep_sample,
        settle,
        settled_dir,
    )
    from drill.sitting.regrading import Change, Remarked, remark, store_changes
    from drill.sitting.stored_question import as_asked, part_of

_LATER = {
    "as_asked": "stored_question",
    "part_of": "stored_question",
    "Change": "regrading",
    "Remarked": "regrading",
    "remark": "regrading",
    "store_changes": "regrading",
    "JUDGES": "moderation",
    "forget_sample": "moderation",
    "forget_settled": "moderation",
    "judge": "moderation",
    "judged": "moderation",
    "keep_sample": "moderation",
    "settle": "moderation",
    "settled_dir": "moderation",
    "parts_of_versions": "mastery",
    "skills_of_versions": "mastery",
    "state": "mastery",
    "states": "mastery",
}


def __getattr__(name: str) -> object:
    if name in _LATER:
        found: object = getattr(import_module(f"drill.sitting.{_LATER[name]}"), name)
        return found
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


__all__ = [
    "JUDGES",
    "Change",
    "CurrentQuestion",
    "Goal",
    "PaperGoal",
    "Remarked",
    "Sitting",
    "as_asked",
    "exam_of",
    "forget_sample",
    "forget_settled",
    "judge",
    "judged",
    "keep_sample",
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
