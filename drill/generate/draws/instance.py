"""One attempt at the numbers: drawn, worked out, and checked against the author's [require]."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from drill.generate.draws.draw_kinds import drawn
from drill.generate.draws.stream import retried
from drill.generate.part_context import Rejected, must, rejection
from drill.model import Requirement, Template
from drill.quantities import FactsRow, Fault, Quantity, Value, evaluate, run_steps
from drill.subjects import subject


class Unmet(Rejected):
    """A requirement is not met by these numbers; another attempt may meet it."""


@dataclass(frozen=True)
class Instance:
    """`givens` were drawn or looked up; `values` hold them and what was worked from them."""

    givens: Mapping[str, Value]
    values: Mapping[str, Value]


def instance(template: Template, seed: int, tries: int = 0) -> Instance:
    """The numbers of a seed on a given try.

    Raises:
        Rejected: a draw or a step cannot be worked out, or a requirement does not hold.
    """
    givens = draw_all(template, seed, tries)
    values = run_steps(template.work, givens)
    if isinstance(values, tuple):
        name, fault = values
        line = next((step.line for step in template.work if step.name == name), 0)
        raise Rejected(f'"{name}" cannot be worked out: {fault.message}', line, fault.hint)
    for requirement in template.requirements:
        _hold(requirement, values)
    return Instance(givens, values)


def draw_all(template: Template, seed: int, tries: int) -> dict[str, Value]:
    """Every draw in the author's order, together with the subject's reference values."""
    givens: dict[str, Value] = dict(_reference_values(template))
    for draw in template.draws:
        value = drawn(draw, givens, seed, retried(draw.name, tries))
        if isinstance(value, Fault):
            raise rejection(value, draw.line, f'the draw "{draw.name}"')
        givens[draw.name] = value
    return givens


def _reference_values(template: Template) -> Iterator[tuple[str, FactsRow]]:
    """Each table that the subject's functions look up, as one row with a cell for each id."""
    for name, table in subject(template.subject).tables.items():
        cells: dict[str, Quantity | str] = {}
        for row in template.tables.get(table.kept_as, ()):
            number = next((cell for cell in row.cells.values() if isinstance(cell, Quantity)), None)
            if number is not None:
                cells[row.id] = number
        if cells:
            yield name, FactsRow(table.kept_as, name, cells)


def _hold(requirement: Requirement, values: Mapping[str, Value]) -> None:
    what = f'the requirement "{requirement.says}"'
    met = must(evaluate(requirement.is_, values), requirement.line, what)
    if not isinstance(met, bool):
        raise Rejected(f"{what} is neither true nor false", requirement.line, "Compare two values.")
    if not met:
        raise Unmet(f"{what} does not hold", requirement.line, "Widen a draw or the requirement.")
