"""Checks a question with sympy: composes the working into one expression, compares slips with it.

Arithmetic works step by step; sympy works on the whole, from the trees and scales of this judge.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from drill.judge.algebra import Algebra, rational
from drill.judge.amounts import Amount, Value
from drill.judge.author import formula
from drill.judge.cannot import Cannot
from drill.judge.doubts import Doubt
from drill.judge.grammar import read
from drill.judge.judge import instances, keys_of
from drill.judge.units import unit_of
from drill.judge.working import number
from drill.judge.world import Case, printed, worked_out

if TYPE_CHECKING:
    from drill.model import PartSpec, Question, Template


def proof_doubts(case: Case, template: Template, question: Question) -> list[Doubt]:
    """Everything in a question that sympy disagrees with.

    All of [work] is composed into one exact expression in the drawn numbers (rounding cuts it) and
    must equal the result of the steps. A slip minus the answer must not simplify to zero.
    """
    numbered = [(spec, part) for spec, part in zip(template.parts, question.parts, strict=True)
                if keys_of(part)]  # fmt: skip
    if not numbered:
        return []
    instance = next(instances(case, question), None)
    if instance is None:
        return []  # said already, by the judge itself
    algebra = Algebra(instance.env)
    found = list(_composed(case, template, question, algebra))
    plain = _plain(algebra, instance.env)
    for spec, part in numbered:
        specs = list(spec.cells.values()) if spec.kind == "table" else [spec]
        for one, key in zip(specs, keys_of(part), strict=True):
            found += _proved(one, key, algebra, plain, instance.env)
    return found


def never_met(case: Case, seed: int) -> Iterator[str]:
    """Requirements that do not depend on what is drawn, and are never met."""
    from sympy import cancel

    try:
        env = worked_out(case.steps, case.draws(seed, 0))
    except Cannot:
        return
    algebra = Algebra(env)
    list(_steps(case, algebra))
    for says, text in case.raw.get("require", {}).items():
        tree = read(formula(text))
        sides = _sides(tree.tree)
        try:
            off = cancel(algebra.of(tree, sides[0]) - algebra.of(tree, sides[1])) if sides else None
        except Cannot:
            continue
        if off is not None and not off.free_symbols and case.unmet(env) == says:
            yield says


def _sides(tree: Any) -> tuple[Any, Any] | None:
    import ast

    if isinstance(tree, ast.Compare) and len(tree.comparators) == 1:
        return tree.left, tree.comparators[0]
    return None


def _steps(case: Case, algebra: Algebra) -> Iterator[tuple[str, Any]]:
    """Each step as an expression in what was drawn, kept in the algebra for those behind it."""
    for name, raw in case.steps.items():
        tree = read(formula(raw["is"]))
        try:
            if isinstance(algebra.env[name], tuple):
                algebra.worked[name] = algebra.several(tree, tree.tree)
                continue
            expression = algebra.of(tree, tree.tree)
        except Cannot:
            continue  # words, a condition, or a list of our own making: given as it is
        algebra.worked[name] = expression
        yield name, expression


def _composed(
    case: Case, template: Template, question: Question, algebra: Algebra
) -> Iterator[Doubt]:
    chain = next(key.chain for part in question.parts for key in keys_of(part))
    lines = {step.name: step.line for step in template.work}
    for name, expression in _steps(case, algebra):
        value = getattr(chain.printed.get(name), "value", None)
        if isinstance(value, Fraction) and not algebra.equals(expression, value):
            says = f'"{name}" came to {value} step by step, to sympy it is another value.'
            yield Doubt(f"sympy {name}", lines.get(name, 0), says)


def _plain(algebra: Algebra, env: Mapping[str, Value]) -> Algebra:
    """The same symbols, for wrong routes, whose numbers have no units."""
    plain = Algebra(printed(env))
    plain.worked, plain.known = algebra.worked, algebra.known
    return plain


def _proved(
    spec: PartSpec, key: Any, algebra: Algebra, plain: Algebra, env: Mapping[str, Value]
) -> Iterator[Doubt]:
    assert spec.answer is not None
    text = spec.answer.text
    try:
        tree = read(text)
        answer = algebra.of(tree, tree.tree) * _to_key(key, number(text, env))
    except Cannot:
        return
    if not algebra.equals(answer, key.value):
        says = f"the answer is {key.value} step by step, to sympy it is another value."
        yield Doubt("sympy answer", spec.line, says)
    lines = {slip.id: slip.line for slip in spec.slips}
    for slip in key.slips:
        fault = _slip_fault(slip, answer, plain)
        if fault:
            says = f'the slip "{slip.id}" {fault[0]}'
            yield Doubt(f"sympy {slip.id}", lines[slip.id], says, fault[1])


def _to_key(key: Any, answer: Amount) -> Any:
    """The conversion factor from the answer's unit to the key's."""
    if not key.unit or not answer.unit.base:
        return rational(Fraction(1))
    return rational(answer.unit.scale / unit_of(key.unit).scale)


def _slip_fault(slip: Any, answer: Any, algebra: Algebra) -> tuple[str, str] | None:
    """What is wrong with a slip, and what to do; its printed numbers are the symbols."""
    from sympy import cancel

    try:
        tree = read(slip.gives.text)
        wrong = algebra.of(tree, tree.tree)
    except Cannot:
        return None
    if cancel(wrong - answer) == 0:
        return "is the right answer, written in another way.", "Take it out."
    if not algebra.equals(wrong, slip.value):
        return f"gives {slip.value}, to sympy it is another value.", "Report this fault."
    return None
