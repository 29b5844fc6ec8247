"""What the bank covers: its practicals side by side, its skills by course, and what is thin."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from drill.bank.entry import Entry
from drill.bank.schema.template_schema import COURSES, SIDES

ENOUGH = 15  # templates of a practical
ENOUGH_OF_A_SKILL = 3
SIDES_WANTED = 7
LARGEST_SHARE = 0.4  # of a practical's templates, for one side
WRITTEN_WANTED = 3
GENERAL = ("measure", "safety", "investigating")  # no practical of their own: any sides will do


def by_practical(
    entries: Iterable[Entry], practicals: Iterable[str]
) -> Iterator[Mapping[str, Any]]:
    """A row a practical: its templates, how many are on each side, and what it is thin in."""
    asked = [entry for entry in entries if entry.ok and not entry.retired]
    for name in practicals:
        here = [entry for entry in asked if entry.practical == name]
        sides = Counter(entry.side for entry in here)
        row: dict[str, Any] = {"practical": name, "templates": len(here)}
        row |= {side: sides[side] for side in SIDES}
        yield {**row, "thin": list(_thin(name, here, sides))}


def by_skill(entries: Iterable[Entry], skills: Iterable[str]) -> Iterator[Mapping[str, Any]]:
    """A row a skill: templates in all, and those each course may be asked."""
    asked = [entry for entry in entries if entry.ok and not entry.retired]
    for skill in skills:
        here = [entry for entry in asked if skill in entry.part_skills]
        courses = {one: sum(one in entry.course for entry in here) for one in COURSES}
        yield {"skill": skill, "templates": len(here), **courses}


def _thin(name: str, here: list[Entry], sides: Counter[str]) -> Iterator[str]:
    """In what a practical falls short, in words."""
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
