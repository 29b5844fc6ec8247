"""A stored question as it was put to the learner, rebuilt from the text that was kept with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.errors import Problem
from drill.generate import generate

if TYPE_CHECKING:
    from collections.abc import Mapping

    from drill.bank import Bank
    from drill.model import Part, Question
    from drill.store import AskingRow, Store


def as_asked(store: Store, bank: Bank, asking: AskingRow) -> Question | None:
    """The question with the numbers and the scheme it had then.

    None when the kept text no longer makes the same version: facts it uses have changed since, so
    its numbers cannot be vouched for.
    """
    template = bank.template_from(store.template_text(asking.version), asking.template)
    if isinstance(template, tuple) or template.version != asking.version:
        return None
    question = generate(template, asking.seed)
    return None if isinstance(question, Problem) else question


def as_now(bank: Bank, asking: AskingRow) -> Question | None:
    """The question today's template makes of the same seed; None when there is none."""
    entry = bank.entry(asking.template)
    template = bank.template(entry.id) if entry is not None else ()
    if isinstance(template, tuple):
        return None
    question = generate(template, asking.seed)
    return None if isinstance(question, Problem) else question


def same_question(one: Question, other: Question) -> bool:
    """Whether both put the same before a learner; their schemes may differ."""
    return one.text == other.text and _shown(one.parts) == _shown(other.parts)


def _shown(parts: tuple[Part, ...]) -> list[tuple[object, ...]]:
    from drill.model import ChoiceKey, OrderKey

    shown: list[tuple[object, ...]] = []
    for part in parts:
        key = part.key
        options: object = ()
        if isinstance(key, ChoiceKey):
            options = [(option.letter, option.text) for option in key.options]
        elif isinstance(key, OrderKey):
            options = key.steps
        shown.append((part.id, part.kind, part.ask, options))
    return shown


def part_of(question: Question | None, letter: str) -> Part | None:
    """The part with that letter, None when there is none."""
    parts: Mapping[str, Part] = {part.id: part for part in question.parts} if question else {}
    return parts.get(letter)
