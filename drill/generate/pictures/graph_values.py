"""The graph drawn with a question: its points and lines worked out, its axes chosen."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.generate.part_context import Rejected, must, rejection
from drill.generate.pictures.axes import ACROSS, UP, Room, numbers_for
from drill.generate.pictures.curves import smooth
from drill.generate.text.fill import Shown, fill
from drill.model import (
    Axis,
    AxisSpec,
    Graph,
    GraphLine,
    GraphPoint,
    LineSpec,
    PointsSpec,
    Template,
)
from drill.quantities import (
    PLAIN,
    Expression,
    Fault,
    Quantity,
    Unit,
    Value,
    convert,
    evaluate,
    unit_of,
)

_PIECES = 64  # of a curve; a screen has about twice as many dots
_MOST_POINTS = 40

Drawn = Mapping[str, Value]


def graph_of(template: Template, values: Drawn, shown: Shown) -> Graph:
    """The graph of a template that has one, with every number.

    Raises:
        Rejected: a formula gives no number of its axis's unit, or nothing is there to be drawn.
    """
    spec = template.graph
    assert spec is not None
    maker = _Maker(values, _unit(spec.x), _unit(spec.y))
    points = maker.points(spec.points) if spec.points is not None else ()
    lines = [maker.line(one) for one in spec.lines]
    every = [*points, *(point for line in lines for point in line.path)]
    if not every:
        raise Rejected("nothing is drawn but upright lines", spec.line)
    uprights = [maker.number(one.at, maker.x, one.line) for one in spec.lines if one.at is not None]
    x = maker.axis(spec.x, maker.x, [at for at, _ in every] + uprights, ACROSS)
    y = maker.axis(spec.y, maker.y, [height for _, height in every], UP)

    def finished(one: LineSpec, line: GraphLine) -> GraphLine:
        label = _filled(one.label, shown, one.line)
        if one.at is None:
            return line._replace(label=label)
        at = maker.number(one.at, maker.x, one.line)
        return GraphLine(((at, y.low), (at, y.high)), True, one.dashed, label)

    return Graph(
        _filled(spec.title, shown, spec.line),
        x._replace(quantity=_filled(x.quantity, shown, spec.x.line)),
        y._replace(quantity=_filled(y.quantity, shown, spec.y.line)),
        points,
        tuple(finished(one, line) for one, line in zip(spec.lines, lines, strict=True)),
    )


def _filled(text: str, shown: Shown, line: int) -> str:
    return must(fill(text, shown), line, "in a text of the graph") if text else text


def _unit(spec: AxisSpec) -> Unit:
    unit = unit_of(spec.unit)
    if unit is None:
        raise Rejected(f'the axis has the unknown unit "{spec.unit}"', spec.line)
    return unit


class _Maker:
    """Works formulas out in the units of the two axes."""

    def __init__(self, values: Drawn, x: Unit, y: Unit) -> None:
        self.values, self.x, self.y = values, x, y

    def points(self, spec: PointsSpec) -> tuple[GraphPoint, ...]:
        """A point for each place of the list, from left to right."""
        places = _worked(spec.x, self.values, spec.line, "the places of the points")
        if not isinstance(places, tuple) or not 0 < len(places) <= _MOST_POINTS:
            raise Rejected(
                f"the places of the points are no list of 1 to {_MOST_POINTS}", spec.line
            )
        made = []
        for index, place in enumerate(places):
            at = self._in(place, self.x, spec.line, "a place of a point")
            made.append((at, self._height(spec.y, at, spec.line, index, len(places))))
        if len({at for at, _ in made}) < len(made):
            raise Rejected("two points have the same place along the bottom", spec.line)
        return tuple(sorted(made))

    def _height(
        self, formula: Expression, at: Fraction, line: int, index: int = 0, of: int = 0
    ) -> Fraction:
        env: dict[str, Value] = {**self.values, "x": Quantity(at, self.x)}
        for name in formula.names:
            several = env.get(name)
            if of and isinstance(several, tuple) and len(several) == of:
                env[name] = several[index]
        value = _worked(formula, env, line, "the height of the graph")
        if of and isinstance(value, tuple) and len(value) == of:
            value = value[index]
        return self._in(value, self.y, line, "the height of the graph")

    def line(self, spec: LineSpec) -> GraphLine:
        """A formula over a range, in equal pieces, or a smooth curve through points.

        A vertical line has no path yet: it is as long as its axis.
        """
        if spec.at is not None:
            return GraphLine((), True, spec.dashed, "")
        if spec.through is not None:
            return GraphLine(smooth(self.points(spec.through), _PIECES), False, spec.dashed, "")
        assert spec.y is not None
        start = self.number(spec.start, self.x, spec.line)
        stop = self.number(spec.stop, self.x, spec.line)
        if start >= stop:
            raise Rejected("a line ends where it begins, or before", spec.line)
        path = tuple(
            (at, self._height(spec.y, at, spec.line))
            for at in (start + (stop - start) * i / _PIECES for i in range(_PIECES + 1))
        )
        straight = _is_straight(path)
        return GraphLine((path[0], path[-1]) if straight else path, straight, spec.dashed, "")

    def axis(self, spec: AxisSpec, unit: Unit, shown: list[Fraction], room: Room) -> Axis:
        """The axis that holds everything drawn and the values the author wants on it."""
        wanted = [self.number(end, unit, spec.line) for end in (spec.low, spec.high) if end]
        least, most = min(shown + wanted), max(shown + wanted)
        try:
            numbers = numbers_for(least, most, room)
        except ValueError as error:
            raise Rejected(
                f"{spec.quantity}: {error}", spec.line, "Look at the formulas."
            ) from None
        return Axis(spec.quantity, unit.symbol, *numbers)

    def number(self, formula: Expression | None, unit: Unit, line: int) -> Fraction:
        assert formula is not None
        value = _worked(formula, self.values, line, "a number of the graph")
        return self._in(value, unit, line, "a number of the graph")

    def _in(self, value: object, unit: Unit, line: int, what: str) -> Fraction:
        """A number in a unit; one without a unit is taken to be in it."""
        if not isinstance(value, Quantity):
            raise Rejected(f"{what} is no number", line)
        if value.unit in (PLAIN, unit):
            return value.value
        return must(convert(value, unit), line, what).value


def _worked(formula: Expression, env: Drawn, line: int, what: str) -> Value:
    found = evaluate(formula, env)
    if isinstance(found, Fault):
        raise rejection(found, line, what)
    return found


def _is_straight(path: tuple[GraphPoint, ...]) -> bool:
    (x1, y1), (x2, y2) = path[0], path[-1]
    return all((y - y1) * (x2 - x1) == (y2 - y1) * (x - x1) for x, y in path)
