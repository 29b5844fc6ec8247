"""Parts made by hand, so that a test of a marking rule is one or two lines."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from drill.marking import mark
from drill.model import (
    Chain,
    ChoiceKey,
    Key,
    LevelsKey,
    Mark,
    NameKey,
    NumberKey,
    Option,
    OrderKey,
    Part,
    Pattern,
    Point,
    PointSpec,
    Slip,
    WrittenKey,
)
from drill.quantities import Expression, Quantity, Step, Value, parse, run_steps, to_plain, unit_of
from drill.subjects.chemistry.keys import EquationKey, FormulaKey


def part(kind: str, key: Key, points: Mapping[str, int], marks: int | None = None) -> Part:
    """A part with this key; `points` maps each marking point's id to its marks."""
    made = tuple(Point(name, name, worth) for name, worth in points.items())
    total = sum(points.values()) if marks is None else marks
    return Part("a", kind, "a.skill", "?", total, made, key, "", "", subject="chemistry")


def expression(text: str) -> Expression:
    parsed = parse(text)
    assert isinstance(parsed, Expression), parsed
    return parsed


def quantity(value: str, unit: str = "") -> Quantity:
    made = unit_of(unit)
    assert made is not None, unit
    return Quantity(Fraction(value), made)


def chain(
    givens: Mapping[str, tuple[str, str]],
    work: Mapping[str, tuple[str, str]],
    answers: Mapping[str, str] | None = None,
) -> Chain:
    """Names with (value, unit) given, names with (expression, unit) worked from them in order."""
    made: dict[str, Value] = {name: quantity(*pair) for name, pair in givens.items()}
    steps = tuple(Step(name, expression(text), unit) for name, (text, unit) in work.items())
    results = run_steps(steps, made)
    assert not isinstance(results, tuple), results
    printed = {name: to_plain(value) for name, value in {**made, **results}.items()}
    return Chain(made, steps, printed, answers or {})


def number_key(
    links: Chain,
    answer: str,
    unit: str = "",
    *,
    award: Mapping[str, int] | None = None,
    slips: Sequence[tuple[str, str, int]] = (),
    decimals: int | None = None,
    figures: int | None = None,
    printed: bool = True,
    between: tuple[str, str] | None = None,
) -> NumberKey:
    """A number's key; a slip is (id, expression on the printed numbers, what it earns)."""
    worked = {**links.givens, **_results(links)}
    value = worked[answer]
    assert isinstance(value, Quantity)
    made = tuple(_slip(links, *slip) for slip in slips)
    low, high = (Fraction(between[0]), Fraction(between[1])) if between else (None, None)
    return NumberKey(
        value.value,
        unit,
        printed,
        decimals,
        figures,
        award or {"value": 1},
        expression(answer),
        links,
        made,
        low,
        high,
        positive=unit in ("g", "cm3", "mol"),
    )


def _results(links: Chain) -> Mapping[str, Value]:
    results = run_steps(links.steps, links.givens)
    assert not isinstance(results, tuple), results
    return results


def _slip(links: Chain, name: str, text: str, earns: int) -> Slip:
    from drill.quantities import evaluate

    gives = expression(text)
    value = evaluate(gives, links.printed)
    assert isinstance(value, Quantity), value
    return Slip(name, value.value, str(value.value), earns, f"Slip {name}.", gives)


def number(key: NumberKey) -> Part:
    return part("number", key, key.award)


def choice(*options: tuple[str, bool, str], several: bool = False) -> Part:
    made = tuple(
        Option(letter, text, right, says)
        for letter, (text, right, says) in zip("ABCDEFGH", options, strict=False)
    )
    right = {option.letter: 1 for option in made if option.right}
    return part("choice", ChoiceKey(made, several), right if several else {"value": 1})


def order(steps: str, right: str, why: Mapping[str, str] | None = None, marks: int = 1) -> Part:
    shown = tuple((letter, f"step {letter}") for letter in steps)
    return part("order", OrderKey(shown, right, why or {}), {"value": marks})


def name(*accept: str, alike: Mapping[str, str] | None = None) -> Part:
    return part("name", NameKey(accept, alike or {}), {"value": 1})


def formula(*accept: str) -> Part:
    return part("formula", FormulaKey(accept), {"value": 1})


def equation(*accept: str, award: Mapping[str, int] | None = None) -> Part:
    points = award or {"species": 1, "balance": 1}
    return part("equation", EquationKey(accept, points), points)


def point(
    name: str,
    *accept: Sequence[str] | Pattern,
    reject: Sequence[Sequence[str] | Pattern] = (),
    ignore: Sequence[Sequence[str] | Pattern] = (),
    needs: Sequence[str] = (),
) -> PointSpec:
    """A marking point; a pattern may be given as its concepts alone."""
    return PointSpec(
        name,
        f"says {name}",
        tuple(_pattern(one) for one in accept),
        tuple(_pattern(one) for one in reject),
        tuple(_pattern(one) for one in ignore),
        needs=tuple(needs),
    )


def _pattern(given: Sequence[str] | Pattern) -> Pattern:
    return given if isinstance(given, Pattern) else Pattern(tuple(given))


def written(
    *points: PointSpec,
    concepts: Mapping[str, tuple[str, ...]] | None = None,
    most: int | None = None,
    asked: int | None = None,
) -> Part:
    total = len(points) if most is None else most
    key = WrittenKey(points, total, asked, concepts or {})
    return part("written", key, {one.id: one.marks for one in points}, total)


def levels(*points: PointSpec, top: Sequence[int] = (6, 4, 2)) -> Part:
    key = LevelsKey(tuple((mark, f"up to {mark}") for mark in top), points, {}, "An exemplar.")
    return part("levels", key, {"level": max(top)})


def marks(made: Part, typed: str, earlier: Mapping[str, Fraction] | None = None) -> int:
    return mark(made, typed, earlier or {}).marks


def verdict(made: Part, typed: str, earlier: Mapping[str, Fraction] | None = None) -> Mark:
    return mark(made, typed, earlier or {})


def points_of(made: Part, typed: str) -> dict[str, int]:
    return {one.id: one.marks for one in mark(made, typed).points}
