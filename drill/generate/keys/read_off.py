"""The tolerance of an answer whose numbers are read off a graph.

Each reading may be wrong by half a small division of its axis. Every answer that such readings
lead to is accepted. Half a small division is common practice (no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from itertools import product

from drill.frozen import replace
from drill.generate.part_context import PartContext, Rejected, must
from drill.generate.text.amounts import places_before
from drill.model import Graph, PartSpec
from drill.quantities import Quantity, Value, convert, run_steps, unit_of

_MOST_READ = 6  # readings of one answer

Drawn = Mapping[str, Value]


def off_by_half(spec: PartSpec, context: PartContext) -> tuple[Drawn, ...]:
    """The values of a part with each reading half a small division too low or too high.

    Raises:
        Rejected: there is no graph, or a name is no number of its axis.
    """
    graph = context.graph
    if graph is None:
        raise Rejected("there is no graph to read these values off", spec.line, "Write [graph].")
    if len(spec.read_off) > _MOST_READ:
        raise Rejected(f"more than {_MOST_READ} values are read off", spec.line)
    off = {name: _half(name, axis, graph, context, spec) for name, axis in spec.read_off.items()}
    return tuple(
        _with(dict(zip(off, signs, strict=True)), off, context, spec)
        for signs in product((-1, 1), repeat=len(off))
    )


def _half(name: str, axis: str, graph: Graph, context: PartContext, spec: PartSpec) -> Fraction:
    """Half a small division, in the unit of the value that is read."""
    value = context.values.get(name)
    if not isinstance(value, Quantity):
        raise Rejected(f'"{name}" is no number to be read off', spec.line)
    drawn = graph.x if axis == "x" else graph.y
    if not any(value.unit.dimension):
        return drawn.half
    unit = unit_of(drawn.unit)
    assert unit is not None
    half = must(convert(Quantity(drawn.half, unit), value.unit), spec.line, f'"{name}"')
    return half.value


def _with(
    signs: Mapping[str, int], off: Mapping[str, Fraction], context: PartContext, spec: PartSpec
) -> Drawn:
    moved: dict[str, Value] = {}
    for name, sign in signs.items():
        value = context.values[name]
        assert isinstance(value, Quantity)
        moved[name] = replace(value, value=value.value + sign * off[name])
    values = run_steps(context.chain.steps, {**context.chain.givens, **moved}, moved)
    if isinstance(values, tuple):
        name, fault = values
        raise Rejected(f'"{name}" from values read off: {fault.message}', spec.line)
    return values


def bounds(value: Fraction, others: Iterable[Fraction]) -> tuple[Fraction, Fraction]:
    """The least and greatest of them, rounded outwards to two figures of their difference."""
    every = [value, *others]
    low, high = min(every), max(every)
    if low == high:
        return low, high
    one = Fraction(10) ** (places_before(high - low) - 2)
    return low // one * one, -(-high // one) * one
