"""`drill ask`: one question as JSON, for scripts."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.cli.common import AsJson, listed, open_bank, rows_as_json
from drill.cli.pictures import picture_in_words
from drill.errors import DrillError, Problem
from drill.model import ChoiceKey, NumberKey, OrderKey, Slip, TableKey

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Part, Question, Template

TemplateId = Annotated[str, typer.Argument(help="A template: its id or its file.")]
Seed = Annotated[int, typer.Option(help="Which numbers.")]


def ask(template: TemplateId, seed: Seed = 0, as_json: AsJson = False) -> None:
    """Print one question; with --json as the object that `drill mark` and scripts work with."""
    question = question_of(open_bank(), template, seed)
    if as_json:
        rows_as_json(as_object(question))
        return
    from drill.cli import views
    from drill.cli.screen import Screen

    screen = Screen()
    views.show_question(screen, question, f"{question.template} seed {question.seed}")
    for part in question.parts:
        views.show_part(screen, part, alone=len(question.parts) == 1)


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
            raise DrillError(_no_template(name, [row.id for row in bank.entries()]))
        template = bank.template(entry.id)
    if isinstance(template, tuple):
        raise DrillError(listed(template))
    return template


def _no_template(wanted: str, known: list[str]) -> str:
    import difflib

    near = difflib.get_close_matches(wanted.replace(".", "/"), known, 1)
    hint = f'Did you mean "{near[0]}"?' if near else "drill bank list shows all."
    return f'no template "{wanted}". {hint}'


def as_object(question: Question) -> dict[str, Any]:
    """The question as the JSON contract has it."""
    return {
        "template": question.template,
        "seed": question.seed,
        "version": question.version,
        "title": question.title,
        "text": question.text,
        "marks": question.marks,
        "picture": picture_in_words(question),
        "parts": [_part(part) for part in question.parts],
    }


def _part(part: Part) -> dict[str, Any]:
    row: dict[str, Any] = {
        "id": part.id,
        "kind": part.kind,
        "skill": part.skill,
        "ask": part.ask,
        "marks": part.marks,
        "unit": part.unit or None,
        "options": None,
        "points": [
            {"id": point.id, "says": point.says, "marks": point.marks} for point in part.points
        ],
        "model_answer": part.model_answer,
        "worked": part.worked,
        "slips": [],
    }
    key = part.key
    if isinstance(key, ChoiceKey):
        row["options"] = [{"letter": o.letter, "text": o.text} for o in key.options]
        row["several"] = key.several
    if isinstance(key, OrderKey):
        row["steps"] = [{"letter": letter, "text": text} for letter, text in key.steps]
    if isinstance(key, TableKey):
        row["cells"] = list(key.cells)
        row["slips"] = [
            {**_slip(slip), "cell": name} for name, cell in key.cells.items() for slip in cell.slips
        ]
    if isinstance(key, NumberKey):
        row["slips"] = [_slip(slip) for slip in key.slips]
    return row


def _slip(slip: Slip) -> dict[str, Any]:
    return {"id": slip.id, "value": slip.text, "earns": slip.earns, "says": slip.says}
