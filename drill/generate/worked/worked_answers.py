"""Worked answers: why the right answer is right, line by line; the last line ends in the answer."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drill.generate.part_context import PartContext
from drill.generate.worked.number_working import working
from drill.model import ChoiceKey, MadeKey, NameKey, NumberKey, OrderKey, PartSpec, TableKey
from drill.subjects import subject

MOST_CONFUSIONS = 2  # look-alikes a worked answer tells: more teach names nobody mixed up


def worked_answer(spec: PartSpec, made: MadeKey, context: PartContext) -> str:
    """The worked answer of a part, the author's own words first when there are any."""
    words = context.fill(spec.worked, spec.line)
    lines = [words] if words else []
    own = subject(context.template.subject).kind(spec.kind)
    lines += own.worked(made) if own else WORKED[spec.kind](made, context)
    return "\n".join(lines)


def _number(made: MadeKey, context: PartContext) -> list[str]:
    assert isinstance(made.key, NumberKey)
    return working(made.key, made.model_answer, context)


def _choice(made: MadeKey, context: PartContext) -> list[str]:
    """The right option with its reason, then why the others are not."""
    assert isinstance(made.key, ChoiceKey)
    lines: list[str] = []
    for option in sorted(made.key.options, key=lambda option: not option.right):
        if option.right or option.says:
            head = option.letter if option.right else f"Not {option.letter}"
            lines.append(f"{head}: {option.text}{_because(option.says)}")
    return [*lines, f"Answer: {made.model_answer}"]


def _name(made: MadeKey, context: PartContext) -> list[str]:
    """The most similar look-alikes with the difference that decides, then the name."""
    assert isinstance(made.key, NameKey)
    right = made.model_answer.casefold()
    told = [(name, why) for name, why in made.key.look_alikes.items() if why]
    told.sort(key=lambda pair: -_shared_letters(pair[0].casefold(), right))
    lines = [f"Not {name}: {why}" for name, why in told[:MOST_CONFUSIONS]]
    return [*lines, f"Answer: {made.model_answer}"]


def _shared_letters(one: str, other: str) -> float:
    """How similar two names are, by the pairs of letters they share."""
    pairs = ({name[at : at + 2] for at in range(len(name) - 1)} for name in (one, other))
    left, right = pairs
    return len(left & right) / (len(left | right) or 1)


def _order(made: MadeKey, context: PartContext) -> list[str]:
    assert isinstance(made.key, OrderKey)
    texts = dict(made.key.steps)
    lines = [
        f"{number}. {letter}: {texts[letter]}{_because(made.key.why.get(texts[letter], ''))}"
        for number, letter in enumerate(made.key.right, 1)
    ]
    return [*lines, f"Order: {made.model_answer}"]


def _table(made: MadeKey, context: PartContext) -> list[str]:
    assert isinstance(made.key, TableKey)
    lines: list[str] = []
    models = dict(cell.split(" = ", 1) for cell in made.model_answer.split("; "))
    for name, key in made.key.cells.items():
        *before, last = working(key, models[name], context)
        told = before if last == models[name] else [*before, last]
        lines += [_labelled(name, line) for line in told]
    return [*lines, made.model_answer]


def _labelled(name: str, line: str) -> str:
    """A line of working with its cell, unless it begins with that name itself."""
    return line if line.startswith(f"{name} = ") else f"{name}: {line}"


def _answer_alone(made: MadeKey, context: PartContext) -> list[str]:
    return [made.model_answer]


def _because(says: str) -> str:
    return f". {says}" if says else ""


WORKED: Mapping[str, Callable[[MadeKey, PartContext], list[str]]] = {
    "number": _number,
    "reading": _number,
    "choice": _choice,
    "name": _name,
    "order": _order,
    "table": _table,
    "written": _answer_alone,
    "levels": _answer_alone,
}
