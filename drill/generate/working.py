"""The worked answer of a number: each line in words, with the numbers put in, then as asked for."""

from __future__ import annotations

from collections.abc import Mapping

from drill.generate.amounts import amount_text, number_text, with_unit
from drill.generate.numbers import precision
from drill.generate.rendering import Writer
from drill.generate.route import Known, Move, route_to
from drill.generate.setting import Setting
from drill.generate.words import capital
from drill.model import NumberKey
from drill.quantities import Quantity, Step
from drill.quantities.nodes import Call, Name


def working(key: NumberKey, model: str, setting: Setting) -> list[str]:
    """The lines that lead from the printed numbers to `model`, which ends the last of them.

    Only the model answer when the printed numbers do not lead there: then the author's own words
    must (`worked = "…"`), which `drill bank check` sees to.
    """
    steps = {step.name: step for step in setting.template.work}
    known = Known(steps, setting.values, setting.seen | set(setting.chain.answers.values()))
    moves = route_to(key.answer, known)
    if moves is None or (not moves and isinstance(key.answer.node, Name)):
        return [model]
    if not isinstance(key.answer.node, Name):
        moves = (*moves, Move("", key.answer.node))
    writer = Writer(setting.values)
    lines = _lines(moves, steps, writer)
    return _ended(lines, key, model)


def _lines(moves: tuple[Move, ...], steps: Mapping[str, Step], writer: Writer) -> list[str]:
    lines: list[str] = []
    for move in moves:
        formula = writer.write(move.node)
        lines += writer.conversions
        writer.conversions.clear()
        pieces = [_called(move.name, steps), formula, *_values(move, writer)]
        lines.append(" = ".join(dict.fromkeys(pieces)))
    return lines


def _values(move: Move, writer: Writer) -> list[str]:
    """What a formula comes to; a value rounded inside it is shown before and after."""
    value = writer.values[move.name] if move.name else writer.value(move.node)
    node = move.node
    if not isinstance(value, Quantity):
        return [str(value)]
    if isinstance(node, Call) and node.function in ("round", "sig"):
        before = writer.value(node.arguments[0])
        if isinstance(before, Quantity) and before.value != value.value:
            unrounded = amount_text(Quantity(before.value, value.unit))
            return [unrounded, f"{amount_text(value)} ({_rounding(node)})"]
    return [amount_text(value)]


def _rounding(node: Call) -> str:
    places = node.arguments[1]
    number = int(getattr(places, "value", 0))
    return precision(number, None) if node.function == "round" else precision(None, number)


def _called(name: str, steps: Mapping[str, Step]) -> str:
    step = steps.get(name)
    return (step.called if step else "") or name.replace("_", " ") or "answer"


def _ended(lines: list[str], key: NumberKey, model: str) -> list[str]:
    """The last line brought to the answer's unit and precision."""
    *before, last = lines
    exact = with_unit(number_text(Quantity(key.value)), key.unit)
    reached = last.rpartition(" = ")[2]
    if _same(reached, model):
        return [*before, last[: -len(reached)] + model]
    if _same(exact, model) or exact.partition(" ")[0] == model.partition(" ")[0]:
        return [*before, f"{last} = {model}"]
    if _in_other_unit(reached, key.unit):
        last = f"{last} = {exact}"
    words = precision(key.decimals, key.figures) or "rounded"
    return [*before, last, f"{capital(words)}: {model}"]


def _same(left: str, right: str) -> bool:
    return left.replace("−", "-") == right.replace("−", "-")


def _in_other_unit(text: str, unit: str) -> bool:
    return bool(unit) and not text.endswith(f" {unit}")
