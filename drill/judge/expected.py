"""The expected key of a number: its value, its unit, and the result of each common mistake."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations, product

from drill.judge.amounts import Amount, Value, turned
from drill.judge.author import Raw, formula
from drill.judge.cannot import Cannot
from drill.judge.drawing import shown_places
from drill.judge.rounding import (
    first_digit,
    half_even,
    half_up,
    places_of,
    to_figures,
    with_figures,
    written,
)
from drill.judge.units import PLAIN, unit_of
from drill.judge.working import holds, number
from drill.judge.world import Env, printed, worked_out

_TOLD_APART = 3  # figures, where none are asked for


@dataclass(frozen=True)
class Route:
    """A wrong route: its result, as a student would type it."""

    id: str
    value: Fraction
    text: str
    low: Fraction | None = None
    high: Fraction | None = None


@dataclass(frozen=True)
class Expected:
    """A number's key; `text` is the correct answer in the form required."""

    value: Fraction
    unit: str
    text: str
    routes: tuple[Route, ...]
    low: Fraction | None
    high: Fraction | None
    decimals: int | None
    figures: int | None

    @property
    def told_apart(self) -> bool:
        """Whether the results of wrong routes differ from the answer and from each other."""
        ends = [(self.value, self.text), *((one.value, one.text) for one in self.routes)]
        return not any(self._same(a, b) for a, b in combinations(ends, 2))

    def _same(self, one: tuple[Fraction, str], other: tuple[Fraction, str]) -> bool:
        """Whether both are equal when rounded as asked, or as either is written."""
        a, b = one[0], other[0]
        if a == b:
            return True
        if self.decimals is not None and abs(a - b) * 10**self.decimals > 1:
            return False
        if self.decimals is None and self.figures != 1 and abs(a - b) * 10 > max(abs(a), abs(b)):
            return False
        places = {place for value, text in (one, other) for place in self._places(value, text)}
        return any(
            rule(a, place) == rule(b, place) for place in places for rule in (half_up, half_even)
        )

    def _places(self, value: Fraction, text: str) -> Iterator[int]:
        figures = self.figures or _TOLD_APART
        if self.decimals is not None:
            yield self.decimals
        else:
            yield figures - 1 - first_digit(to_figures(value, figures))
        if "×" not in text:
            yield places_of(text.split(" ")[0])


@dataclass(frozen=True)
class Reading:
    """For an answer read off a graph: half a small division of each axis, the printed names."""

    halves: Mapping[str, Amount]
    given: frozenset[str]


def expected(
    raw: Raw, case_raw: Raw, env: Env, steps: Mapping[str, Raw], reading: Reading | None
) -> Expected:
    """The key of one number.

    Args:
        raw: the part or the cell, as its author wrote it.
        case_raw: the whole question.
        env: every value of this instance.
        steps: the author's [work].
        reading: the axes, where the answer is read off a graph.

    Raises:
        Cannot: it has no value.
    """
    text = formula(raw["answer"]).strip()
    stated = {**case_raw.get("draw", {}), **steps}.get(text, {})
    decimals, figures = raw.get("decimals"), raw.get("figures")
    if decimals is None and figures is None and stated:
        decimals, figures = shown_places(stated), stated.get("figures")
    answer = number(text, env)
    unit = raw.get("unit") or stated.get("unit", "") or answer.unit.symbol
    value = _in(answer, unit)
    shape = decimals, figures
    if decimals is None and figures is None:
        shape = _shown_as(text, env)
    plain = printed(env)
    routes = tuple(_routes(raw, env, plain, shape, unit))
    low, high = _between(raw, env, unit)
    made = Expected(
        value, unit, _with(_as_asked(value, shape), unit), routes, low, high, decimals, figures
    )
    return _read_off(made, raw, env, steps, reading) if raw.get("read_off") else made


def _in(amount: Amount, unit: str) -> Fraction:
    """The number of an amount in a unit; a plain number is taken to be in that unit."""
    return amount.number if amount.unit is PLAIN else turned(amount, unit_of(unit)).number


