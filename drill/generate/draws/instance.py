"""One try at the numbers: drawn, worked out, and held against what the author requires."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drill.generate.draws.draw_kinds import drawn
from drill.generate.draws.stream import retried
from drill.generate.setting import Miss, missed, must
from drill.model import Requirement, Template
from drill.quantities import FactsRow, Fault, Quantity, Value, evaluate, run_steps

MASSES = "atomic_masses"  # the table of facts whose rows are elements


class Unmet(Miss):
    """A requirement does not hold for these numbers: others may do."""


@dataclass(frozen=True)
class Instance:
    """`givens` were drawn or looked up; `values` hold them and what was worked from them."""

    givens: Mapping[str, Value]
    values: Mapping[str, Value]


def instance(template: Template, seed: int, tries: int = 0) -> Instance:
    """The numbers of a seed on a given try.

    Raises:
        Miss: a draw or a step cannot be worked out, or a requirement does not hold.
    """
    givens = draw_all(template, seed, tries)
    values = run_steps(template.work, givens)
    if isinstance(values, tuple):
        name, fault = values
        line = next((step.line for step in template.work if step.name == name), 0)
        raise Miss(f'"{name}" cannot be worked out: {fault.message}', line, fault.hint)
    for requirement in template.requirements:
        _hold(requirement, values)
    return Instance(givens, values)


def draw_all(template: Template, seed: int, tries: int) -> dict[str, Value]:
    """Every draw in the author's order, over the table of masses when there is one."""
    givens: dict[str, Value] = _masses(template)
    for draw in template.draws:
        value = drawn(draw, givens, seed, retried(draw.name, tries))
        if isinstance(value, Fault):
            raise missed(value, draw.line, f'the draw "{draw.name}"')
        givens[draw.name] = value
    return givens


def _masses(template: Template) -> dict[str, Value]:
    """The masses that M("CuSO4") looks up: by symbol, each the first number of its row."""
    cells: dict[str, Quantity | str] = {}
    for row in template.tables.get(MASSES, ()):
        number = next((cell for cell in row.cells.values() if isinstance(cell, Quantity)), None)
        if number is not None:
            cells[row.id] = number
    return {"M": FactsRow(MASSES, "M", cells)} if cells else {}


def _hold(requirement: Requirement, values: Mapping[str, Value]) -> None:
    what = f'the requirement "{requirement.says}"'
    met = must(evaluate(requirement.is_, values), requirement.line, what)
    if not isinstance(met, bool):
        raise Miss(f"{what} is neither true nor false", requirement.line, "Compare two values.")
    if not met:
        raise Unmet(f"{what} does not hold", requirement.line, "Widen a draw or the requirement.")
