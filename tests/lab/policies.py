"""The policies that practice is compared by: plain habits, published rules, and our planner.

Each is a function (skills, exam, minutes a day) to an object with `choose`, `record` and `expose`
as `Planner` has them. None knows the learner: what they predict with is `drill.memory`, as
shipped. Numbers that had to be chosen were tuned on seeds that no figure uses.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from types import MappingProxyType
from typing import Any

from drill.planning import Planner, SkillPlan
from tests.lab.habits import BlockedCram, EqualSpacing, FixedOrder, Nothing, RandomOrder
from tests.lab.rules import (
    Greedy,
    LowestFirst,
    PublishedGap,
    Threshold,
    Unlikely,
    WeeksBack,
)

OURS = "ours"

POLICIES: Mapping[str, Callable[[Mapping[str, SkillPlan], datetime, float], Any]] = (
    MappingProxyType(
        {
            "nothing": Nothing,
            "random": RandomOrder,
            "fixed order": FixedOrder,
            "blocked cram": BlockedCram,
            "equal spacing": EqualSpacing,
            "lowest first": LowestFirst,
            "threshold": Threshold,
            "weeks back": WeeksBack,
            "one minus p": Unlikely,
            "published gap": PublishedGap,
            "greedy": Greedy,
            OURS: Planner,
        }
    )
)
"""Name: what makes the policy."""
