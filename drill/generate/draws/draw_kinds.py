"""One function per kind of draw, and the dictionary that lists them.

Each takes the draw, the values drawn before it, the seed and the draw's name in the stream, and
returns a value, or a `Fault` that says why there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from drill.generate.draws.people import PEOPLE
from drill.generate.draws.stream import choose, shuffled
from drill.generate.text.fill import Shown, fill
from drill.model import Draw
from drill.quantities import (
    PLAIN,
    Expression,
    Fault,
    Quantity,
    Unit,
    Value,
    convert,
    evaluate,
    show,
    unit_of,
)
from drill.quantities.expressions.nodes import NumberNode

Drawn = Mapping[str, Value]

_MOST_DECIMALS = 6  # looked for when the author's step does not say how a value is shown


def drawn(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    """The value of one draw; seed 0 takes the author's `first` where there is one.

    Args:
        draw: what the author wrote.
        env: the values of earlier draws and what else an expression may look up.
        seed: of the question.
        name: of this draw in the stream, which holds the number of the try.
    """
    if seed == 0 and draw.first is not None:
        return _first(draw, env)
    rule = DRAWS.get(draw.kind)
    if rule is None:
        return Fault(f'"{draw.kind}" is not a kind of draw', hint=f"Known: {', '.join(DRAWS)}.")
    return rule(draw, env, seed, name)


def _first(draw: Draw, env: Drawn) -> Value | Fault:
    first = draw.first
    assert first is not None
    if draw.kind == "row":
        row = next((row for row in draw.rows if row.id == first), None)
        return row or Fault(f'no row "{first}" in {draw.table} that meets the conditions')
    if isinstance(first, Quantity):
        unit, decimals = unit_of(draw.unit) or PLAIN, first.decimals
        if decimals is None:
            decimals = draw.decimals
        return Quantity(first.value, unit if first.unit == PLAIN else first.unit, decimals)
    return _written_out(first, draw, env)


def _range(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    """start, start + step … never beyond stop."""
    unit = unit_of(draw.unit) or PLAIN
    numbers: list[Fraction] = []
    for expression in (draw.start, draw.stop, draw.step):
        value = _number(expression, env, unit)
        if isinstance(value, Fault):
            return value
        numbers.append(value)
    start, stop, step = numbers
    if step <= 0 or stop < start:
        ends = [show(Quantity(number)) for number in numbers]
        says = f"nothing to draw from {ends[0]} to {ends[1]} in steps of {ends[2]}"
        return Fault(says, hint="from is the lower end, to the higher one, and step is above 0.")
    steps = (stop - start) // step
    value = start + step * choose(seed, name, int(steps) + 1)
    decimals = draw.decimals
    if decimals is None:
        decimals = max(_decimals(start), _decimals(step))
    return Quantity(value, unit, decimals)


def _choice(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    if not draw.choices:
        return Fault("nothing to choose from")
    return _written_out(draw.choices[choose(seed, name, len(draw.choices))], draw, env)


def _written_out(value: Value, draw: Draw, env: Drawn) -> Value | Fault:
    """A choice in words may name earlier draws: "dilute {acid}"."""
    return fill(value, Shown(env)) if isinstance(value, str) else _in_unit(value, draw)


def _row(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    if not draw.rows:
        return Fault(f"no row of {draw.table} meets the conditions")
    return draw.rows[choose(seed, name, len(draw.rows))]


def _names(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    taken = {value for value in env.values() if isinstance(value, str)}
    free = [person for person in PEOPLE if person not in taken]
    return free[choose(seed, name, len(free))] if free else Fault("no name is left")


def _shuffle(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    return _together([_in_unit(value, draw) for value in shuffled(seed, name, draw.choices)])


def _pick(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    if not 0 < draw.count <= len(draw.choices):
        return Fault(f"cannot pick {draw.count} of {len(draw.choices)}")
    several = shuffled(seed, name, draw.choices)[: draw.count]
    return _together([_in_unit(value, draw) for value in several])


def _readings(draw: Draw, env: Drawn, seed: int, name: str) -> Value | Fault:
    """Readings within `spread` of the centre, each a whole number of steps.

    An anomaly, at a random position, is 5 to 9 spreads away: far enough to be seen in a table.
    """
    unit = unit_of(draw.unit) or PLAIN
    numbers: list[Fraction] = []
    for expression in (draw.centre, draw.spread, draw.step):
        value = _number(expression, env, unit)
        if isinstance(value, Fault):
            return value
        numbers.append(value)
    centre, spread, step = numbers
    if step <= 0 or spread < 0 or draw.count < 1:
        return Fault("readings need a count, a step above 0 and a spread that is not negative")
    wide = int(spread // step)
    middle = round(centre / step)
    places = [
        middle - wide + choose(seed, f"{name}/{index}", 2 * wide + 1) for index in range(draw.count)
    ]
    if draw.anomaly:
        odd = choose(seed, f"{name}/odd", draw.count)
        far = max(wide, 1) * (5 + choose(seed, f"{name}/far", 5))
        low = choose(seed, f"{name}/side", 2) == 0 and middle - far > 0
        places[odd] = middle - far if low else middle + far
    decimals = draw.decimals if draw.decimals is not None else _decimals(step)
    return tuple(Quantity(place * step, unit, decimals) for place in places)


DRAWS: Mapping[str, Callable[[Draw, Drawn, int, str], Value | Fault]] = {
    "range": _range,
    "choice": _choice,
    "row": _row,
    "names": _names,
    "shuffle": _shuffle,
    "pick": _pick,
    "readings": _readings,
}


def _number(expression: Expression | None, env: Drawn, unit: Unit) -> Fraction | Fault:
    """The value of an expression in `unit`; a number without a unit is taken to be in that unit."""
    if expression is None:
        return Fault("a number is missing: this draw needs it")
    if isinstance(expression.node, NumberNode):
        return expression.node.value  # nearly always; a redraw asks for it again and again
    value = evaluate(expression, env)
    if isinstance(value, Fault):
        return value
    if not isinstance(value, Quantity):
        return Fault(f'"{expression.text}" is not a number')
    if value.unit in (PLAIN, unit):
        return value.value
    converted = convert(value, unit)
    return converted if isinstance(converted, Fault) else converted.value


def _in_unit(value: Value, draw: Draw) -> Value:
    if not isinstance(value, Quantity) or value.unit != PLAIN or not draw.unit:
        return value
    decimals = value.decimals if value.decimals is not None else draw.decimals
    return Quantity(value.value, unit_of(draw.unit) or PLAIN, decimals)


def _together(values: list[Value]) -> Value | Fault:
    """A list all of numbers or all of words."""
    numbers = tuple(value for value in values if isinstance(value, Quantity))
    words = tuple(value for value in values if isinstance(value, str))
    if len(numbers) == len(values):
        return numbers
    return words if len(words) == len(values) else Fault("a list holds numbers or words, not both")


def _decimals(value: Fraction) -> int:
    """Decimal places needed to show a value exactly, at most 6."""
    for places in range(_MOST_DECIMALS):
        if (value * 10**places).denominator == 1:
            return places
    return _MOST_DECIMALS
