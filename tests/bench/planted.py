"""How a fault is planted in the running program, and taken out again.

A `Fault` names itself, its group, what a question must use to be tried with it (a function, a sign
as "+", "in unit", "unit g", "and", "decimals", "graph", …; "all" is every question), and a function
that plants it. That one is given an `Engine`, whose methods change the program and remember how it
was. `drill.judge` is never touched.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import ModuleType
from typing import Any, NamedTuple

from drill.frozen import field_names, replace
from drill.model import Template
from drill.quantities import FUNCTIONS, Expression, Quantity
from drill.quantities.evaluation import evaluator
from drill.quantities.expressions import nodes
from drill.quantities.units import unit_table

Planter = Callable[["Engine"], None]


class Fault(NamedTuple):
    """`uses` is what a question must use for the fault to count in it."""

    name: str
    group: str
    uses: str
    plant: Planter


class Engine:
    """Changes to the program, each remembered until it is taken back."""

    def __init__(self) -> None:
        self._back: list[Callable[[], None]] = []

    def attribute(self, owner: Any, name: str, new: Any) -> None:
        """Another value for an attribute of a module or a class."""
        old = owner.__dict__[name]
        self._back.append(lambda: setattr(owner, name, old))
        setattr(owner, name, new)

    def item(self, table: Any, key: Any, new: Any) -> None:
        """Another value in a dictionary."""
        old = table[key]
        self._back.append(lambda: table.__setitem__(key, old))
        table[key] = new

    def everywhere(self, old: Any, new: Any) -> None:
        """Another object wherever a module of the program, or a table of it, has this one."""
        found = 0
        for module in _modules():
            for name, value in list(vars(module).items()):
                if value is old:
                    self.attribute(module, name, new)
                    found += 1
                elif isinstance(value, dict) and not name.startswith("__"):
                    for key in [key for key, one in value.items() if one is old]:
                        self.item(value, key, new)
        assert found, f"nothing to plant: {old}"

    def wrap(self, old: Callable[..., Any], change: Callable[[Any], Callable[..., Any]]) -> None:
        """A function changed wherever it is used; `change` is given the right one."""
        self.everywhere(old, change(old))

    def function(self, name: str, change: Callable[[Any], Callable[..., Any]]) -> None:
        """A function of formulas changed; it takes a list of values and gives one."""
        self.item(FUNCTIONS, name, FUNCTIONS[name]._replace(work=change(FUNCTIONS[name].work)))

    def operation(self, sign: str, change: Callable[[Any], Callable[..., Any]]) -> None:
        """+ - * / or ^ changed; it takes two quantities."""
        table = evaluator._OPERATIONS
        self.item(table, sign, change(table[sign]))

    def result(self, sign: str, change: Callable[[Quantity], Any]) -> None:
        """What + - * / or ^ comes to, changed."""

        def changed(work: Any) -> Any:
            def call(a: Quantity, b: Quantity) -> Any:
                value = work(a, b)
                return change(value) if isinstance(value, Quantity) else value

            return call

        self.operation(sign, changed)

    def rule(self, node: type, change: Callable[[Any], Callable[..., Any]]) -> None:
        """How a kind of node is worked out, changed; it takes the node and the values."""
        self.item(evaluator._RULES, node, change(evaluator._RULES[node]))

    def unit(self, symbol: str, factor: Any) -> None:
        """One unit of the table made larger by a factor."""
        atoms = tuple(
            atom._replace(scale=atom.scale * factor) if atom.symbol == symbol else atom
            for atom in unit_table.ATOMS
        )
        self.everywhere(unit_table.ATOMS, atoms)

    def take_back(self) -> None:
        while self._back:
            self._back.pop()()


@contextmanager
def planted(fault: Fault) -> Iterator[None]:
    """The program with the fault in it; everything it remembers is forgotten before and after."""
    engine = Engine()
    try:
        fault.plant(engine)
        forget()
        yield
    finally:
        engine.take_back()
        forget()


def forget() -> None:
    """Empty every cache of the program but those of the judge."""
    for module in _modules():
        for value in list(vars(module).values()):
            if hasattr(value, "cache_clear") and not isinstance(value, ModuleType):
                value.cache_clear()


def _modules() -> list[ModuleType]:
    return [
        module
        for name, module in list(sys.modules.items())
        if name.startswith("drill.") and not name.startswith("drill.judge")
    ]


# ------------------------------------------------------------ what a question uses


def used_by(template: Template) -> frozenset[str]:
    """What a fault can be planted in and this question uses."""
    out = {"all"}
    for expression in _expressions(template):
        _add(expression.node, out)
    keys = [part.kind for part in template.parts]
    slips = [slip for part in _parts(template) for slip in part.slips]
    out |= {f"kind {kind}" for kind in keys} | {f"draw {draw.kind}" for draw in template.draws}
    tests = {
        "number": any(part.answer is not None for part in _parts(template)),
        "work": bool(template.work),
        "require": bool(template.requirements),
        "slip": bool(slips),
        "slip when": any(slip.when is not None for slip in slips),
        "read off": any(part.read_off for part in _parts(template)),
        "between": any(part.between is not None for part in _parts(template)),
        "graph": template.graph is not None,
        "scale": template.scale is not None,
        "figures": any(part.figures is not None for part in _parts(template)),
        "decimals": any(part.decimals is not None for part in _parts(template)),
        "option when": any(one.when is not None for part in template.parts for one in part.options),
        "right when": any(one.right_when is not None for part in template.parts
                          for one in part.options),
    }  # fmt: skip
    return frozenset(out | {name for name, is_ in tests.items() if is_})


def _parts(template: Template) -> list[Any]:
    return [one for part in template.parts for one in (part, *part.cells.values())]


def _add(node: Any, out: set[str]) -> None:
    match node:
        case nodes.Binary(op) | nodes.Logic(op):
            out.add(op)
        case nodes.Compare(_, ops):
            out |= set(ops)
            if len(ops) > 1:
                out.add("chain")
        case nodes.Call(function):
            out.add(function)
        case nodes.Convert(_, unit):
            out |= {"in unit", *(f"unit {word}" for word in unit.symbol.split("/"))}
        case nodes.Negate():
            out.add("negate")
        case nodes.Not():
            out.add("not")
        case nodes.Member():
            out.add("in list")
        case nodes.ListOf():
            out.add("list")
        case nodes.TextNode():
            out.add("text")
    for child in nodes.children(node):
        _add(child, out)


def _expressions(value: Any) -> Iterator[Expression]:
    """Every formula anywhere inside a template."""
    if isinstance(value, Expression):
        yield value
    elif isinstance(value, dict):
        yield from (one for item in value.values() for one in _expressions(item))
    elif isinstance(value, tuple):
        yield from (one for item in value for one in _expressions(item))
    elif not isinstance(value, Quantity | type):
        yield from (
            one for name in field_names(value) for one in _expressions(getattr(value, name))
        )


def scaled(quantity: Quantity, factor: Any) -> Quantity:
    """A quantity so many times as large, in its own unit."""
    return replace(quantity, value=quantity.value * factor)
