"""How a pupil gets from the printed numbers to an answer, which is not always the author's way.

An author may start from a hidden value (a true yield) and work forwards to what is read on a
balance; the pupil starts from the balance. So each answer is looked for forwards, through [work]
lines whose numbers are all known, and backwards, by turning round a printed line that holds the
answer once: total = basin + crystals gives crystals = total - basin.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct

from drill.quantities import Expression, FactsRow, Quantity, Step, Value, evaluate
from drill.quantities.expressions.nodes import Binary, Call, Name, Negate, Node, children


class WorkedStep(Struct, frozen=True):
    """One line of a worked answer: the name it gives and the formula that gives it."""

    name: str
    node: Node


class KnownSoFar(Struct, frozen=True):
    """What a pupil has when a part is asked: names printed so far and answers given so far.

    A column of a row of facts counts as known: it is printed, or asked for as knowledge.
    """

    steps: Mapping[str, Step]
    values: Mapping[str, Value]
    names: frozenset[str]

    def has(self, name: str) -> bool:
        head = name.split(".")[0]
        return name in self.names or isinstance(self.values.get(head), FactsRow)


def route_to(answer: Expression, known: KnownSoFar) -> tuple[WorkedStep, ...] | None:
    """The lines to work before the answer's own formula; None when no way leads there.

    An answer that is just a name is worked out even where it was printed ("show that ...").
    """
    if isinstance(answer.node, Name):
        name = answer.node.name
        without = KnownSoFar(known.steps, known.values, known.names - {name})
        moves = _to(name, without, frozenset())
        return moves if moves is not None else _to(name, known, frozenset())
    return _to_all(names_of(answer.node), known, frozenset())


def _to(name: str, known: KnownSoFar, waiting: frozenset[str]) -> tuple[WorkedStep, ...] | None:
    if known.has(name):
        return ()
    if name in waiting:
        return None
    waiting = waiting | {name}
    step = known.steps.get(name)
    if step is not None:
        moves = _to_all(names_of(step.is_.node), known, waiting)
        if moves is not None:
            return (*moves, WorkedStep(name, step.is_.node))
    return _backwards(name, known, waiting)


def _to_all(
    names: Iterable[str], known: KnownSoFar, waiting: frozenset[str]
) -> tuple[WorkedStep, ...] | None:
    out: dict[str, WorkedStep] = {}
    for name in names:
        moves = _to(name, known, waiting)
        if moves is None:
            return None
        out.update({move.name: move for move in moves if move.name not in out})
    return tuple(out.values())


def _backwards(
    name: str, known: KnownSoFar, waiting: frozenset[str]
) -> tuple[WorkedStep, ...] | None:
    """Steps that work out `name` by rearranging a printed line in which it occurs once."""
    for step in known.steps.values():
        inside = names_of(step.is_.node)
        if step.name not in known.names or inside.count(name) != 1:
            continue
        moves = _to_all((other for other in inside if other != name), known, waiting)
        node = turned_round(step.is_.node, name, Name(step.name))
        if moves is not None and node is not None and _gives(node, known.values, name):
            return (*moves, WorkedStep(name, node))
    return None


def _gives(node: Node, values: Mapping[str, Value], name: str) -> bool:
    """Whether the rearranged formula gives the same value. It does not if a step was rounded."""
    found, wanted = evaluate(Expression("", node, frozenset()), values), values.get(name)
    return (
        isinstance(found, Quantity)
        and isinstance(wanted, Quantity)
        and found.value == wanted.value
        and found.unit.scale == wanted.unit.scale
    )


def turned_round(node: Node, name: str, result: Node) -> Node | None:
    """The formula for `name` when `node`, which holds it once, equals `result`."""
    if isinstance(node, Name):
        return result if node.name == name else None
    if isinstance(node, Negate):
        return turned_round(node.operand, name, Negate(result))
    if isinstance(node, Call) and node.function in ("round", "sig"):
        return turned_round(node.arguments[0], name, result)
    if isinstance(node, Binary):
        in_left = name in names_of(node.left)
        inside, other = (node.left, node.right) if in_left else (node.right, node.left)
        undone = _undone(node.op, result, other, in_left)
        return turned_round(inside, name, undone) if undone else None
    return None


def _undone(op: str, result: Node, other: Node, in_left: bool) -> Node | None:
    """What the unknown side of `left op right` equals."""
    if op == "+":
        return Binary("-", result, other)
    if op == "*":
        return Binary("/", result, other)
    if op == "-":
        return Binary("+", result, other) if in_left else Binary("-", other, result)
    if op == "/":
        return Binary("*", result, other) if in_left else Binary("/", other, result)
    return None


def names_of(node: Node) -> list[str]:
    """Every name in a formula, as often as it stands there, in order."""
    if isinstance(node, Name):
        return [] if node.name in ("true", "false") else [node.name]
    return [name for child in children(node) for name in names_of(child)]
