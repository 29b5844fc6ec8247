"""A graph, its points, lines and axes worked out again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from drill.judge.amounts import Amount, Value, turned
from drill.judge.author import Raw, formula
from drill.judge.axes import ACROSS, UP, Numbers, numbers_for
from drill.judge.cannot import Cannot
from drill.judge.doubts import Doubt, differs
from drill.judge.filling import says
from drill.judge.grammar import read
from drill.judge.units import PLAIN, Unit, means, unit_of
from drill.judge.working import number, worked
from drill.judge.world import Env

if TYPE_CHECKING:
    from drill.model import Graph, GraphLine

_PIECES = 64  # of a line that a formula gives
_MOST_POINTS = 40

Point = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Drawn:
    """Points from left to right; the points each line goes through; the numbers of both axes."""

    points: tuple[Point, ...]
    lines: tuple[tuple[Point, ...], ...]
    x: Numbers
    y: Numbers
    units: tuple[Unit, Unit]

    def half(self, axis: str) -> Amount:
        """Half of a small division of an axis."""
        numbers, unit = (self.x, self.units[0]) if axis == "x" else (self.y, self.units[1])
        return Amount(numbers.division / 2, unit)


def drawn(raw: Raw, env: Env) -> Drawn:
    """What is drawn with these values.

    Raises:
        Cannot: it cannot be drawn.
    """
    maker = _Maker(env, (unit_of(raw["x"].get("unit", "")), unit_of(raw["y"].get("unit", ""))))
    points = maker.points(raw["points"]) if "points" in raw else ()
    lines = [maker.line(one) for one in raw.get("line", ())]
    every = [*points, *(point for line in lines for point in line)]
    if not every:
        raise Cannot("nothing is drawn but upright lines")
    uprights = [maker.number(one["at"], 0) for one in raw.get("line", ()) if "at" in one]
    ends = [[maker.number(raw[axis][end], at) for end in ("from", "to") if end in raw[axis]]
            for at, axis in enumerate(("x", "y"))]  # fmt: skip
    x = numbers_for([*(at for at, _ in every), *uprights, *ends[0]], ACROSS)
    y = numbers_for([*(height for _, height in every), *ends[1]], UP)
    standing = iter(uprights)
    whole = [line or _standing(next(standing), y) for line in lines]
    return Drawn(points, tuple(whole), x, y, maker.units)


def _standing(at: Fraction, y: Numbers) -> tuple[Point, ...]:
    return (at, y.low), (at, y.high)


class _Maker:
    """Works the formulas of a graph out in the units of its axes."""

    def __init__(self, env: Env, units: tuple[Unit, Unit]) -> None:
        self.env, self.units = env, units

    def number(self, text: Any, axis: int) -> Fraction:
        return _in(number(formula(text), self.env), self.units[axis])

    def points(self, raw: Raw) -> tuple[Point, ...]:
        """A point for each x value; a list in the formula for y gives each point its own item."""
        places = worked(formula(raw["x"]), self.env)
        if not isinstance(places, tuple) or len(places) > _MOST_POINTS:
            raise Cannot("the places of the points are no list")
        xs = [_in(place, self.units[0]) for place in places]
        if len(set(xs)) < len(xs):
            raise Cannot("two points have one place")
        of = len(xs)
        return tuple(sorted((x, self.height(raw["y"], x, i, of)) for i, x in enumerate(xs)))

    def height(self, text: Any, at: Fraction, index: int = 0, of: int = 0) -> Fraction:
        here: dict[str, Value] = {**self.env, "x": Amount(at, self.units[0])}
        for name in read(formula(text)).names() if of else ():
            several = here.get(name)
            if isinstance(several, tuple) and len(several) == of:
                here[name] = several[index]
        value = worked(formula(text), here)
        if of and isinstance(value, tuple) and len(value) == of:
            value = value[index]
        return _in(value, self.units[1])

    def line(self, raw: Raw) -> tuple[Point, ...]:
        """The points a line goes through: its two ends if straight; none if it is vertical."""
        if "at" in raw:
            return ()
        if "through" in raw:
            return self.points(raw["through"])
        start, stop = self.number(raw["from"], 0), self.number(raw["to"], 0)
        if start >= stop:
            raise Cannot("a line ends where it begins")
        step = (stop - start) / _PIECES
        xs = [start + step * piece for piece in range(_PIECES + 1)]
        path = tuple((x, self.height(raw["y"], x)) for x in xs)
        rise = (path[-1][1] - path[0][1]) / _PIECES
        straight = all(y == path[0][1] + rise * i for i, (_, y) in enumerate(path))
        return (path[0], path[-1]) if straight else path


def _in(value: object, unit: Unit) -> Fraction:
    if not isinstance(value, Amount):
        raise Cannot("a number of the graph is none")
    return value.number if value.unit is PLAIN else turned(value, unit).number


# ------------------------------------------------------------ held against what was made


def graph_doubts(raw: Raw, env: Env, graph: Graph, made: Drawn, line: int) -> Iterator[Doubt]:
    """Where the graph differs from the one the judge worked out."""
    yield from _texts(raw, env, graph, line)
    for name, axis, mine, unit in (
        ("x", graph.x, made.x, made.units[0]),
        ("y", graph.y, made.y, made.units[1]),
    ):
        found = axis.low, axis.high, axis.step, axis.spaces
        wanted = mine.low, mine.high, mine.step, mine.spaces
        if found != wanted or not means(axis.unit, unit):
            yield differs(f"axis {name}", line, _listed(found), _listed(wanted))
    if tuple(graph.points) != made.points:
        yield differs("the points of the graph", line, _some(graph.points), _some(made.points))
    specs = raw.get("line", ())
    for spec, found_line, mine_line in zip(specs, graph.lines, made.lines, strict=True):
        if not _same_line(spec, found_line, mine_line):
            found_, mine_ = _some(found_line.path), _some(mine_line)
            yield differs("a line of the graph", line, found_, mine_)


def _texts(raw: Raw, env: Env, graph: Graph, line: int) -> Iterator[Doubt]:
    pairs = [(graph.title, raw["title"]), (graph.x.quantity, raw["x"]["quantity"]),
             (graph.y.quantity, raw["y"]["quantity"])]  # fmt: skip
    labels = [spec.get("label", "") for spec in raw.get("line", ())]
    pairs += zip((one.label for one in graph.lines), labels, strict=True)
    for found, text in pairs:
        if not says(found, text, env):
            yield Doubt(f"graph {text}", line, f'"{found}" is not "{text}" to the second judge.')


def _same_line(raw: Raw, found: GraphLine, mine: tuple[Point, ...]) -> bool:
    """Whether the points agree; a smooth curve must also stay between its points in height."""
    path = tuple(found.path)
    if "through" not in raw:
        return path == mine and found.straight == (len(mine) == 2)
    kept = tuple(point for point in path if point in mine)
    return kept == mine and all(
        min(y1, y2) <= y <= max(y1, y2)
        for (x1, y1), (x2, y2) in pairwise(mine)
        for x, y in path
        if x1 <= x <= x2
    )


def _listed(numbers: Any) -> str:
    return ", ".join(str(one) for one in numbers)


def _some(points: Any) -> str:
    return ", ".join(f"({float(x):g}, {float(y):g})" for x, y in list(points)[:3])
