"""The worked answer of a number: each line in words, with the numbers put in, then as asked for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeGuard

from drill.generate.keys.number_keys import precision
from drill.generate.part_context import PartContext
from drill.generate.text.amounts import amount_text, number_text, with_unit
from drill.generate.text.articles import capital
from drill.generate.text.pieces import value_text
from drill.generate.text.rendering import Writer
from drill.generate.worked.route import KnownSoFar, WorkedStep, route_to
from drill.model import Key, NumberKey, TableKey
from drill.quantities import Fault, Quantity, Step
from drill.quantities.expressions.nodes import Binary, Call, Convert, Name, Node, NumberNode


def working(key: NumberKey, model: str, context: PartContext) -> list[str]:
    """The lines that lead from the printed numbers to `model`, which ends the last of them.

    Only the model answer when the printed numbers do not lead there: then the author's own words
    must (`worked = "…"`), which `drill bank check` sees to.
    """
    moves = _moves(key, context)
    if not moves:
        return [model]
    steps = {step.name: step for step in context.template.work}
    return _ended(_lines(moves, steps, Writer(context.values)), key, model)


def names_worked(key: Key, context: PartContext) -> frozenset[str]:
    """The names a worked answer works out, which need not be worked again in a later part."""
    keys = key.cells.values() if isinstance(key, TableKey) else (key,)
    moves = [_moves(one, context) for one in keys if isinstance(one, NumberKey)]
    return frozenset(move.name for several in moves for move in several)


def _moves(key: NumberKey, context: PartContext) -> tuple[WorkedStep, ...]:
    """The lines to work; none when the printed numbers do not lead to the answer."""
    steps = {step.name: step for step in context.template.work}
    known = KnownSoFar(steps, context.values, context.seen | set(context.chain.answers.values()))
    moves = route_to(key.answer, known)
    if moves is None or isinstance(key.answer.node, Name):
        return moves or ()
    return (*moves, WorkedStep("", key.answer.node))


def _lines(moves: tuple[WorkedStep, ...], steps: Mapping[str, Step], writer: Writer) -> list[str]:
    lines: list[str] = []
    for move in moves:
        called, formula = _called(move.name, steps), writer.write(_inside(move.node))
        lines += writer.conversions
        writer.conversions.clear()
        *exact, rounded = _values(move, writer)
        if not rounded or formula not in exact:
            lines.append(" = ".join(dict.fromkeys((called, formula, *exact))))
        if rounded:
            lines.append(f"{called}, {rounded}")
    return lines


def _inside(node: Node) -> Node:
    """What is worked out before the result as a whole is turned into another unit."""
    return node.operand if _turned(node) else node


def _turned(node: Node) -> TypeGuard[Convert]:
    return isinstance(node, Convert) and isinstance(node.operand, Binary | Call)


def _values(move: WorkedStep, writer: Writer) -> tuple[str, ...]:
    """What a formula comes to, unrounded; last "to 2 decimal places: 24.12 cm3", or ""."""
    node = move.node
    value = writer.values[move.name] if move.name else writer.value(node)
    if isinstance(value, Fault):
        return "?", ""
    if _turned(node) and not isinstance(before := writer.value(node.operand), Fault):
        return value_text(before), value_text(value), ""
    if isinstance(value, Quantity) and isinstance(node, Call) and node.function in ("round", "sig"):
        before = writer.value(node.arguments[0])
        if isinstance(before, Quantity) and before.value != value.value:
            unrounded = amount_text(Quantity(before.value, value.unit))
            return unrounded, f"{_rounding(node)}: {amount_text(value)}"
    return value_text(value), ""


def _rounding(node: Call) -> str:
    places = node.arguments[1]
    number = int(places.value) if isinstance(places, NumberNode) else 0
    return precision(number, None) if node.function == "round" else precision(None, number)


def _called(name: str, steps: Mapping[str, Step]) -> str:
    step = steps.get(name)
    return (step.called if step else "") or name.replace("_", " ") or "answer"


def _ended(lines: list[str], key: NumberKey, model: str) -> list[str]:
    """The last line brought to the answer's unit and precision."""
    *before, last = lines
    exact = with_unit(number_text(Quantity(key.value)), key.unit)
    words = precision(key.decimals, key.figures) or "rounded"
    for sign in (" = ", ": "):
        head, found, reached = last.rpartition(sign)
        if found and _same(reached, model):
            return [*before, head + found + model]
    if _same(exact, model) or exact.partition(" ")[0] == model.partition(" ")[0]:
        return [*before, f"{last} = {model}"]
    if _in_other_unit(last, key.unit):
        last = f"{last} = {exact}"
    return [*before, last, f"{capital(words)}: {model}"]


def _same(left: str, right: str) -> bool:
    return left.replace("−", "-") == right.replace("−", "-")


def _in_other_unit(text: str, unit: str) -> bool:
    return bool(unit) and not text.endswith(f" {unit}")
