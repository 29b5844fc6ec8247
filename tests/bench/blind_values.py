"""Faults drawn blind, in values: operators, units, rounding, lists, conditions, molar masses."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from drill.frozen import replace
from drill.quantities import FactsRow, Quantity, figures
from drill.quantities.evaluation import evaluator, lookup
from drill.quantities.expressions import nodes
from drill.quantities.units import conversion
from drill.subjects.chemistry import formulae, molar_mass
from tests.bench.planted import Fault, Planter, scaled
from tests.bench.planting import (
    binding,
    by,
    down,
    function,
    list_as,
    operation,
    result,
    rule,
    sizes,
    test,
    unit,
    up,
    wrapped,
)

PER_MILLE = Fraction(1001, 1000)


def changed(name: str, change: Callable[[Any], Any]) -> Planter:
    """What a function of formulas gives, changed where it is a number."""
    return function(name, lambda old, values: _numbers(old(values), change))


def _numbers(value: Any, change: Callable[[Any], Any]) -> Any:
    return change(value) if isinstance(value, Quantity) else value


def rounded(work: Callable[[Fraction, int], Fraction]) -> Planter:
    """`round` of formulas by another rule."""

    def call(old: Any, values: Any) -> Any:
        right = old(values)
        if not isinstance(right, Quantity) or right.decimals is None:
            return right
        return replace(right, value=work(values[0].value, right.decimals))

    return function("round", call)


def half_down(value: Fraction, places: int) -> Fraction:
    size = Fraction(10) ** places
    below, above = down(abs(value), places), up(abs(value), places)
    near = below if abs(value) - below <= above - abs(value) else above
    assert near * size == int(near * size)
    return -near if value < 0 else near


def a_list(name: str, change: Callable[[list[Any]], Any]) -> Planter:
    """A function of a list that looks at another list, where that is not empty."""

    def call(old: Any, values: Any) -> Any:
        other = list_as(values, change)
        return old(other) if other[0] else old(values)

    return function(name, call)


def whole_range(old: Any, values: Any) -> Any:
    half = old(values)
    return scaled(half, 2) if isinstance(half, Quantity) else half


def median_unsorted(old: Any, values: Any) -> Any:
    right = old(values)
    middle = values[0][len(values[0]) // 2]
    return replace(right, value=middle.value) if isinstance(right, Quantity) else right


def mean_one_fewer(old: Any, values: Any) -> Any:
    right, number = old(values), len(values[0])
    return scaled(right, Fraction(number, max(number - 1, 1)))


def mean_of_ends(old: Any, values: Any) -> Any:
    several = sizes(values[:1])
    return replace(old(values), value=(several[0].value + several[-1].value) / 2)


def drops_the_greatest(old: Any, values: Any) -> Any:
    return tuple(one for one in values[0] if one is not sizes(values)[-1])


def from_mean(old: Any, values: Any) -> Any:
    """The reading closest to the mean is taken for the anomaly."""
    several = values[0]
    mean = sum((one.value for one in several), Fraction(0)) / len(several)
    place = min(range(len(several)), key=lambda at: abs(several[at].value - mean))
    return several[:place] + several[place + 1 :]


def twice_within(old: Any, values: Any) -> Any:
    return old([values[0], scaled(values[1], 2)])


def first_pair(old: Any, values: Any) -> Any:
    """Concordant titres are just the first two of them."""
    return values[0][:2]


# ------------------------------------------------------------------ conditions


def other_branch(old: Any, node: Any, env: Any) -> Any:
    if node.function != "if":
        return old(node, env)
    condition, then, otherwise = node.arguments
    return old(replace(node, arguments=(condition, otherwise, then)), env)


def logic(op: str, other: str) -> Planter:
    return rule(
        nodes.Logic,
        lambda old, node, env: old(replace(node, op=other) if node.op == op else node, env),
    )


def logic_left_only(old: Any, node: Any, env: Any) -> Any:
    return evaluator._truth(node.left, env)


def chain_end_only(old: Any, node: Any, env: Any) -> Any:
    """low <= x < high looks at its last comparison alone."""
    if len(node.ops) < 2:
        return old(node, env)
    return old(replace(node, operands=node.operands[-2:], ops=node.ops[-1:]), env)


def first_of_list(old: Any, node: Any, env: Any) -> Any:
    return old(replace(node, among=replace(node.among, items=node.among.items[:1])), env)


# ------------------------------------------------------------------ units


def relabelled(right: Any, quantity: Quantity, to: Any) -> Any:
    made = right(quantity, to)
    return replace(made, value=quantity.value) if isinstance(made, Quantity) else made


def upside_down(right: Any, quantity: Quantity, to: Any) -> Any:
    made = right(quantity, to)
    if not isinstance(made, Quantity):
        return made
    return replace(made, value=quantity.value * to.scale / quantity.unit.scale)


def to_three_figures(right: Any, quantity: Quantity, to: Any) -> Any:
    made = right(quantity, to)
    if not isinstance(made, Quantity) or quantity.unit.scale == to.scale:
        return made
    return replace(made, value=figures.to_figures(made.value, 3))


# ------------------------------------------------------------------ molar masses


def truncated(right: Any, value: Fraction, decimals: int) -> int:
    return int(value * Fraction(10) ** decimals)


def without_water(right: Any, text: str) -> Any:
    return right(text.partition(".")[0])


def brackets_ignored(right: Any, atoms: Any, more: Any, times: int) -> Any:
    return right(atoms, more, times if len(more) == 1 else 1)


def chlorine_whole(right: Any, formula: Any, masses: Any) -> Any:
    return right(formula, {**masses, "Cl": Fraction(36)})


def cell_off(old: Any, name: str, env: Any) -> Any:
    """A number of a row of facts counts as another one than is printed."""
    found = old(name, env)
    inside = isinstance(env.get(name.partition(".")[0]), FactsRow)
    return scaled(found, PER_MILLE) if inside and isinstance(found, Quantity) else found


def _minus(old: Any, a: Quantity, b: Quantity) -> Any:
    return _numbers(old(a, b), lambda one: replace(one, value=abs(one.value)))


VALUES = (
    Fault("+ is off by a thousandth", "operators", "+", result("+", by(PER_MILLE))),
    Fault("- loses its sign", "operators", "-", operation("-", _minus)),
    Fault("- the other way round", "operators", "-", operation("-", lambda old, a, b: old(b, a))),
    Fault("* is off by a millionth", "operators", "*", result("*", by(1 + Fraction(1, 10**6)))),
    Fault("* cuts to four places", "operators", "*",
          result("*", lambda one: replace(one, value=down(one.value, 4)))),
    Fault("/ is off by one in two hundred", "operators", "/", result("/", by(Fraction(201, 200)))),
    Fault("/ rounds to three figures", "operators", "/",
          result("/", lambda one: replace(one, value=figures.to_figures(one.value, 3)))),
    Fault("^ multiplies by the exponent", "operators", "^",
          operation("^", lambda old, a, b: replace(old(a, b), value=a.value * b.value))),
    Fault("a minus sign before a value is lost", "operators", "negate",
          rule(nodes.Negate, lambda old, node, env: evaluator._value(node.operand, env))),
    Fault("+ and - hold as tightly as *", "precedence", "+", binding("+", "-", power=7)),
    Fault("* holds no tighter than -", "precedence", "-", binding("*", "/", power=6)),
    Fault("/ holds tighter than *", "precedence", "/", binding("/", power=8)),
    Fault("or holds as tightly as and", "precedence", "or", binding("or", power=2)),
    Fault("a dm is a twelfth of a metre", "units", "unit dm3", unit("dm", Fraction(10, 12))),
    Fault("a cm is off by a hundredth", "units", "unit cm3", unit("cm", Fraction(101, 100))),
    Fault("a cm is a mm", "units", "unit cm", unit("cm", Fraction(1, 10))),
    Fault("a g is a mg", "units", "unit g", unit("g", Fraction(1, 1000))),
    Fault("a mg is ten of them", "units", "unit mg", unit("mg", 10)),
    Fault("a minute has a hundred seconds", "units", "unit min", unit("min", Fraction(100, 60))),
    Fault("a mol is a mmol", "units", "unit mol", unit("mol", Fraction(1, 1000))),
    Fault("a kJ is 4184 J", "units", "unit kJ", unit("kJ", Fraction(4184, 1000))),
    Fault("a nm is an angstrom", "units", "unit nm", unit("nm", Fraction(1, 10))),
    Fault("in changes the unit alone", "conversion", "in unit",
          wrapped(conversion.convert, relabelled)),
    Fault("in turns the factor over", "conversion", "in unit",
          wrapped(conversion.convert, upside_down)),
    Fault("in rounds to three figures", "conversion", "in unit",
          wrapped(conversion.convert, to_three_figures)),
    Fault("round: ties to even", "rounding", "round", rounded(figures.half_even)),
    Fault("round: ties towards nought", "rounding", "round", rounded(half_down)),
    Fault("round: cuts off", "rounding", "round", rounded(down)),
    Fault("round: always up", "rounding", "round", rounded(up)),
    Fault("round: a place fewer", "rounding", "round",
          rounded(lambda value, places: figures.half_up(value, places - 1))),
    Fault("round: not at all", "rounding", "round", rounded(lambda value, places: value)),
    Fault("every number shown is cut off", "rounding", "number",
          wrapped(figures._steps, truncated)),
    Fault("figures: one too many", "rounding", "figures",
          wrapped(figures.to_figures, lambda right, value, count: right(value, count + 1))),
    Fault("sig gives a figure fewer", "rounding", "sig",
          function("sig", lambda old, v: old([v[0], scaled(v[1], Fraction(1, 2))]))),
    Fault("floor goes up", "rounding", "floor",
          changed("floor", lambda one: replace(one, value=one.value + 1))),
    Fault("ceil goes down", "rounding", "ceil",
          changed("ceil", lambda one: replace(one, value=one.value - 1))),
    Fault("abs keeps the sign", "rounding", "abs", function("abs", lambda old, v: v[0])),
    Fault("max is the least", "lists", "max",
          function("max", lambda old, v: sizes(v)[0])),
    Fault("min is the second least", "lists", "min", function("min", lambda old, v: sizes(v)[1])),
    Fault("mean divides by one fewer", "lists", "mean", function("mean", mean_one_fewer)),
    Fault("mean of the ends", "lists", "mean", function("mean", mean_of_ends)),
    Fault("mean leaves out the first", "lists", "mean", a_list("mean", lambda items: items[1:])),
    Fault("median of an unsorted list", "lists", "median", function("median", median_unsorted)),
    Fault("range of all but the last", "lists", "range", a_list("range", lambda one: one[:-1])),
    Fault("half_range is the whole range", "lists", "half_range",
          function("half_range", whole_range)),
    Fault("sum counts the first twice", "lists", "sum",
          a_list("sum", lambda items: [items[0], *items])),
    Fault("count is one too many", "lists", "count",
          changed("count", lambda one: replace(one, value=one.value + 1))),
    Fault("first is the second", "lists", "first", a_list("first", lambda items: items[1:])),
    Fault("last is the one before", "lists", "last", a_list("last", lambda items: items[:-1])),
    Fault("drop leaves out the first", "lists", "drop",
          function("drop", lambda old, v: v[0][1:])),
    Fault("drop_anomaly drops the greatest", "lists", "drop_anomaly",
          function("drop_anomaly", drops_the_greatest)),
    Fault("drop_anomaly drops the closest to the mean", "lists", "drop_anomaly",
          function("drop_anomaly", from_mean)),
    Fault("drop_anomaly drops nothing", "lists", "drop_anomaly",
          function("drop_anomaly", lambda old, v: v[0])),
    Fault("concordant within twice as much", "lists", "concordant",
          function("concordant", twice_within)),
    Fault("concordant: the first two", "lists", "concordant", function("concordant", first_pair)),
    Fault("< holds at its end", "conditions", "<", test("<", lambda order: order <= 0)),
    Fault("<= leaves out its end", "conditions", "<=", test("<=", lambda order: order < 0)),
    Fault("> is the other way round", "conditions", ">", test(">", lambda order: order < 0)),
    Fault(">= leaves out its end", "conditions", ">=", test(">=", lambda order: order > 0)),
    Fault("== always holds for numbers", "conditions", "==", test("==", lambda order: True)),
    Fault("!= never holds for numbers", "conditions", "!=", test("!=", lambda order: False)),
    Fault("and is or", "conditions", "and", logic("and", "or")),
    Fault("or is and", "conditions", "or", logic("or", "and")),
    Fault("and, or look at the left alone", "conditions", "and",
          rule(nodes.Logic, logic_left_only)),
    Fault("not does nothing", "conditions", "not",
          rule(nodes.Not, lambda old, node, env: not old(node, env))),
    Fault("a chain is its end", "conditions", "chain", rule(nodes.Compare, chain_end_only)),
    Fault("in a list: the first alone", "conditions", "in list", rule(nodes.Member, first_of_list)),
    Fault("the branches of if are swapped", "conditions", "if", rule(nodes.Call, other_branch)),
    Fault("a hydrate loses its water", "masses", "M",
          wrapped(formulae.parse_formula, without_water)),
    Fault("a number behind brackets is ignored", "masses", "M",
          wrapped(formulae._add, brackets_ignored)),
    Fault("chlorine is 36", "masses", "M", wrapped(formulae.molar_mass, chlorine_whole)),
    Fault("a molar mass is a thousandth off", "masses", "M",
          wrapped(molar_mass.mass_of, lambda right, *v: _numbers(right(*v), by(PER_MILLE)))),
    Fault("a fact counts as a thousandth more", "facts", "draw row",
          wrapped(lookup.looked_up, cell_off)),
)  # fmt: skip
