"""A learner's own readings worked up: each step, what is not believable, a question on them.

The readings are put into the text of a question in place of what it would draw. What comes of it is
a version of that question like any other: it is read, made, judged, kept and told as such.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from drill.errors import DrillError, Problem
from drill.plaintext import one_line
from drill.quantities import Fault, Quantity, evaluate, parse, show_decimals, show_figures

if TYPE_CHECKING:
    from drill.app.bench_kinds import BenchKind, Reading, Step
    from drill.bank import Bank
    from drill.model import Question, Template

_NUMBER = re.compile(r"-?\d{1,12}(\.\d{1,12})?", re.ASCII)
_FIGURES = 3


@dataclass(frozen=True)
class WorkedPart:
    """What a part asks, the lines that work it out, and the answer."""

    ask: str
    worked: str
    answer: str


@dataclass(frozen=True)
class WorkedUp:
    """Readings worked up.

    `doubts`: what is not believable, and why; `question`: one on these readings, None where they
    fail what the question requires or the judge; `why_none` says which.
    """

    steps: tuple[WorkedPart, ...]
    also: tuple[str, ...]
    doubts: tuple[str, ...]
    template: Template | None
    question: Question | None
    why_none: str


@dataclass(frozen=True)
class ReadingRow:
    """One reading: its name in a file, what it is, its value as typed, its unit."""

    id: str
    says: str
    value: str
    unit: str


@dataclass(frozen=True)
class BenchRows:
    """Readings worked up, without the question; `asked`: one can be made of them."""

    kind: str
    readings: tuple[ReadingRow, ...]
    doubts: tuple[str, ...]
    steps: tuple[WorkedPart, ...]
    also: tuple[str, ...]
    asked: bool
    why_none: str


def choices(bank: Bank, kind: BenchKind, reading: Reading) -> list[tuple[str, str]]:
    """The rows a reading may be, as (id, words): those that the question can be about."""
    template = bank.template(kind.template)
    draws = () if isinstance(template, tuple) else template.draws
    rows = next((draw.rows for draw in draws if draw.name == reading.id), ())
    return [(row.id, reading.shows.format_map(_Words(row.cells))) for row in rows]


class _Words(dict[str, str]):
    """The cells of a row that are text."""

    def __init__(self, cells: Mapping[str, object]) -> None:
        super().__init__({name: cell for name, cell in cells.items() if isinstance(cell, str)})


def checked(bank: Bank, kind: BenchKind, reading: Reading, typed: str) -> str:
    """A reading as it is kept: a number, or the id of a row.

    Raises:
        DrillError: it is neither, or no such thing is ever read.
    """
    text = typed.strip()
    if reading.rows:
        ids = [id for id, _ in choices(bank, kind, reading)]
        if text not in ids:
            raise DrillError(f'{reading.says}: "{one_line(text, 40)}" is none of those there are.')
        return text
    if reading.unit:
        text = text.removesuffix(reading.unit).strip()
    if not _NUMBER.fullmatch(text):
        raise DrillError(f"{reading.says}: type a number, as 57.23, in {reading.unit}.")
    if not reading.least <= float(text) <= reading.most:
        raise DrillError(
            f"{reading.says}: {text} {reading.unit} cannot be meant; "
            f"from {reading.least:g} to {reading.most:g} {reading.unit}."
        )
    return text


def worked_up(bank: Bank, kind: BenchKind, readings: Mapping[str, str]) -> WorkedUp:
    """Everything that follows from the readings.

    Args:
        readings: each as `checked` gave it.

    Raises:
        DrillError: the question is not there, or nothing can be worked out from these numbers.
    """
    original = bank.template(kind.template)
    if isinstance(original, tuple):
        raise DrillError(str(original[0]))
    strict, loose = (_filled(bank, original, kind, readings, keep) for keep in (True, False))
    shown, values = _made(loose)
    question, why = _question(bank, strict)
    doubts = tuple(says for is_, says in kind.believable if not _holds(is_, values))
    return WorkedUp(
        steps=tuple(
            WorkedPart(part.ask, part.worked or part.model_answer, part.model_answer)
            for part in shown.parts
            if part.kind == "number"
        ),
        also=tuple(_also(step, readings, values) for step in kind.also),
        doubts=doubts,
        template=strict,
        question=None if doubts else question,
        why_none=why or ("they are not believable." if doubts else ""),
    )


def _filled(
    bank: Bank, original: Template, kind: BenchKind, readings: Mapping[str, str], keep: bool
) -> Template:
    """The question with the readings in place of its draws; without what it requires unless kept.

    A wrong route that gives the same as the right one is left out with the requirements.
    """
    import tomlkit

    document: Any = tomlkit.parse(original.text)
    for name, value in {**readings, **_worked_from(kind, readings)}.items():
        _put(document, name, value)
    if not keep:
        document.pop("require", None)
        for part in document["part"]:
            part.pop("slip", None)
    made = bank.template_from(tomlkit.dumps(document), original.id)
    if isinstance(made, tuple):
        raise DrillError(f"these readings do not fit the question: {made[0].message}")
    return made


def _worked_from(kind: BenchKind, readings: Mapping[str, str]) -> dict[str, str]:
    """Names of the question that follow from the readings."""
    numbers = {name: parse(text) for name, text in readings.items() if _NUMBER.fullmatch(text)}
    known: dict[str, Any] = {
        name: evaluate(one, {}) for name, one in numbers.items() if not isinstance(one, Fault)
    }
    places = max(len(readings[name].partition(".")[2]) for name in numbers) if numbers else 0
    return {name: _exact(is_, known, places) for name, is_ in kind.fill.items()}


def _exact(is_: str, known: Mapping[str, Any], places: int) -> str:
    """A sum or difference of readings, to the places of the finest of them."""
    read = parse(is_)
    value = read if isinstance(read, Fault) else evaluate(read, known)
    if not isinstance(value, Quantity):
        raise DrillError(f"{is_} cannot be worked out from these readings.")
    return show_decimals(value.value, places)


def _put(document: Any, name: str, value: str) -> None:
    """One name gets its value: a draw has it alone to draw, a step has it for its expression."""
    draws, steps = document.get("draw", {}), document.get("work", {})
    if name in draws and "row_of" in draws[name]:
        draws[name]["where"] = {"id": value}
        draws[name].pop("first", None)
        return
    one = draws[name] if name in draws else steps.get(name)
    if one is None:
        return
    if "decimals" in one:
        one["decimals"] = len(value.partition(".")[2])
    if name in steps:
        one["is"] = f"{value} in {one['unit']}" if "unit" in one else value
        return
    for key in [key for key in one if key not in ("unit", "decimals", "called")]:
        del one[key]
    one["one_of"] = [float(value) if "." in value else int(value)]


def _made(template: Template) -> tuple[Question, Mapping[str, Any]]:
    from drill.generate import generate
    from drill.generate.draws.instance import instance
    from drill.generate.part_context import Rejected

    question = generate(template, 0)
    if isinstance(question, Problem):
        raise DrillError(f"nothing can be worked out from these readings: {question.message}")
    try:
        return question, instance(template, 0).values
    except Rejected as error:
        raise DrillError(f"nothing can be worked out from these readings: {error}") from None


def _question(bank: Bank, template: Template) -> tuple[Question | None, str]:
    """The question on the readings once the judge has looked at it; else why there is none."""
    from drill.checking.second_judge import judged
    from drill.generate import generate

    question = generate(template, 0)
    if isinstance(question, Problem):
        return None, one_line(question.message.partition(" (seed")[0], 300) + "."
    doubts = list(judged(template, question, bank.folder))
    return (None, f"The judge doubts them: {doubts[0].says}") if doubts else (question, "")


def _holds(is_: str, values: Mapping[str, Any]) -> bool:
    read = parse(is_)
    return isinstance(read, Fault) or evaluate(read, values) is not False


def _also(step: Step, readings: Mapping[str, str], values: Mapping[str, Any]) -> str:
    says = step.says.format_map(readings)
    read = parse(f"({step.is_}) in {step.unit}")
    found = read if isinstance(read, Fault) else evaluate(read, values)
    if not isinstance(found, Quantity):
        return f"{says}: cannot be worked out."
    if step.decimals is None:
        return f"{says}: {show_figures(found.value, _FIGURES)} {step.unit}."
    return f"{says}: {show_decimals(found.value, step.decimals)} {step.unit}."


def bench_rows(kind: BenchKind, readings: Mapping[str, str], found: WorkedUp) -> BenchRows:
    """What was worked up, for programs."""
    return BenchRows(
        kind.id,
        tuple(ReadingRow(one.id, one.says, readings[one.id], one.unit) for one in kind.readings),
        found.doubts,
        found.steps,
        found.also,
        found.question is not None,
        found.why_none,
    )
