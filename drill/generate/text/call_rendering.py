"""Functions of a formula, each as it is written on paper: a mean as a sum over a count."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING

from drill.generate.text.amounts import amount_text, number_text, with_unit
from drill.generate.text.pieces import PRODUCT, SUM, WHOLE, FormulaPiece, added, signed, unit_text
from drill.quantities import Fault, Quantity, Value
from drill.quantities.expressions.nodes import Binary, Call, Negate, Node, NumberNode

if TYPE_CHECKING:
    from drill.generate.text.rendering import Writer

_HUNDRED = NumberNode(Fraction(100), "100")


def _inner(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    """Rounding is said at the end of the line, not inside it."""
    return writer.piece(arguments[0])


def _mean(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    items = writer.quantities(arguments)
    return FormulaPiece(
        f"{with_unit(f'({added(items)})', unit_text(items))} ÷ {len(items)}", PRODUCT
    )


def _total(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    items = writer.quantities(arguments)
    unit = unit_text(items)
    return FormulaPiece(
        f"({added(items)}) {unit}" if unit else added(items), PRODUCT if unit else SUM
    )


def _range(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    items = sorted(writer.quantities(arguments), key=lambda one: one.value)
    return FormulaPiece(
        f"{amount_text(items[-1])} − {signed(amount_text(items[0])).inside(WHOLE)}", SUM
    )


def _half_range(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    return FormulaPiece(f"({_range(writer, arguments).text}) ÷ 2", PRODUCT)


def _gradient(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    x1, y1, x2, y2 = arguments
    up = Binary("-", y2, y1)
    return writer.piece(Binary("/", up, Binary("-", x2, x1)))


def _percent_change(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    before, after = arguments
    share = Binary("/", Binary("-", after, before), before)
    return writer.piece(Binary("*", share, _HUNDRED))


def _percent_of(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    part, whole = arguments
    return writer.piece(Binary("*", Binary("/", part, whole), _HUNDRED))


def _percent_error(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    measured, true = arguments
    off = _size(writer, (Binary("-", measured, true),)).inside(WHOLE)
    return FormulaPiece(f"{off} ÷ {writer.piece(true).inside(WHOLE)} × 100", PRODUCT)


def _root(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    return FormulaPiece(f"√({writer.write(arguments[0])})")


def added_up(writer: Writer, call: Call) -> FormulaPiece:
    """A subject's function as the sum it stands for, 63.5 + 32 + 9 × 16; else its first argument.

    A function that names no sum is its value.
    """
    function = call.own
    if function is None or function.sum_of is None:
        return writer.worked_out(call)
    arguments = [writer.value(one) for one in call.arguments]
    given = [None if isinstance(one, Fault) else one for one in arguments]
    if function.looks_in:
        given.insert(0, writer.values.get(function.looks_in))
    items = function.sum_of(given)
    if not items:
        return writer.piece(call.arguments[0])
    return FormulaPiece(" + ".join(_so_many(count, item) for count, item in items), SUM)


def _so_many(count: int, item: Value) -> str:
    text = number_text(item) if isinstance(item, Quantity) else str(item)
    return text if count == 1 else f"{count} × {text}"


def _branch(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    condition, yes, no = arguments
    return writer.piece(yes if writer.value(condition) is True else no)


def _size(writer: Writer, arguments: tuple[Node, ...]) -> FormulaPiece:
    inside = arguments[0]
    value = writer.value(inside)
    negative = isinstance(value, Quantity) and value.value < 0
    if isinstance(inside, Binary) and inside.op == "-" and negative:
        return writer.piece(Binary("-", inside.right, inside.left))
    return writer.piece(Negate(inside) if negative else inside)


CALLS: Mapping[str, Callable[[Writer, tuple[Node, ...]], FormulaPiece]] = {
    "round": _inner,
    "sig": _inner,
    "mean": _mean,
    "sum": _total,
    "range": _range,
    "half_range": _half_range,
    "gradient": _gradient,
    "percent_change": _percent_change,
    "percent_of": _percent_of,
    "percent_error": _percent_error,
    "sqrt": _root,
    "if": _branch,
    "abs": _size,
}
