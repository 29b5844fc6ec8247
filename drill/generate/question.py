"""Makes a question from a template and a seed, or a `Problem` that says why it cannot."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING

from drill.errors import Problem
from drill.frozen import replace
from drill.generate.draws.instance import Unmet, instance
from drill.generate.draws.stream import retried
from drill.generate.keys.part_keys import made_key
from drill.generate.part_context import PartContext, Rejected
from drill.generate.pictures.scale_values import scale_of
from drill.generate.text.fill import Shown, names_in
from drill.generate.worked.number_working import names_worked
from drill.generate.worked.worked_answers import worked_answer
from drill.model import Chain, Part, PartSpec, Question, Template
from drill.plaintext import part_letter
from drill.quantities import Value, to_plain

if TYPE_CHECKING:
    from drill.model import Graph

_CARRIED = ("number", "reading")  # kinds whose answer later parts may be worked from
TRIES = 200  # redraws before a template's requirements count as impossible to meet


def generate(template: Template, seed: int) -> Question | Problem:
    """The question for a template and a seed; the same pair always gives the same question.

    Numbers that break a requirement, or leave two slips that cannot be told apart, are drawn
    again, at most 200 times; then the reason met most often comes back as a `Problem`. What went
    wrong with numbers that met every requirement is reported in preference to an unmet one.
    """
    reasons: Counter[tuple[str, int, str]] = Counter()
    unmet: Counter[tuple[str, int, str]] = Counter()
    for tries in range(TRIES if template.draws else 1):
        try:
            return _question(template, seed, tries)
        except Unmet as rejected:
            unmet[rejected.reason] += 1
        except Rejected as rejected:
            reasons[rejected.reason] += 1
    return _problem(template, seed, reasons or unmet)


def _problem(template: Template, seed: int, reasons: Counter[tuple[str, int, str]]) -> Problem:
    (says, line, hint), _ = reasons.most_common(1)[0]
    tries = sum(reasons.values())
    often = f" (seed {seed}, {tries} tries)" if tries > 1 else ""
    return Problem(template.path, line, 0, f"{says}{often}.", hint)


def _question(template: Template, seed: int, tries: int) -> Question:
    made = instance(template, seed, tries)
    shown = Shown(made.values, template.names)
    printed = {name: to_plain(value) for name, value in made.values.items()}
    chain = Chain(made.givens, template.work, printed, {})
    drawn = cache(lambda: _graph(template, made.values, shown))  # slow, and only for a good try
    context = PartContext(template, seed, "", "", made.values, shown, chain, drawn=drawn)
    return Question(
        template=template.id,
        seed=seed,
        version=template.version,
        title=context.fill(template.title, 0),
        text=context.fill(template.stem, 0),
        parts=_parts(context, tries),
        skills=template.skills,
        course=template.course,
        command_word=template.command_word,
        picture=context.fill(template.picture, 0),
        safety=context.fill(template.safety, 0),
        scale=scale_of(template, made.values),
        graph=drawn(),
        folder=template.folder,
    )


def _graph(template: Template, values: Mapping[str, Value], shown: Shown) -> Graph | None:
    if template.graph is None:
        return None
    from drill.generate.pictures.graph_values import graph_of  # few questions have one

    return graph_of(template, values, shown)


def _parts(context: PartContext, tries: int) -> tuple[Part, ...]:
    """The parts in order; each knows what was printed, asked for and worked before it."""
    template = context.template
    printed = names_in(template.stem) | names_in(template.picture)
    worked: frozenset[str] = frozenset()
    answers: dict[str, str] = {}
    parts: list[Part] = []
    for index, spec in enumerate(template.parts):
        letter = part_letter(index)
        printed |= names_in(spec.ask)
        known = printed | (frozenset(spec.read_off) - frozenset(answers.values()))
        here = replace(
            context,
            letter=letter,
            stream=retried(f"{template.id} part {letter}", tries),
            chain=_chain(context, spec, known, answers),
            seen=known | worked,
        )
        parts.append(_part(spec, here))
        if len(parts) < len(template.parts):
            worked |= names_worked(parts[-1].key, here)
        for name in _asked(spec) & context.steps if spec.kind in _CARRIED else ():
            answers[letter] = name
    return tuple(parts)


def _chain(
    context: PartContext, spec: PartSpec, printed: frozenset[str], answers: Mapping[str, str]
) -> Chain:
    """How the numbers follow for a pupil: a [work] value that was printed is given, not worked."""
    given = (printed & context.steps) - _asked(spec)
    return Chain(
        givens={**context.chain.givens, **{name: context.values[name] for name in given}},
        steps=tuple(step for step in context.template.work if step.name not in given),
        printed=context.chain.printed,
        answers=dict(answers),
    )


def _asked(spec: PartSpec) -> frozenset[str]:
    """The names that are asked for, where an answer is just a name."""
    several = (spec, *spec.cells.values())
    return frozenset(one.answer.text.strip() for one in several if one.answer is not None)


def _part(spec: PartSpec, context: PartContext) -> Part:
    made = made_key(spec, context)
    return Part(
        id=context.letter,
        kind=spec.kind,
        skill=spec.skill or context.template.skills[0],
        ask=context.fill(spec.ask, spec.line),
        marks=made.marks,
        points=made.points,
        key=made.key,
        model_answer=made.model_answer,
        worked=worked_answer(spec, made, context),
        hint=context.fill(spec.hint, spec.line),
        unit=made.unit,
        unproven=spec.unproven,
        subject=context.template.subject,
    )
