"""The faults that are planted: each a slip that a programmer could make and not see."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

from drill.bank.reference import facts
from drill.generate.draws import draw_kinds, instance
from drill.generate.keys import number_keys, part_keys, read_off
from drill.generate.pictures import graph_values
from drill.generate.text import amounts, call_rendering, fill, pieces, rendering
from drill.generate.worked import number_working
from drill.quantities import Quantity, arithmetic, figures, formulae
from drill.quantities.evaluation import comparisons, evaluator, steps
from drill.quantities.expressions import nodes, parser
from drill.quantities.units import conversion, unit_reading
from drill.quantities.values import PLAIN
from tests.bench.planted import Engine, Fault, Planter, scaled

OFF = Fraction(1001, 1000)


def by(factor: Any) -> Callable[[Quantity], Quantity]:
    return lambda quantity: scaled(quantity, factor)


def result(sign: str, change: Callable[[Quantity], Any]) -> Planter:
    return lambda engine: engine.result(sign, change)


def operation(sign: str, work: Callable[[Any, Any, Any], Any]) -> Planter:
    return lambda engine: engine.operation(sign, lambda old: lambda a, b: work(old, a, b))


def binding(*signs: str, power: int) -> Planter:
    """These signs hold together as tightly as the given power."""

    def plant(engine: Engine) -> None:
        for sign in signs:
            engine.item(parser._BINDING, sign, power)

    return plant


def constant(owner: Any, name: str, value: Any) -> Planter:
    return lambda engine: engine.attribute(owner, name, value)


def function(name: str, work: Callable[[Any, Any], Any]) -> Planter:
    """A function of formulas: `work` gets the right one and its values."""
    return lambda engine: engine.function(name, lambda old: lambda values: work(old, values))


def wrapped(old: Callable[..., Any], work: Callable[..., Any]) -> Planter:
    """Any function of the program: `work` gets the right one and its arguments."""
    return lambda engine: engine.wrap(old, lambda right: lambda *a, **k: work(right, *a, **k))


def test(sign: str, holds: Callable[[int], bool]) -> Planter:
    """A comparison: `holds` gets -1, 0 or 1."""
    return lambda engine: engine.item(comparisons._TESTS, sign, holds)


def rule(node: type, work: Callable[[Any, Any, Any], Any]) -> Planter:
    return lambda engine: engine.rule(node, lambda old: lambda node, env: work(old, node, env))


def unit(symbol: str, factor: Any) -> Planter:
    return lambda engine: engine.unit(symbol, factor)


def _first(values: Any) -> Any:
    return values[0]


def _list(values: Any, change: Callable[[list[Any]], Any]) -> list[Any]:
    """The arguments with the list among them changed."""
    return [tuple(change(list(values[0]))), *values[1:]]


def _sizes(values: Any) -> list[Any]:
    found = values[0] if len(values) == 1 else values
    return sorted(found, key=lambda one: one.value)


def _up(value: Fraction, places: int) -> Fraction:
    return Fraction(-(-value * 10**places // 1), 10**places)


def _down(value: Fraction, places: int) -> Fraction:
    return Fraction(value * 10**places // 1, 10**places)


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
    Fault("rounding cuts off", "rounding", "number", wrapped(figures.half_up, lambda f, v, n: _down(v, n))),
    Fault("rounding goes up", "rounding", "number", wrapped(figures.half_up, lambda f, v, n: _up(v, n))),
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
    Fault("what is shown is cut off", "showing", "all", wrapped(figures.show_decimals, lambda f, v, n: f(_down(v, n), n))),
    Fault("noughts at the end are left out", "showing", "all", wrapped(figures.show_decimals, lambda f, v, n: f(v, n).rstrip("0").rstrip(".") or "0")),
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
    Fault("mean is the median", "lists", "mean", function("mean", lambda f, v: replace(f(v), value=_sizes(v[:1])[len(v[0]) // 2].value))),
    Fault("mean leaves out the first", "lists", "mean", function("mean", lambda f, v: f(_list(v, lambda x: x[1:] or x)))),
    Fault("median is the mean", "lists", "median", function("median", lambda f, v: replace(f(v), value=sum(one.value for one in v[0]) / len(v[0])))),
    Fault("median takes the middle place unsorted", "lists", "median", function("median", lambda f, v: v[0][len(v[0]) // 2])),
    Fault("range is half of it", "lists", "range", function("range", lambda f, v: scaled(f(v), Fraction(1, 2)))),
    Fault("range is last less first", "lists", "range", function("range", lambda f, v: replace(f(v), value=v[0][-1].value - v[0][0].value))),
    Fault("half_range is all of it", "lists", "half_range", function("half_range", lambda f, v: scaled(f(v), 2))),
    Fault("sum leaves out the last", "lists", "sum", function("sum", lambda f, v: f(_list(v, lambda x: x[:-1] or x)))),
    Fault("count counts one more", "lists", "count", function("count", lambda f, v: replace(f(v), value=f(v).value + 1))),
    Fault("max is the least", "lists", "max", function("max", lambda f, v: _sizes(v)[0])),
    Fault("max is the second", "lists", "max", function("max", lambda f, v: _sizes(v)[-2 if len(_sizes(v)) > 1 else -1])),
    Fault("max is the last", "lists", "max", function("max", lambda f, v: (v[0] if len(v) == 1 else v)[-1])),
    Fault("min is the greatest", "lists", "min", function("min", lambda f, v: _sizes(v)[-1])),
    Fault("min is the first", "lists", "min", function("min", lambda f, v: (v[0] if len(v) == 1 else v)[0])),
    Fault("drop_anomaly drops the nearest", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: _without(v, lambda away: away.index(min(away))))),
    Fault("drop_anomaly drops the last", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: v[0][:-1])),
    Fault("drop_anomaly drops the greatest", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: tuple(x for x in v[0] if x is not _sizes(v)[-1]))),
    Fault("drop_anomaly drops nothing", "lists", "drop_anomaly", function("drop_anomaly", lambda f, v: v[0])),
    Fault("concordant allows twice as much", "lists", "concordant", function("concordant", lambda f, v: f([v[0], scaled(v[1], 2)]))),
    Fault("concordant allows less than so much", "lists", "concordant", function("concordant", lambda f, v: f([v[0], scaled(v[1], Fraction(999, 1000))]))),
    Fault("concordant takes the lowest two", "lists", "concordant", function("concordant", lambda f, v: tuple(_sizes(v[:1])[:2]))),
    Fault("concordant takes all", "lists", "concordant", function("concordant", lambda f, v: v[0])),
    Fault("concordant leaves out the rough one", "lists", "concordant", function("concordant", lambda f, v: v[0][1:])),
    Fault("gradient is run over rise", "lists", "gradient", function("gradient", lambda f, v: f([v[1], v[0], v[3], v[2]]))),
    Fault("percent_of is turned over", "lists", "percent_of", function("percent_of", lambda f, v: f(v[::-1]))),
    Fault("percent_change is over the new", "lists", "percent_change", function("percent_change", lambda f, v: f(v[::-1]))),
    Fault("a place in a list counts from nought", "lists", "draw readings", wrapped(fill.look_up, lambda f, values, name: f(values, name))),
)  # fmt: skip


def _without(values: Any, which: Callable[[list[Fraction]], int]) -> Any:
    middle = _sizes(values[:1])[len(values[0]) // 2].value
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
    return tuple(_cells(row, lambda _, cell: replace(cell, value=_down(cell.value, 0))) for row in rows), problems  # fmt: skip


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


CONDITIONS = (
    Fault("< holds on a tie", "conditions", "<", test("<", lambda order: order <= 0)),
    Fault("<= fails on a tie", "conditions", "<=", test("<=", lambda order: order < 0)),
    Fault("> holds on a tie", "conditions", ">", test(">", lambda order: order >= 0)),
    Fault(">= fails on a tie", "conditions", ">=", test(">=", lambda order: order > 0)),
    Fault("< is >", "conditions", "<", test("<", lambda order: order > 0)),
    Fault("> is <", "conditions", ">", test(">", lambda order: order < 0)),
    Fault("> always holds", "conditions", ">", test(">", lambda order: True)),
    Fault("== of numbers never holds", "conditions", "==", test("==", lambda order: False)),
    Fault("!= of numbers always holds", "conditions", "!=", test("!=", lambda order: True)),
    Fault("== of words always holds", "conditions", "text", wrapped(comparisons.holds, lambda f, op, a, b: (op == "==") if isinstance(a, str) else f(op, a, b))),
    Fault("== of words is !=", "conditions", "text", wrapped(comparisons.holds, lambda f, op, a, b: not f(op, a, b) if isinstance(a, str) else f(op, a, b))),
    Fault("== of words looks at the first letter", "conditions", "text", wrapped(comparisons.holds, lambda f, op, a, b: f(op, a[:1], b[:1]) if isinstance(a, str) and isinstance(b, str) else f(op, a, b))),
    Fault("and is or", "conditions", "and", rule(nodes.Logic, lambda f, n, e: f(replace(n, op="or"), e))),
    Fault("or is and", "conditions", "or", rule(nodes.Logic, lambda f, n, e: f(replace(n, op="and"), e))),
    Fault("and looks at its left alone", "conditions", "and", rule(nodes.Logic, lambda f, n, e: evaluator._value(n.left, e))),
    Fault("not is left out", "conditions", "not", rule(nodes.Not, lambda f, n, e: evaluator._value(n.operand, e))),
    Fault("a chain looks at its first pair alone", "conditions", "chain", rule(nodes.Compare, lambda f, n, e: f(replace(n, ops=n.ops[:1], operands=n.operands[:2]), e))),
    Fault("in a list is not in it", "conditions", "in list", rule(nodes.Member, lambda f, n, e: not f(n, e))),
    Fault("if takes the other", "conditions", "if", rule(nodes.Call, lambda f, n, e: f(_other(n), e))),
    Fault("if takes the first", "conditions", "if", rule(nodes.Call, lambda f, n, e: evaluator._value(n.arguments[1], e) if n.function == "if" else f(n, e))),
    Fault("a written number is in base units", "conditions", ">", wrapped(comparisons.in_one_unit, lambda f, values, bare: list(values))),
    Fault("comparison forgets the units", "conditions", ">", wrapped(arithmetic.compare, lambda f, a, b: (a.value > b.value) - (a.value < b.value))),
    Fault("requirements are not looked at", "conditions", "require", wrapped(instance._hold, lambda f, *a: None)),
    Fault("one requirement is passed over", "conditions", "require", wrapped(instance._hold, lambda f, r, v: None if len(r.says) % 2 else f(r, v))),
    Fault("right_when is turned round", "conditions", "right when", wrapped(part_keys._options, lambda f, *a: tuple(o._replace(right=not o.right) for o in f(*a)))),
    Fault("a slip's when is not looked at", "conditions", "slip when", wrapped(number_keys._applies, lambda f, *a: True)),
)  # fmt: skip


def _other(node: Any) -> Any:
    if node.function != "if":
        return node
    condition, one, other = node.arguments
    return replace(node, arguments=(condition, other, one))


KEYS = (
    Fault("the answer is not turned into its unit", "keys", "number", wrapped(number_keys._number_in, lambda f, v, unit, line: v.value)),
    Fault("wrong routes know their units", "keys", "slip", wrapped(steps.to_plain, lambda f, v: v)),
    Fault("a wrong route is rounded", "keys", "slip", wrapped(number_keys._given, lambda f, *a: _to(f(*a), 3))),
    Fault("a wrong route is printed exactly", "keys", "slip", wrapped(number_keys._slip_text, lambda f, v, *a: str(v))),
    Fault("figures asked for are one more", "keys", "figures", wrapped(number_keys.as_asked, lambda f, v, key, spec, s: f(v, key, replace(spec, figures=spec.figures and spec.figures + 1), s))),
    Fault("decimals asked for are one fewer", "keys", "decimals", wrapped(number_keys.as_asked, lambda f, v, key, spec, s: f(v, key, replace(spec, decimals=spec.decimals and spec.decimals - 1), s))),
    Fault("what is accepted begins too low", "keys", "between", wrapped(number_keys._bounds, lambda f, *a: _lower(f(*a)))),
    Fault("a whole division off is accepted", "keys", "read off", wrapped(read_off._half, lambda f, *a: 2 * f(*a))),
    Fault("bounds are rounded inwards", "keys", "read off", wrapped(read_off.bounds, lambda f, v, others: _inwards(f(v, others)))),
    Fault("only one reading is off at a time", "keys", "read off", wrapped(read_off.off_by_half, lambda f, *a: f(*a)[:1])),
    Fault("wrong routes are not told apart", "keys", "slip", wrapped(number_keys._tell_apart, lambda f, *a: None)),
    Fault("precision says one place more", "keys", "number", wrapped(number_keys.precision, lambda f, d, n: f(d and d + 1, n and n + 1))),
)  # fmt: skip


def _to(quantity: Quantity, figure_count: int) -> Quantity:
    return replace(quantity, value=figures.to_figures(quantity.value, figure_count))


def _lower(bounds: Any) -> Any:
    low, high = bounds
    return (None if low is None else low - 1), high


def _inwards(bounds: Any) -> Any:
    low, high = bounds
    return low + (high - low) / 20, high - (high - low) / 20


DRAWS = (
    Fault("a range goes a step too far", "draws", "draw range", wrapped(draw_kinds._range, lambda f, d, e, seed, name: _further(f(d, e, seed, name)))),
    Fault("a range begins half a step later", "draws", "draw range", wrapped(draw_kinds._range, lambda f, *a: _moved(f(*a)))),
    Fault("choices leave out the first", "draws", "draw choice", lambda engine: engine.item(draw_kinds.DRAWS, "choice", lambda d, e, s, n: draw_kinds._choice(replace(d, choices=d.choices[1:] or d.choices), e, s, n))),
    Fault("readings spread twice as far", "draws", "draw readings", lambda engine: engine.item(draw_kinds.DRAWS, "readings", lambda d, e, s, n: tuple(draw_kinds._readings(d, e, s, n)[::-1]))),
    Fault("no reading is an anomaly", "draws", "draw readings", lambda engine: engine.item(draw_kinds.DRAWS, "readings", lambda d, e, s, n: draw_kinds._readings(replace(d, anomaly=False), e, s, n))),
    Fault("rows come in another order", "draws", "draw row", lambda engine: engine.item(draw_kinds.DRAWS, "row", lambda d, e, s, n: draw_kinds._row(replace(d, rows=d.rows[::-1]), e, s, n))),
    Fault("the unit of a draw is left out", "draws", "draw range", lambda engine: engine.item(draw_kinds.DRAWS, "range", lambda d, e, s, n: _unitless(draw_kinds._range(d, e, s, n)))),
)  # fmt: skip


def _further(value: Any) -> Any:
    return replace(value, value=value.value + 1) if isinstance(value, Quantity) else value


def _moved(value: Any) -> Any:
    if not isinstance(value, Quantity):
        return value
    return replace(value, value=value.value + Fraction(1, 2 * 10 ** (value.decimals or 0)))


def _unitless(value: Any) -> Any:
    return replace(value, unit=PLAIN) if isinstance(value, Quantity) else value


DRAWN = (
    Fault("points lie a little high", "drawn", "graph", lambda engine: engine.attribute(graph_values._Maker, "_height", _high(graph_values._Maker._height))),
    Fault("points are one place off", "drawn", "graph", lambda engine: engine.attribute(graph_values._Maker, "points", _shift(graph_values._Maker.points))),
    Fault("every line is straight", "drawn", "graph", wrapped(graph_values._is_straight, lambda f, path: True)),
    Fault("a scale's reading is not converted", "drawn", "scale", lambda engine: _scale(engine)),
)  # fmt: skip


def _high(right: Any) -> Any:
    return lambda self, *a: right(self, *a) * OFF + Fraction(1, 1000)


def _shift(right: Any) -> Any:
    def points(self: Any, spec: Any) -> Any:
        found = right(self, spec)
        heights = [y for _, y in found]
        return tuple((x, y) for (x, _), y in zip(found, heights[1:] + heights[:1], strict=True))

    return points


def _scale(engine: Engine) -> None:
    from drill.generate.pictures import scale_values

    engine.wrap(
        scale_values.scale_of,
        lambda right: lambda *a: _read(right(*a)),
    )


def _read(scale: Any) -> Any:
    return scale if scale is None else replace(scale, reading=scale.reading + scale.division / 2)


WORKED = (
    Fault("× is printed for ÷", "worked", "/", lambda engine: engine.item(rendering._SIGNS, "/", "×")),
    Fault("+ is printed for −", "worked", "-", lambda engine: engine.item(rendering._SIGNS, "-", "+")),
    Fault("brackets are left out", "worked", "number", lambda engine: engine.attribute(pieces.FormulaPiece, "inside", lambda self, least: self.text)),
    Fault("a mean is printed over one more", "worked", "mean", lambda engine: engine.item(call_rendering.CALLS, "mean", lambda w, a: _over(call_rendering._mean(w, a)))),
    Fault("a range is printed the wrong way round", "worked", "range", lambda engine: engine.item(call_rendering.CALLS, "range", lambda w, a: _swapped(call_rendering._range(w, a)))),
    Fault("numbers are rounded, not cut off", "worked", "number", wrapped(amounts._cut, lambda f, v: figures.show_figures(v, 6))),
    Fault("numbers are cut to four figures", "worked", "number", constant(amounts, "_FIGURES", 4)),
    Fault("long numbers lose their …", "worked", "number", wrapped(amounts.number_text, lambda f, q: f(q).rstrip("…"))),
    Fault("a converted number keeps its old value", "worked", "in unit", wrapped(amounts.converted_text, lambda f, before, after: f"{before.split(' ')[0]} {after.unit.symbol}")),
    Fault("the last line is not rounded", "worked", "number", wrapped(number_working._ended, lambda f, lines, key, model: f(lines, key, model)[:-1] or [model])),
)  # fmt: skip


def _over(piece: Any) -> Any:
    head, _, count = piece.text.rpartition(" ")
    return replace(piece, text=f"{head} {int(count) + 1}")


def _swapped(piece: Any) -> Any:
    left, _, right = piece.text.partition(" − ")
    return replace(piece, text=f"{right} − {left}")


FAULTS: tuple[Fault, ...] = (
    *ARITHMETIC, *PRECEDENCE, *UNITS, *ROUNDING, *SHOWING, *LISTS, *MASSES, *CONDITIONS, *KEYS,
    *DRAWS, *DRAWN, *WORKED,
)  # fmt: skip
