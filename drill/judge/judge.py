"""Judges a whole question: works out every number in it again from its author's text.

The draws of the seed are repeated, and rejected where a requirement says so. Then every key, wrong
route, printed value, drawn scale or graph and worked line is compared with the result.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from drill.judge.amounts import Amount, Value
from drill.judge.cannot import Cannot
from drill.judge.doubts import Doubt, differs
from drill.judge.filling import says
from drill.judge.graph import Drawn, drawn, graph_doubts
from drill.judge.part_doubts import part_doubts
from drill.judge.parts import PartCase, parts_of
from drill.judge.scale import on_scale, scale_doubts
from drill.judge.units import means
from drill.judge.world import Case, printed, worked_out

if TYPE_CHECKING:
    from drill.model import Part, Question, Template

_TRIES = 200


@dataclass(frozen=True)
class Instance:
    """The numbers of one attempt, and the expected key of each part."""

    tries: int
    env: Mapping[str, Value]
    parts: tuple[PartCase, ...]
    graph: Drawn | None


def doubts(case: Case, template: Template, question: Question) -> list[Doubt]:
    """Every number of a question for which the judge has a different result.

    Args:
        case: the author's file.
        template: the same as the program read it, for its lines.
        question: what the program made of it.
    """
    instance = next(instances(case, question), None)
    if instance is None:
        return [_no_numbers(case, question)]
    try:
        return list(_compared(case, instance, template, question))
    except (Cannot, ArithmeticError, ValueError) as fault:
        return [Doubt("unread", 0, f"the second judge cannot read this question: {fault}.")]


def instances(case: Case, question: Question) -> Iterator[Instance]:
    """The attempts whose numbers meet the requirements, in order; the first is the one asked."""
    for tries in range(_TRIES if case.raw.get("draw") else 1):
        with suppress(Cannot, ArithmeticError, ValueError):  # thrown away: others are drawn
            yield _instance(case, question, tries)


def _instance(case: Case, question: Question, tries: int) -> Instance:
    """One try.

    Raises:
        Cannot: its numbers are thrown away.
    """
    env = worked_out(case.steps, case.draws(question.seed, tries))
    if unmet := case.unmet(env):
        raise Cannot(f'"{unmet}" does not hold')
    if "scale" in case.raw and not on_scale(case.raw["scale"], env):
        raise Cannot("the scale has no such reading")
    graph = drawn(case.raw["graph"], env) if "graph" in case.raw else None
    parts = parts_of(case, env, question.seed, tries, graph)
    if not all(part.good for part in parts):
        raise Cannot("options or wrong routes cannot be told apart")
    return Instance(tries, env, parts, graph)


def _no_numbers(case: Case, question: Question) -> Doubt:
    try:
        _instance(case, question, 0)
        why = "its first numbers are good"
    except (Cannot, ArithmeticError, ValueError) as fault:
        why = str(fault)
    says_ = f"to the second judge no numbers of this seed are good: {why}."
    return Doubt("no numbers", 0, says_)


def _compared(
    case: Case, instance: Instance, template: Template, question: Question
) -> Iterator[Doubt]:
    env, raw = instance.env, case.raw
    yield from _values(case, env, template, question)
    if not template.names:  # a school's own words change the texts
        for key, text in (("title", question.title), ("stem", question.text),
                          ("picture", question.picture), ("safety", question.safety)):  # fmt: skip
            if not says(text, raw.get(key, ""), env):
                line = template.lines.get(key, 0)
                yield differs(key, line, f'"{_short(text)}"', "another text")
    if "scale" in raw:
        line = template.scale.line if template.scale else 0
        yield from scale_doubts(raw["scale"], env, question.scale, line)
    if instance.graph is not None and question.graph is not None:
        line = template.graph.line if template.graph else 0
        yield from graph_doubts(raw["graph"], env, question.graph, instance.graph, line)
    for spec, part, made in zip(template.parts, question.parts, instance.parts, strict=True):
        yield from part_doubts(case, env, spec, part, made, bool(template.names))


def _values(
    case: Case, env: Mapping[str, Value], template: Template, question: Question
) -> Iterator[Doubt]:
    """The drawn and worked values that the keys carry with them."""
    chain = next((key.chain for part in question.parts for key in keys_of(part)), None)
    if chain is None:
        return
    lines = {draw.name: draw.line for draw in template.draws}
    lines |= {step.name: step.line for step in template.work}
    for name, value in printed(env).items():
        line = lines.get(name, 0)
        found = chain.printed.get(name)
        if not _same(found, value):
            yield differs(f'"{name}"', line, _shown(found), _shown(value))
    for name, value in chain.givens.items():
        unit = getattr(getattr(value, "unit", None), "symbol", None)
        mine = env.get(name)
        if unit is not None and isinstance(mine, Amount) and not means(unit, mine.unit):
            yield differs(f'the unit of "{name}"', lines.get(name, 0), unit, mine.unit.symbol)


def keys_of(part: Part) -> list[Any]:
    """The keys of a part's numbers: one, or one for each cell of a table."""
    key: Any = part.key
    if part.kind == "table":
        return list(key.cells.values())
    return [key] if part.kind in ("number", "reading") else []


def _same(found: Any, value: Value) -> bool:
    """Whether a value used by the program equals this one."""
    if isinstance(value, Amount):
        shown = getattr(found, "decimals", None), getattr(found, "figures", None)
        return bool(getattr(found, "value", None) == value.number) and shown == (
            value.places,
            value.figures,
        )
    if isinstance(value, tuple):
        same_length = isinstance(found, tuple) and len(found) == len(value)
        return same_length and all(map(_same, found, value))
    if isinstance(value, Mapping):
        cells = getattr(found, "cells", {})
        return cells.keys() == value.keys() and all(_same(cells[k], v) for k, v in value.items())
    return bool(found == value)


def _shown(value: Any) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(map(_shown, value))}]"
    number = getattr(value, "value", getattr(value, "number", value))
    return str(number) if not isinstance(value, Mapping) else "a row of facts"


def _short(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57]}..."
