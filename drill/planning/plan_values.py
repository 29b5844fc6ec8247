"""The values that go into planning and come out of it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from datetime import datetime
from enum import StrEnum

from msgspec import Struct, field


class SkillPlan(Struct, frozen=True):
    """One skill as the exam and the teaching see it.

    `marks`: marks at stake; `seconds`: what one asking takes; `taught_from`: nothing is asked
    before (None: taught already); `templates`: {template id: True if it has draws}; `exam`: its
    own exam date, standing over the common one; `worked_first`: show a worked answer before the
    first asking (a calculation never met). For an evening's mix: `kind` of question (the skill
    itself when ""), and `objects`: {template id: what it is about}, where known. `load`: {template
    id: marks of one asking}: after misses the lightest comes first.
    """

    marks: float
    seconds: float
    taught_from: datetime | None = None
    templates: Mapping[str, bool] = field(default_factory=dict)
    exam: datetime | None = None
    worked_first: bool = False
    kind: str = ""
    objects: Mapping[str, str] = field(default_factory=dict)
    load: Mapping[str, float] = field(default_factory=dict)


def lessons(skills: Mapping[str, SkillPlan]) -> dict[str, datetime]:
    """{skill: when it was, or will be, taught}, for memory, as far as it is known."""
    return {name: plan.taught_from for name, plan in skills.items() if plan.taught_from}


class Reason(StrEnum):
    """Why a question is put."""

    PLAN = "plan"
    """It brings most marks per second on exam day."""
    CERTAIN = "certain"
    """The learner was certain the last time, and wrong."""
    RETURN = "return"
    """It was missed some days ago."""
    COVERAGE = "coverage"
    """It was never asked, and time goes by."""
    LADDER = "ladder"
    """It was missed three times: a worked answer, or the lightest question of it."""
    FALLBACK = "fallback"
    """The plan finds nothing, but this is not held yet."""
    WANTED = "wanted"
    """All is held; the learner asked for more."""


@dataclasses.dataclass(frozen=True)
class Choice:
    """What to ask next; `show` means: present the worked answer, mark nothing, then `expose`."""

    skill: str
    template: str
    show: bool = False
    why: Reason = dataclasses.field(default=Reason.PLAN, compare=False)


_STRONG = 0.1
"""Opinions further apart than this are said to disagree."""


class Forecast(Struct, frozen=True):
    """Shares 0..1 if practised as planned; `per_skill`: {id: (expected, low, high)} on the day.

    `low` to `high` hold the share over all that could be asked in 80 of 100 cases. `held` is what
    would be earned today, with its own range, `held_per_skill` the same of each skill. `apart`: how
    far the two opinions of memory are from each other.
    """

    expected: float
    low: float
    high: float
    per_skill: Mapping[str, tuple[float, float, float]]
    held: tuple[float, float, float] = (0.0, 0.0, 0.0)
    held_per_skill: Mapping[str, float] = field(default_factory=dict)
    apart: float = 0.0

    @property
    def doubt(self) -> str:
        """That they are far apart, in words; else ""."""
        if self.apart <= _STRONG:
            return ""
        return (
            f"Two ways of judging what lasts differ by {100 * self.apart:.0f} % of the marks, "
            "so the range is wide."
        )
