"""What sympy says of a question: the working composed into one expression, the slips held to it.

Our own arithmetic works step by step; sympy works on the whole. Where the two part, one of them is
wrong, and the question is not asked. Only the commands of an author or a teacher come here.
"""

from __future__ import annotations

from collections.abc import Iterator

from drill.errors import Problem
from drill.generate.proof.algebra import Algebra, NotAlgebra
from drill.generate.proof.second_reading import read_again
from drill.model import Chain, GraphSpec, NumberKey, PartSpec, Question, Slip, TableKey, Template
from drill.quantities import Expression, Quantity, parse, run_steps, unit_of
from drill.subjects import subject


def prove(template: Template, question: Question) -> list[Problem]:
    """Everything of this question on which sympy and our own arithmetic do not agree.

    All of [work] is composed into one exact expression in the drawn numbers (rounding cuts it) and
    must come to what the steps came to; a slip less the answer must not simplify to nothing.
    """
    keys = list(_number_keys(template, question))
    if not keys:
        return []
    algebra, problems = _composed(template, keys[0][1].chain)
    for spec, key in keys:
        problems += _proved(template, spec, key, algebra)
    return problems


def prove_readings(template: Template) -> list[Problem]:
    """Every formula of a template that Python's grammar reads as another tree than ours."""
    problems = []
    for expression, line in formulas(template):
        other = read_again(expression)
        again = parse(expression.text, subject(template.subject).functions)
        ours = again.node if isinstance(again, Expression) else None
        if other is not None and other != ours:
            says = f'"{expression.text}" can be read in two ways.'
            problems.append(Problem(template.path, line, 0, says, "Put brackets in."))
    return problems


def formulas(template: Template) -> Iterator[tuple[Expression, int]]:
    """Every formula of a template with its line."""
    for draw in template.draws:
        for one in (draw.start, draw.stop, draw.step, draw.centre, draw.spread):
            if one is not None:
                yield one, draw.line
    yield from ((step.is_, step.line) for step in template.work)
    yield from ((requirement.is_, requirement.line) for requirement in template.requirements)
    if template.scale is not None:
        yield template.scale.reads, template.scale.line
    if template.graph is not None:
        yield from _formulas_of_graph(template.graph)
    for part in template.parts:
        yield from _formulas_of(part)


def _formulas_of_graph(graph: GraphSpec) -> Iterator[tuple[Expression, int]]:
    for axis in (graph.x, graph.y):
        yield from ((one, axis.line) for one in (axis.low, axis.high) if one is not None)
    several = [graph.points, *(line.through for line in graph.lines)]
    for points in several:
        if points is not None:
            yield from ((one, points.line) for one in (points.x, points.y))
    for line in graph.lines:
        ends = (line.y, line.start, line.stop, line.at)
        yield from ((one, line.line) for one in ends if one is not None)


def _formulas_of(part: PartSpec) -> Iterator[tuple[Expression, int]]:
    for one in (part.answer, *(part.between or ())):
        if one is not None:
            yield one, part.line
    for slip in part.slips:
        yield from ((one, slip.line) for one in (slip.gives, slip.when) if one is not None)
    for option in part.options:
        conditions = (option.when, option.right_when)
        yield from ((one, option.line) for one in conditions if one is not None)
    for cell in part.cells.values():
        yield from _formulas_of(cell)


def _number_keys(template: Template, question: Question) -> Iterator[tuple[PartSpec, NumberKey]]:
    for spec, part in zip(template.parts, question.parts, strict=True):
        if isinstance(part.key, NumberKey):
            yield spec, part.key
        if isinstance(part.key, TableKey):
            yield from ((spec.cells[name], key) for name, key in part.key.cells.items())


def _composed(template: Template, chain: Chain) -> tuple[Algebra, list[Problem]]:
    """All of [work] as expressions in the given numbers, and the steps that come out otherwise."""
    steps = {step.name for step in template.work}
    givens = {name: value for name, value in chain.givens.items() if name not in steps}
    values = run_steps(template.work, givens)
    if isinstance(values, tuple):
        name, fault = values
        says = f'"{name}" cannot be worked out: {fault.message}.'
        return Algebra({}), [Problem(template.path, 0, 0, says, fault.hint)]
    algebra, problems = Algebra(values), []
    for step in template.work:
        value = values[step.name]
        try:
            if isinstance(value, tuple):
                algebra.worked[step.name] = algebra.several(step.is_.node)
                continue
            expression = algebra.of(step.is_.node)
        except NotAlgebra:
            continue  # words, a condition or a list of our own making: given as it is
        if isinstance(value, Quantity) and not algebra.equals(expression, value.value):
            says = (
                f'"{step.name}" came to {value.value} step by step, to sympy it is another value.'
            )
            problems.append(Problem(template.path, step.line, 0, says, "Report this fault."))
        algebra.worked[step.name] = expression
    return algebra, problems


def _proved(template: Template, spec: PartSpec, key: NumberKey, algebra: Algebra) -> list[Problem]:
    try:
        answer = algebra.of(key.answer.node) * _to_key(key, algebra)
    except NotAlgebra:
        return []
    problems = []
    if not algebra.equals(answer, key.value):
        says = f"the answer is {key.value} step by step, to sympy it is another value."
        problems.append(Problem(template.path, spec.line, 0, says, "Report this fault."))
    lines = {slip.id: slip.line for slip in spec.slips}
    for slip in key.slips:
        fault = _slip_fault(slip, answer, algebra)
        if fault:
            says, hint = f'the slip "{slip.id}" {fault[0]}', fault[1]
            problems.append(Problem(template.path, lines[slip.id], 0, says, hint))
    return problems


def _to_key(key: NumberKey, algebra: Algebra) -> object:
    """How many of the key's unit one of the answer's is."""
    from sympy import Rational

    value = algebra.quantity(key.answer.node)
    unit = unit_of(key.unit)
    if unit is None or value.unit.dimension == (0,) * 6 or not key.unit:
        return Rational(1)
    scale = value.unit.scale / unit.scale
    return Rational(scale.numerator, scale.denominator)


def _slip_fault(slip: Slip, answer: object, algebra: Algebra) -> tuple[str, str] | None:
    """What is wrong with a slip, and what to do; its printed numbers are the symbols."""
    from sympy import cancel

    try:
        wrong = algebra.of(slip.gives.node)
    except NotAlgebra:
        return None
    if cancel(wrong - answer) == 0:
        return "is the right answer, written in another way.", "Take it out."
    if not algebra.equals(wrong, slip.value):
        return f"gives {slip.value}, to sympy it is another value.", "Report this fault."
    return None
