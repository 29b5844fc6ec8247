"""A drawn scale and a graph, each of their numbers worked out again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from drill.judge.amounts import Amount, Value, turned
from drill.judge.author import Raw, formula
from drill.judge.cannot import Cannot
from drill.judge.doubts import Doubt, differs
from drill.judge.filling import says
from drill.judge.grammar import read
from drill.judge.units import PLAIN, Unit, means, unit_of
from drill.judge.working import number, worked
from drill.judge.world import Env

if TYPE_CHECKING:
    from drill.model import Graph, GraphLine, Scale
    from drill.model.graph import Axis

_LOOKED_AT = 6  # places of a curve worked out again; others with another seed


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


# ------------------------------------------------------------ a graph


def graph_doubts(raw: Raw, env: Env, graph: Graph, seed: int, line: int) -> Iterator[Doubt]:
    """Its texts, its points, places on each of its lines, and that its axes hold them."""
    units = unit_of(raw["x"].get("unit", "")), unit_of(raw["y"].get("unit", ""))
    yield from _texts(raw, env, graph, units, line)
    if "points" in raw:
        points = tuple(sorted(_points(raw["points"], env, units)))
        if points != tuple(graph.points):
            yield differs("the points of the graph", line, _some(graph.points), _some(points))
    for spec, drawn in zip(raw.get("line", ()), graph.lines, strict=True):
        yield from _line(spec, drawn, env, units, graph.y, seed, line)
    drawn_at = [*graph.points, *(point for one in graph.lines for point in one.path)]
    for name, axis, at in (("x", graph.x, 0), ("y", graph.y, 1)):
        wanted = [_in(number(formula(raw[name][end]), env), units[at])
                  for end in ("from", "to") if end in raw[name]]  # fmt: skip
        if not _sound(axis, [point[at] for point in drawn_at] + wanted):
            yield Doubt(f"axis {name}", line, f"the axis {name} does not fit what is drawn.")


def half_of(axis: Axis) -> Amount:
    """Half of what a small division of an axis is worth."""
    return Amount((axis.step / axis.spaces) / 2, unit_of(axis.unit))


def _texts(
    raw: Raw, env: Env, graph: Graph, units: tuple[Unit, Unit], line: int
) -> Iterator[Doubt]:
    pairs = [(graph.title, raw["title"]), (graph.x.quantity, raw["x"]["quantity"]),
             (graph.y.quantity, raw["y"]["quantity"])]  # fmt: skip
    pairs += [(one.label, spec.get("label", "")) for one, spec in
              zip(graph.lines, raw.get("line", ()), strict=True)]  # fmt: skip
    for found, text in pairs:
        if not says(found, text, env):
            yield Doubt(f"graph {text}", line, f'"{found}" is not "{text}" to the second judge.')
    for axis, unit in ((graph.x, units[0]), (graph.y, units[1])):
        if not means(axis.unit, unit):
            yield differs("the unit of an axis", line, axis.unit, unit.symbol)


def _points(raw: Raw, env: Env, units: tuple[Unit, Unit]) -> Iterator[tuple[Fraction, Fraction]]:
    """A point for each place; a list in the height's formula gives each point its own item."""
    places = worked(formula(raw["x"]), env)
    if not isinstance(places, tuple):
        raise Cannot("the places of the points are no list")
    for index, place in enumerate(places):
        at = _in(place, units[0])
        yield at, _height(formula(raw["y"]), env, at, units, (index, len(places)))


def _height(
    text: str, env: Env, at: Fraction, units: tuple[Unit, Unit], item: tuple[int, int] = (0, 0)
) -> Fraction:
    index, of = item
    here: dict[str, Value] = {**env, "x": Amount(at, units[0])}
    for name in read(text).names():
        several = here.get(name)
        if isinstance(several, tuple) and len(several) == of:
            here[name] = several[index]
    value = worked(text, here)
    if isinstance(value, tuple) and len(value) == of:
        value = value[index]
    return _in(value, units[1])


def _in(value: object, unit: Unit) -> Fraction:
    if not isinstance(value, Amount):
        raise Cannot("a number of the graph is none")
    return value.number if value.unit is PLAIN else turned(value, unit).number


def _line(
    raw: Raw, drawn: GraphLine, env: Env, units: tuple[Unit, Unit], y: Axis, seed: int, line: int
) -> Iterator[Doubt]:
    path = list(drawn.path)
    if "at" in raw:
        at = _in(number(formula(raw["at"]), env), units[0])
        wanted: Any = [(at, y.low), (at, y.high)]
    elif "through" in raw:
        wanted = sorted(_points(raw["through"], env, units))
        kept = [point for point in path if point in wanted]
        if kept != wanted or not _between(path, wanted):
            yield differs("a curve of the graph", line, _some(path), _some(wanted))
        return
    else:
        ends = [_in(number(formula(raw[end]), env), units[0]) for end in ("from", "to")]
        path = [path[0], *_some_of(path[1:-1], seed), path[-1]]
        wanted = [(x, _height(formula(raw["y"]), env, x, units)) for x, _ in path]
        wanted[0], wanted[-1] = [(x, _height(formula(raw["y"]), env, x, units)) for x in ends]
        if drawn.straight:
            yield from _straight(raw, wanted, env, units, line)
    if path != wanted:
        yield differs("a line of the graph", line, _some(path), _some(wanted))


def _straight(
    raw: Raw, ends: list[tuple[Fraction, Fraction]], env: Env, units: tuple[Unit, Unit], line: int
) -> Iterator[Doubt]:
    """Half way along, a straight line is half way up."""
    (x1, y1), (x2, y2) = ends[0], ends[-1]
    if _height(formula(raw["y"]), env, (x1 + x2) / 2, units) != (y1 + y2) / 2:
        yield Doubt("straight", line, "a line of the graph is drawn straight, and is none.")


def _some_of(path: list[Any], seed: int) -> list[Any]:
    step = max(1, len(path) // _LOOKED_AT)
    return path[seed % step :: step]


def _between(path: list[Any], points: list[Any]) -> bool:
    """A curve stays between the heights of the two points beside it."""
    for (x1, y1), (x2, y2) in pairwise(points):
        low, high = min(y1, y2), max(y1, y2)
        if not all(low <= y <= high for x, y in path if x1 <= x <= x2):
            return False
    return True


def _sound(axis: Axis, values: list[Fraction]) -> bool:
    """It holds every value, more than half of it is used, its steps are 1, 2 or 5."""
    first = axis.step
    while first < 1:
        first *= 10
    while first >= 10:
        first /= 10
    inside = axis.low <= min(values) and max(values) <= axis.high
    filled = 2 * (max(values) - min(Fraction(0), *values)) > axis.high - axis.low
    return inside and filled and first in (1, 2, 5) and axis.low % axis.step == 0


def _some(points: Any) -> str:
    return ", ".join(f"({float(x):g}, {float(y):g})" for x, y in list(points)[:3])
