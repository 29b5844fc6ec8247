"""A drawn scale, each of its numbers worked out again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from drill.judge.amounts import Amount, turned
from drill.judge.author import Raw, formula
from drill.judge.cannot import Cannot
from drill.judge.doubts import Doubt, differs
from drill.judge.units import Unit, means, unit_of
from drill.judge.working import number
from drill.judge.world import Env

if TYPE_CHECKING:
    from drill.model import Scale


def scale_doubts(raw: Raw, env: Env, scale: Scale | None, line: int) -> Iterator[Doubt]:
    """The instrument's row, and its reading in the unit of that row."""
    row = env.get(raw["of"])
    if scale is None or not isinstance(row, Mapping):
        yield Doubt("scale", line, "the drawn scale has no row of facts.")
        return
    unit = unit_of(str(row["unit"]))
    numbers = {key: cell.number for key, cell in row.items() if isinstance(cell, Amount)}
    numbers["reading"] = reading_of(raw, env, unit)
    for key in ("low", "high", "division", "spaces", "reading"):
        if getattr(scale, key) != numbers[key]:
            yield differs(f"{key} of the scale", line, getattr(scale, key), numbers[key])
    if scale.name != row["name"] or scale.shape != row["shape"] or not means(scale.unit, unit):
        yield differs("the scale", line, f"{scale.name} in {scale.unit}", f"{row['name']}")


def on_scale(raw: Raw, env: Env) -> bool:
    """Whether the instrument can show the reading."""
    row = env.get(raw["of"])
    if not isinstance(row, Mapping):
        raise Cannot("the scale has no row of facts")
    low, high = row["low"], row["high"]
    assert isinstance(low, Amount)
    assert isinstance(high, Amount)
    return low.number <= reading_of(raw, env, unit_of(str(row["unit"]))) <= high.number


def reading_of(raw: Raw, env: Env, unit: Unit) -> Fraction:
    """What the scale shows."""
    return turned(number(formula(raw["reads"]), env), unit).number
