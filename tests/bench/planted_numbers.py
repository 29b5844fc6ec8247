"""Faults in arithmetic, units, rounding, showing, functions of lists, masses."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from drill.bank.reference import facts
from drill.frozen import replace
from drill.generate.draws import draw_kinds
from drill.generate.text import fill
from drill.quantities import Quantity, arithmetic, figures
from drill.quantities.evaluation import evaluator, steps
from drill.quantities.expressions import nodes, parser
from drill.quantities.units import conversion, unit_reading
from drill.subjects.chemistry import formulae
from tests.bench.planted import Fault, scaled
from tests.bench.planting import (
    OFF,
    binding,
    by,
    down,
    function,
    list_as,
    operation,
    result,
    rule,
    sizes,
    unit,
    up,
    wrapped,
)

ARITHMETIC = (
    Fault("× gives 0.1 % more", "arithmetic", "*", result("*", by(OFF))),
    Fault("÷ gives 0.1 % more", "arithmetic", "/", result("/", by(OFF))),
    Fault("+ gives 0.1 % more", "arithmetic", "+", result("+", by(OFF))),
    Fault("− gives 0.1 % more", "arithmetic", "-", result("-", by(OFF))),
    Fault("÷ the other way round", "arithmetic", "/", operation("/", lambda f, a, b: f(b, a))),
    Fault("− the other way round", "arithmetic", "-", operation("-", lambda f, a, b: f(b, a))),
    Fault("− adds", "arithmetic", "-", operation("-", lambda f, a, b: arithmetic.add(a, b))),
    Fault("+ subtracts", "arithmetic", "+", operation("+", lambda f, a, b: arithmetic.subtract(a, b))),
    Fault("× divides", "arithmetic", "*", operation("*", lambda f, a, b: arithmetic.divide(a, b))),
    Fault("a power one too high", "arithmetic", "^",
          operation("^", lambda f, a, b: f(a, replace(b, value=b.value + 1)))),
    Fault("a sign is lost", "arithmetic", "negate", rule(nodes.Negate, lambda f, n, e: evaluator._value(n.operand, e))),
    Fault("× drops the last digit of 12", "arithmetic", "*",
          result("*", lambda q: replace(q, value=figures.to_figures(q.value, 11)))),
    Fault("÷ to 6 figures", "arithmetic", "/",
          result("/", lambda q: replace(q, value=figures.to_figures(q.value, 6)))),
    Fault("a sum has the places of its coarsest", "arithmetic", "+",
          operation("+", lambda f, a, b: _coarse(f(a, b), a, b))),
)  # fmt: skip


def _coarse(total: Any, a: Quantity, b: Quantity) -> Any:
    if isinstance(total, Quantity) and a.decimals is not None and b.decimals is not None:
        return replace(total, decimals=min(a.decimals, b.decimals))
    return total


PRECEDENCE = (
    Fault("− holds like ×", "precedence", "-", binding("-", power=parser._PRODUCT)),
    Fault("+ holds like ×", "precedence", "+", binding("+", power=parser._PRODUCT)),
    Fault("÷ holds like +", "precedence", "/", binding("/", power=parser._SUM)),
    Fault("× holds like +", "precedence", "*", binding("*", power=parser._SUM)),
    Fault("× holds like a power", "precedence", "*", binding("*", power=parser._POWER)),
    Fault("÷ holds more tightly than ×", "precedence", "/", binding("/", power=parser._SIGN)),
    Fault("a power holds like ×", "precedence", "^", binding("^", power=parser._PRODUCT)),
    Fault("in holds more tightly than +", "precedence", "in unit", binding("in", power=parser._SIGN)),
    Fault("in holds more loosely than <", "precedence", "in unit", binding("in", power=parser._NOT)),
    Fault("and holds more loosely than or", "precedence", "and", binding("and", power=0.5)),
    Fault("a − b − c is a − (b − c)", "precedence", "-",
          lambda engine: engine.attribute(parser._Parser, "_infix", _from_the_right)),
)  # fmt: skip


def _from_the_right(self: Any, left: Any, power: int) -> Any:
    token = self._cursor.take_part()
    if token.text == "in":
        return self._in(left, token.column)
    if token.text in parser.COMPARISONS:
        return self._comparison(left, token)
    if token.text in ("and", "or"):
        return nodes.Logic(token.text, left, self._expression(power), token.column)
    right = self._expression(parser._SIGN - 1 if token.text == "^" else power - 1)
    return nodes.Binary(token.text, left, right, token.column)


UNITS = (
    Fault("dm is a twentieth of a metre", "units", "unit dm3", unit("dm", 2)),
    Fault("cm is a tenth of a metre", "units", "unit cm3", unit("cm", 10)),
    Fault("kJ is 100 J", "units", "unit kJ", unit("kJ", Fraction(1, 10))),
    Fault("a minute has 100 s", "units", "unit min", unit("min", Fraction(5, 3))),
    Fault("mm is a hundredth", "units", "unit mm", unit("mm", 10)),
    Fault("g is a kilogram", "units", "unit g", unit("g", 1000)),
    Fault("mol is a millimole", "units", "unit mol", unit("mol", Fraction(1, 1000))),
    Fault("a conversion is off by ten", "units", "in unit", wrapped(conversion.convert, lambda f, q, to: _by_ten(f(q, to), q))),
    Fault("a conversion multiplies for dividing", "units", "in unit", wrapped(conversion.convert, lambda f, q, to: _turned(f(q, to), q))),
    Fault("a conversion leaves the number", "units", "in unit", wrapped(conversion.convert, lambda f, q, to: _left(f(q, to), q))),
    Fault("a conversion leaves the unit", "units", "in unit", rule(nodes.Convert, lambda f, n, e: evaluator._value(n.operand, e))),
    Fault("a power of a unit counts once", "units", "in unit", wrapped(unit_reading.unit_from, lambda f, factors: _once(f, factors))),
    Fault("steps are not held to their unit", "units", "work", wrapped(steps._fitted, lambda f, v, *rest: v)),
)  # fmt: skip


def _by_ten(found: Any, before: Quantity) -> Any:
    changed = isinstance(found, Quantity) and found.value != before.value
    return scaled(found, 10) if changed else found


def _turned(found: Any, before: Quantity) -> Any:
    if not isinstance(found, Quantity) or not before.value:
        return found
    return replace(found, value=before.value * before.value / found.value)


def _left(found: Any, before: Quantity) -> Any:
    return replace(found, value=before.value) if isinstance(found, Quantity) else found


def _once(make: Any, factors: Any) -> Any:
    made = make(list(factors := list(factors)))
    scale = Fraction(1)
    for atom, exponent in factors:
        scale *= atom.scale if exponent > 0 else 1 / atom.scale
    return replace(made, scale=scale)


ROUNDING = (
    Fault("a tie goes to the even digit", "rounding", "number", wrapped(figures.half_up, lambda f, v, n: figures.half_even(v, n))),
    Fault("rounding cuts off", "rounding", "number", wrapped(figures.half_up, lambda f, v, n: down(v, n))),
    Fault("rounding goes up", "rounding", "number", wrapped(figures.half_up, lambda f, v, n: up(v, n))),
    Fault("rounding to one place more", "rounding", "number", wrapped(figures.half_up, lambda f, v, n: f(v, n + 1))),
    Fault("round(…) to one place fewer", "rounding", "round", function("round", lambda f, v: f([v[0], replace(v[1], value=max(v[1].value - 1, Fraction(0)))]))),
    Fault("round(…) shows a place more", "rounding", "round", function("round", lambda f, v: _places(f(v), 1))),
    Fault("figures are one too few", "rounding", "number", wrapped(figures.to_figures, lambda f, v, n: f(v, max(n - 1, 1)))),
    Fault("the first digit is looked for a place too low", "rounding", "number", wrapped(figures.exponent_of, lambda f, v: f(v) - 1)),
    Fault("floor rounds", "rounding", "floor", function("floor", lambda f, v: replace(f(v), value=Fraction(round(v[0].value))))),
    Fault("ceil rounds", "rounding", "ceil", function("ceil", lambda f, v: replace(f(v), value=Fraction(round(v[0].value))))),
    Fault("ceil goes one up from a whole number", "rounding", "ceil", function("ceil", lambda f, v: replace(f(v), value=Fraction(v[0].value // 1 + 1)))),
    Fault("abs keeps the sign", "rounding", "abs", function("abs", lambda f, v: v[0])),
    Fault("sqrt halves", "rounding", "sqrt", function("sqrt", lambda f, v: scaled(v[0], Fraction(1, 2)))),
    Fault("log10 one too high", "rounding", "log10", function("log10", lambda f, v: replace(f(v), value=f(v).value + 1))),
)  # fmt: skip


def _places(value: Any, more: int) -> Any:
    return replace(value, decimals=value.decimals + more) if isinstance(value, Quantity) else value


SHOWING = (
    Fault("a place too few is shown", "showing", "all", wrapped(figures.show_decimals, lambda f, v, n: f(v, max(n - 1, 0)))),
    Fault("what is shown is cut off", "showing", "all", wrapped(figures.show_decimals, lambda f, v, n: f(down(v, n), n))),
    Fault("zeros at the end are left out", "showing", "all", wrapped(figures.show_decimals, lambda f, v, n: f(v, n).rstrip("0").rstrip(".") or "0")),
    Fault("a figure too many is shown", "showing", "all", wrapped(figures.show_figures, lambda f, v, n: f(v, n + 1))),
    Fault("the unit is left out", "showing", "all", wrapped(figures.show, lambda f, q, unit=True: f(q, unit=False))),
    Fault("a minus is left out", "showing", "all", wrapped(figures.show, lambda f, q, unit=True: f(q, unit).lstrip("-"))),
    Fault("{bare:} prints the unit", "showing", "all", wrapped(fill._plain, lambda f, n, v, unit: f(n, v, True))),
    Fault("a list leaves out its last", "showing", "list", wrapped(fill._several, lambda f, v, unit: f(v[:-1], unit))),
    Fault("a list is printed in order of size", "showing", "draw readings", wrapped(fill._several, lambda f, v, unit: f(tuple(sorted(v, key=str)), unit))),
    Fault("places of a draw are lost", "showing", "draw range", wrapped(draw_kinds._range, lambda f, *a: _no_places(f(*a)))),
    Fault("places of a step are lost", "showing", "work", wrapped(steps._fitted, lambda f, *a: _no_places(f(*a)))),
)  # fmt: skip


def _no_places(value: Any) -> Any:
    return replace(value, decimals=None, figures=None) if isinstance(value, Quantity) else value


LISTS = (
    Fault("mean divides by one fewer", "lists", "mean", function("mean", lambda f, v: scaled(f(v), Fraction(len(v[0]), max(len(v[0]) - 1, 1))))),
    Fault("mean is the median", "lists", "mean", function("mean", lambda f, v: replace(f(v), value=sizes(v[:1])[len(v[0]) // 2].value))),
    Fault("mean leaves out the first", "lists", "mean", function("mean", lambda f, v: f(list_as(v, lambda x: x[1:] or x)))),
    Fault("median is the mean", "lists", "median", function("median", lambda f, v: replace(f(v), value=sum(one.value for one in v[0]) / len(v[0])))),
    Fault("median takes the middle place unsorted", "lists", "median", function("median", lambda f, v: v[0][len(v[0]) // 2])),
    Fault("range is half of it", "lists", "range", function("range", lambda f, v: scaled(f(v), Fraction(1, 2)))),
    Fault("range is last less first", "lists", "range", function("range", lambda f, v: replace(f(v), value=v[0][-1].value - v[0][0].value))),
    Fault("half_range is all of it", "lists", "half_range", function("half_range", lambda f, v: scaled(f(v), 2))),
    Fault("sum leaves out the last", "lists", "sum", function("sum", lambda f, v: f(list_as(v, lambda x: x[:-1] or x)))),
    Fault("count counts one more", "lists", "count", function("count", lambda f, v: replace(f(v), value=f(v).value + 1))),
    Fault("max is the least", "lists", "max", function("max", lambda f, v: sizes(v)[0])),
    Fault("max is the second", "lists", "max", function("max", lambda f, v: sizes(v)[-2 if len(sizes(v)) > 1 else -1])),
    Fault("max is the last", "lists", "max", function("max", lambda f, v: (v[0] if len(v) == 1 else v)[-1])),
    Fault("min is the greatest", "lists", "min", function("min", lambda f, v: sizes(v)[-1])),
    Fault("min is the first", "lists", "min", function("min", lambda f, v: (v[0] if len(v) == 1 else v)[0])),
    Fault("drop_anomaly drops the nearest", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: _without(v, lambda away: away.index(min(away))))),
    Fault("drop_anomaly drops the last", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: v[0][:-1])),
    Fault("drop_anomaly drops the greatest", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: tuple(x for x in v[0] if x is not sizes(v)[-1]))),
    Fault("drop_anomaly drops nothing", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: v[0])),
    Fault("concordant allows twice as much", "lists", "concordant", function("concordant", lambda f, v: f([v[0], scaled(v[1], 2)]))),
    Fault("concordant allows less than so much", "lists", "concordant", function("concordant", lambda f, v: f([v[0], scaled(v[1], Fraction(999, 1000))]))),
    Fault("concordant takes the lowest two", "lists", "concordant", function("concordant", lambda f, v: tuple(sizes(v[:1])[:2]))),
    Fault("concordant takes all", "lists", "concordant", function("concordant", lambda f, v: v[0])),
    Fault("concordant leaves out the rough one", "lists", "concordant", function("concordant", lambda f, v: v[0][1:])),
    Fault("gradient is run over rise", "lists", "gradient", function("gradient", lambda f, v: f([v[1], v[0], v[3], v[2]]))),
    Fault("percent_of is turned over", "lists", "percent_of", function("percent_of", lambda f, v: f(v[::-1]))),
    Fault("percent_change is over the new", "lists", "percent_change", function("percent_change", lambda f, v: f(v[::-1]))),
    Fault("the first of a list is its second", "lists", "draw readings", wrapped(fill.look_up, lambda f, values, name: f(values, name.replace(".1", ".2")))),
)  # fmt: skip


def _without(values: Any, which: Callable[[list[Fraction]], int]) -> Any:
    middle = sizes(values[:1])[len(values[0]) // 2].value
    place = which([abs(one.value - middle) for one in values[0]])
    return values[0][:place] + values[0][place + 1 :]


MASSES = (
    Fault("M(…) is one too many", "masses", "M", wrapped(formulae.molar_mass, lambda f, *a: f(*a) + 1)),
    Fault("a mass in a table of facts is one too many", "masses", "draw row", wrapped(facts.load_facts, lambda f, path: _heavier(f(path), lambda name: name.startswith(("M_", "R_", "A_"))))),
    Fault("numbers of facts are cut to one place", "masses", "draw row", wrapped(facts.load_facts, lambda f, path: _cut(f(path)))),
    Fault("a row's columns are one off", "masses", "draw row", wrapped(facts.load_facts, lambda f, path: _next(f(path)))),
)  # fmt: skip


def _heavier(loaded: Any, which: Callable[[str], bool]) -> Any:
    rows, problems = loaded
    return tuple(_cells(row, lambda name, cell: replace(cell, value=cell.value + 1) if which(name) else cell) for row in rows), problems  # fmt: skip


def _cut(loaded: Any) -> Any:
    rows, problems = loaded
    return tuple(_cells(row, lambda _, cell: replace(cell, value=down(cell.value, 0))) for row in rows), problems  # fmt: skip


def _next(loaded: Any) -> Any:
    rows, problems = loaded
    return tuple(_shifted(row) for row in rows), problems


def _cells(row: Any, change: Callable[[str, Any], Any]) -> Any:
    cells = {k: change(k, c) if isinstance(c, Quantity) else c for k, c in row.cells.items()}
    return replace(row, cells=cells)


def _shifted(row: Any) -> Any:
    """Each number of a row stands in the column before its own."""
    names = [name for name, cell in row.cells.items() if isinstance(cell, Quantity)]
    numbers = [row.cells[name] for name in names]
    moved = zip(names, numbers[1:] + numbers[:1], strict=True)
    return replace(row, cells={**row.cells, **{n: replace(row.cells[n], value=c.value) for n, c in moved}})  # fmt: skip


NUMBERS: tuple[Fault, ...] = (
    *ARITHMETIC, *PRECEDENCE, *UNITS, *ROUNDING, *SHOWING, *LISTS, *MASSES,
)  # fmt: skip
