"""Faults in conditions, keys, draws, drawings and worked answers."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from drill.frozen import replace
from drill.generate.draws import draw_kinds, instance
from drill.generate.keys import number_keys, part_keys, read_off
from drill.generate.pictures import graph_values, scale_values
from drill.generate.text import amounts, call_rendering, pieces, rendering
from drill.generate.worked import number_working
from drill.quantities import Quantity, arithmetic, figures
from drill.quantities.evaluation import comparisons, evaluator, steps
from drill.quantities.expressions import nodes
from drill.quantities.values import PLAIN
from tests.bench.planted import Fault
from tests.bench.planting import (
    OFF,
    constant,
    rule,
    test,
    wrapped,
)

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
    Fault("choices leave out the first", "draws", "draw choice", wrapped(draw_kinds._choice, lambda f, d, *a: f(replace(d, choices=d.choices[1:] or d.choices), *a))),
    Fault("readings come in another order", "draws", "draw readings", wrapped(draw_kinds._readings, lambda f, *a: tuple(f(*a)[::-1]))),
    Fault("no reading is an anomaly", "draws", "draw readings", wrapped(draw_kinds._readings, lambda f, d, *a: f(replace(d, anomaly=False), *a))),
    Fault("rows come in another order", "draws", "draw row", wrapped(draw_kinds._row, lambda f, d, *a: f(replace(d, rows=d.rows[::-1]), *a))),
    Fault("the unit of a draw is left out", "draws", "draw range", wrapped(draw_kinds._range, lambda f, *a: _unitless(f(*a)))),
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
    Fault("a scale's reading is not converted", "drawn", "scale", wrapped(scale_values.scale_of, lambda f, *a: _read(f(*a)))),
)  # fmt: skip


def _high(right: Any) -> Any:
    return lambda self, *a: right(self, *a) * OFF + Fraction(1, 1000)


def _shift(right: Any) -> Any:
    def points(self: Any, spec: Any) -> Any:
        found = right(self, spec)
        heights = [y for _, y in found]
        return tuple((x, y) for (x, _), y in zip(found, heights[1:] + heights[:1], strict=True))

    return points


def _read(scale: Any) -> Any:
    return scale if scale is None else replace(scale, reading=scale.reading + scale.division / 2)


WORKED = (
    Fault("× is printed for ÷", "worked", "/", lambda engine: engine.item(rendering._SIGNS, "/", "×")),
    Fault("+ is printed for −", "worked", "-", lambda engine: engine.item(rendering._SIGNS, "-", "+")),
    Fault("brackets are left out", "worked", "number", lambda engine: engine.attribute(pieces.FormulaPiece, "inside", lambda self, least: self.text)),
    Fault("a mean is printed over one more", "worked", "mean", wrapped(call_rendering._mean, lambda f, *a: _over(f(*a)))),
    Fault("a range is printed the wrong way round", "worked", "range", wrapped(call_rendering._range, lambda f, *a: _swapped(f(*a)))),
    Fault("numbers are rounded, not cut off", "worked", "number", wrapped(amounts._cut, lambda f, v: figures.show_figures(v, 6))),
    Fault("numbers are cut to four figures", "worked", "number", constant(amounts, "_FIGURES", 4)),
    Fault("long numbers lose their …", "worked", "number", wrapped(amounts.number_text, lambda f, q: f(q).rstrip("…"))),
    Fault("a converted number keeps its old value", "worked", "in unit", wrapped(amounts.converted_text, lambda f, before, after: f"{before.split(' ')[0]} {after.unit.symbol}")),
    Fault("the last line is not rounded", "worked", "number", wrapped(number_working._ended, lambda f, lines, key, model: lines)),
)  # fmt: skip


def _over(piece: Any) -> Any:
    head, _, count = piece.text.rpartition(" ")
    return replace(piece, text=f"{head} {int(count) + 1}")


def _swapped(piece: Any) -> Any:
    left, _, right = piece.text.partition(" − ")
    return replace(piece, text=f"{right} − {left}")


QUESTIONS: tuple[Fault, ...] = (*CONDITIONS, *KEYS, *DRAWS, *DRAWN, *WORKED)
