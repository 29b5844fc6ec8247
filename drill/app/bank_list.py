"""The questions of the bank, listed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank, Entry


@dataclass(frozen=True)
class TemplateRow:
    """A template: its skills (the one that is scheduled first), kinds of part, marks, courses."""

    template: str
    title: str
    skills: tuple[str, ...]
    kinds: tuple[str, ...]
    marks: int
    course: tuple[str, ...]
    draws: bool
    unproven: bool


def templates(bank: Bank, of: str = "") -> list[TemplateRow]:
    """Every template, or those whose id or skills hold `of`.

    Raises:
        DrillError: none does.
    """
    rows = [_row(entry) for entry in bank.entries() if _is_of(entry, of)]
    if not rows:
        raise DrillError(f'no template or skill holds "{of}". List all with: drill bank list')
    return rows


def _is_of(entry: Entry, of: str) -> bool:
    return any(of.casefold() in name for name in (entry.id, *entry.skills))


def _row(entry: Entry) -> TemplateRow:
    return TemplateRow(
        template=entry.id,
        title=entry.title,
        skills=tuple(entry.skills),
        kinds=tuple(entry.kinds),
        marks=entry.marks,
        course=tuple(entry.course),
        draws=entry.has_draws,
        unproven=entry.unproven,
    )
