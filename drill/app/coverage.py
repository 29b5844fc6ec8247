"""What the bank covers: its practicals side by side, its skills by course, and what is thin."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.app.rows import named
from drill.model import COURSES, SIDES

if TYPE_CHECKING:
    from drill.bank import Entry

ENOUGH = 15  # templates of a practical
ENOUGH_OF_A_SKILL = 3
SIDES_WANTED = 7
LARGEST_SHARE = 0.4  # of a practical's templates, for one side
WRITTEN_WANTED = 3
GENERAL = ("measure", "safety", "investigating")  # no practical of their own: any sides will do


@dataclass(frozen=True)
class CoveredPractical:
    """A practical: its templates in all and on each side, and what it is thin in, in words."""

    practical: str
    templates: int
    apparatus: int
    method: int
    reasons: int
    variables: int
    hazards: int
    observations: int
    calculation: int
    data: int
    evaluating: int
    thin: tuple[str, ...]

    @property
    def counts(self) -> tuple[int, ...]:
        """Templates on each side, in the order of `SIDES`."""
        return tuple(getattr(self, side) for side in SIDES)


@dataclass(frozen=True)
class CoveredSkill:
    """A skill: templates in all, and those each course may be asked."""

    skill: str
    templates: int
    combined_foundation: int = named("combined foundation")
    combined_higher: int = named("combined higher")
    separate_foundation: int = named("separate foundation")
    separate_higher: int = named("separate higher")

    @property
    def counts(self) -> tuple[int, ...]:
        """Templates for each course, in the order of `COURSES`."""
        return tuple(getattr(self, course.replace(" ", "_")) for course in COURSES)


def covered_practicals(
    entries: Iterable[Entry], practicals: Iterable[str]
) -> list[CoveredPractical]:
    """A row a practical; `entries` are the bank's."""
    asked, rows = _asked(entries), []
    for name in practicals:
        here = [entry for entry in asked if entry.practical == name]
        sides = Counter(entry.side for entry in here)
        each = {side: sides[side] for side in SIDES}
        rows.append(CoveredPractical(name, len(here), **each, thin=tuple(_thin(name, here, sides))))
    return rows


def covered_skills(entries: Iterable[Entry], skills: Iterable[str]) -> list[CoveredSkill]:
    """A row a skill; `entries` are the bank's."""
    asked, rows = _asked(entries), []
    for skill in skills:
        here = [entry for entry in asked if skill in entry.part_skills]
        each = (sum(course in entry.course for entry in here) for course in COURSES)
        rows.append(CoveredSkill(skill, len(here), *each))
    return rows


def _asked(entries: Iterable[Entry]) -> list[Entry]:
    return [entry for entry in entries if entry.ok and not entry.retired]


def _thin(name: str, here: Sequence[Entry], sides: Counter[str]) -> Iterator[str]:
    """What a practical has too little of, in words."""
    if len(here) < ENOUGH:
        yield f"{ENOUGH - len(here)} more templates"
    if name in GENERAL:
        return
    kinds = Counter(kind for entry in here for kind in entry.kinds)
    yield from (f"no {kind} question" for kind in ("order", "levels") if not kinds[kind])
    if kinds["written"] < WRITTEN_WANTED:
        yield f"{WRITTEN_WANTED - kinds['written']} more written parts"
    if (missing := SIDES_WANTED - sum(side in sides for side in SIDES)) > 0:
        yield f"{missing} more sides"
    yield from (
        f"too much of {side}"
        for side in SIDES
        if here and sides[side] / len(here) > LARGEST_SHARE and len(here) >= ENOUGH
    )