def _with(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit else text


def _shown_as(name: str, env: Env) -> tuple[int | None, int | None]:
    value = env.get(name)
    return (value.places, value.figures) if isinstance(value, Amount) else (None, None)


def _as_asked(value: Fraction, shape: tuple[int | None, int | None]) -> str:
    places, figures = shape
    if places is None and figures is not None:
        return with_figures(value, figures) if value else "0"
    return written(value, places)


def _routes(
    raw: Raw, env: Env, plain: Env, shape: tuple[int | None, int | None], unit: str
) -> Iterator[Route]:
    for slip in raw.get("slip", ()):
        if "when" in slip and not holds(formula(slip["when"]), env):
            continue
        value = number(formula(slip["gives"]), plain).number
        yield Route(slip["id"], value, _with(_typed(value, shape), unit))


def _typed(value: Fraction, shape: tuple[int | None, int | None]) -> str:
    """Rounded as the part asks, but never to fewer than two figures."""
    text = _as_asked(value, shape)
    digits = "".join(sign for sign in text if sign.isdigit()).lstrip("0")
    if "×" not in text and len(digits) < 2 and Fraction(text) != value:
        return with_figures(value, 2)
    return text


def _between(raw: Raw, env: Env, unit: str) -> tuple[Fraction | None, Fraction | None]:
    if "between" not in raw:
        return None, None
    low, high = sorted(_in(number(formula(end), env), unit) for end in raw["between"])
    return low, high


# ------------------------------------------------------------ read off a graph


def _read_off(
    made: Expected, raw: Raw, env: Env, steps: Mapping[str, Raw], reading: Reading | None
) -> Expected:
    """With the tolerance that follows from readings half a small division out."""
    if reading is None:
        raise Cannot("there is no graph to read")
    worlds = list(_worlds(env, steps, reading))
    plain = [printed(world) for world in worlds]
    answer = formula(raw["answer"])
    low, high = _outwards(made.value, [_in(number(answer, one), made.unit) for one in worlds])
    gives = {slip["id"]: formula(slip["gives"]) for slip in raw.get("slip", ())}
    routes = []
    for route in made.routes:
        ends = _outwards(route.value, [number(gives[route.id], one).number for one in plain])
        typed = route.text.split(" ")[0]
        near = "×" not in route.text and low <= Fraction(typed) <= high
        if low <= route.value <= high or near:
            raise Cannot("a reading may end where a wrong route does")
        routes.append(replace(route, low=ends[0], high=ends[1]))
    if low == high:
        raise Cannot("the answer does not hang on what is read")
    return replace(made, low=low, high=high, routes=tuple(routes))


def _worlds(env: Env, steps: Mapping[str, Raw], reading: Reading) -> Iterator[dict[str, Value]]:
    """Every value again, with each reading half a small division too low or too high."""
    names = list(reading.halves)
    givens = {name: value for name, value in env.items() if name not in steps}
    for signs in product((-1, 1), repeat=len(names)):
        off = {
            name: replace(value, number=value.number + sign * _half(value, reading.halves[name]))
            for name, sign in zip(names, signs, strict=True)
            if isinstance(value := env[name], Amount)
        }
        kept = {name: env[name] for name in reading.given if name in steps}
        yield worked_out(steps, {**givens, **kept, **off}, {*kept, *off})


def _half(value: Amount, half: Amount) -> Fraction:
    return turned(half, value.unit).number if value.unit.base else half.number


def _outwards(value: Fraction, others: list[Fraction]) -> tuple[Fraction, Fraction]:
    """The least and the greatest, rounded outwards to two figures of their difference."""
    low, high = min(value, *others), max(value, *others)
    if low == high:
        return low, high
    places = 1 - first_digit(high - low)
    step = Fraction(10) ** -places
    return low // step * step, -(-high // step) * step


def accepted(made: Expected) -> str:
    """What a mark scheme says about the range, after the answer."""
    if made.low is None or made.high is None:
        return ""
    return f" ({written(made.low)} to {written(made.high)} accepted)"
