"""Tables that may be looked at while a question is answered: what a printed paper brings along."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.quantities import Quantity, show
from drill.subjects import subject

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Question
    from drill.quantities import FactsRow
    from drill.subjects.interface import LearnersTable


@dataclass(frozen=True)
class ShownTable:
    """A title, and pairs to be read across."""

    title: str
    rows: tuple[tuple[str, str], ...]


def tables_for(bank: Bank, question: Question) -> list[ShownTable]:
    """The tables of the question's science, without one that would answer it."""
    skills = bank.skills()
    families = {skills[skill].family for skill in question.skills if skill in skills}
    names = dict.fromkeys(part.subject for part in question.parts)
    return [
        ShownTable(table.title, tuple(_rows(bank, table)))
        for name in names
        for table in subject(name).shown
        if table.not_for not in families
    ]


def _rows(bank: Bank, table: LearnersTable) -> list[tuple[str, str]]:
    left, right = table.columns
    found = bank.sources.facts(table.facts)
    return [(_cell(row, left), _cell(row, right)) for row in found[0]] if found else []


def _cell(row: FactsRow, column: str) -> str:
    found = row.id if column == "id" else row.cells[column]
    return show(found) if isinstance(found, Quantity) else found
