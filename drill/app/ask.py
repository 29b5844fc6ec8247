"""One question, as the JSON contract has it: for scripts, previews and papers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from drill.app.context import listed
from drill.app.pictures import picture_in_words
from drill.app.rows import optional
from drill.errors import DrillError, Problem

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Key, Part, Question, Slip, Template


@dataclass(frozen=True)
class AskedPoint:
    """A marking point and the marks it is worth."""

    id: str
    says: str
    marks: int


@dataclass(frozen=True)
class AskedSlip:
    """A known wrong route: its value, the marks it keeps, and of a table the cell it is for."""

    id: str
    value: str
    earns: int
    says: str
    cell: str | None = optional()


@dataclass(frozen=True)
class Lettered:
    """An option or a step."""

    letter: str
    text: str


@dataclass(frozen=True)
class AskedPart:
    """One part; `several`, `steps` and `cells` only where its kind has them."""

    id: str
    kind: str
    skill: str
    ask: str
    marks: int
    unit: str | None
    options: tuple[Lettered, ...] | None
    points: tuple[AskedPoint, ...]
    model_answer: str
    worked: str
    slips: tuple[AskedSlip, ...]
    several: bool | None = optional()
    steps: tuple[Lettered, ...] | None = optional()
    cells: tuple[str, ...] | None = optional()


@dataclass(frozen=True)
class AskedQuestion:
    """A question with its scheme; `picture` is its drawing in words."""

    template: str
    seed: int
    version: str
    title: str
    text: str
    marks: int
    picture: str | None
    parts: tuple[AskedPart, ...]


def question_of(bank: Bank, template_id: str, seed: int) -> Question:
    """The question a template makes of a seed.

    Raises:
        DrillError: no such template (the nearest is named), or it has problems.
    """
    from drill.generate import generate

    template = template_of(bank, template_id)
    question = generate(template, seed)
    if isinstance(question, Problem):
        raise DrillError(str(question))
    return question


def template_of(bank: Bank, name: str) -> Template:
    """The template with that id, or in that file.

    Raises:
        DrillError: there is none (the nearest is named), or it has problems.
    """
    from drill.bank import read_template

    path = Path(name)
    if name.endswith(".toml") and path.is_file():
        template = read_template(path, bank.folder)
    else:
        entry = bank.entry(name)
        if entry is None:
            raise DrillError(no_template(name, [row.id for row in bank.entries()]))
        template = bank.template(entry.id)
    if isinstance(template, tuple):
        raise DrillError(listed(template))
    return template


def no_template(wanted: str, known: Iterable[str]) -> str:
    """That there is no such template, with the nearest of those known."""
    from drill.plaintext import nearest

    near = nearest(wanted.replace(".", "/"), known)
    hint = f'Did you mean "{near}"?' if near else "drill bank list shows all."
    return f'no template "{wanted}". {hint}'


def as_row(question: Question) -> AskedQuestion:
    """The question as a row."""
    return AskedQuestion(
        question.template,
        question.seed,
        question.version,
        question.title,
        question.text,
        question.marks,
        picture_in_words(question),
        tuple(_part(part) for part in question.parts),
    )


def _part(part: Part) -> AskedPart:
    from drill.model import ChoiceKey, OrderKey, TableKey

    key = part.key
    choice = key if isinstance(key, ChoiceKey) else None
    return AskedPart(
        part.id,
        part.kind,
        part.skill,
        part.ask,
        part.marks,
        part.unit or None,
        tuple(Lettered(one.letter, one.text) for one in choice.options) if choice else None,
        tuple(AskedPoint(point.id, point.says, point.marks) for point in part.points),
        part.model_answer,
        part.worked,
        tuple(_slips(key)),
        several=choice.several if choice else None,
        steps=tuple(Lettered(*step) for step in key.steps) if isinstance(key, OrderKey) else None,
        cells=tuple(key.cells) if isinstance(key, TableKey) else None,
    )


def _slips(key: Key) -> Iterator[AskedSlip]:
    from drill.model import NumberKey, TableKey

    if isinstance(key, NumberKey):
        yield from map(_slip, key.slips)
    elif isinstance(key, TableKey):
        for name, cell in key.cells.items():
            yield from (_slip(slip, name) for slip in cell.slips)


def _slip(slip: Slip, cell: str | None = None) -> AskedSlip:
    return AskedSlip(slip.id, slip.text, slip.earns, slip.says, cell)
