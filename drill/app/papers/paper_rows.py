"""What stands on a paper and in its mark scheme: one row a question, from which both are written.

Wording for "accept" and "do not accept" is taken from the sample answers that the scheme is held
against; an answer that speaks of what another drawing of numbers asks about is left out.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drill.app.ask import AskedPart, as_row

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import NumberKey, Part, Question, TableKey
    from drill.quantities import Expression

_MOST_WORDINGS = 2
_LONGEST_WORDING = 90  # characters
_MOST_SAMPLES = 400
_FEW_WORDS = 4
_JOINING = re.compile(r"(?i)\b(a|an|the|is|are|it|to|of|so|they|in|for|with|by|not|that|you|be)\b")
_SEVERAL = re.compile(r"[.,;]\s+\S|\S\s+(?:but|then)\s")
_GIVEN_UP = re.compile(r"(?i)\b(know|idea|clue|idk|dunno|help|guess|lol|sure)\b")


@dataclass(frozen=True)
class Level:
    """One level of an extended answer, from `low` to `top` marks."""

    low: int
    top: int
    says: str


@dataclass(frozen=True)
class PaperPart:
    """A part as asked, with what paper needs besides.

    `unit_asked`: the pupil writes the unit; `cells` are (name, unit) of a table to fill in;
    `carried` are the letters of parts whose value is used on. `accept` and `reject` are real
    wordings of pupils, by marking point and for the whole part.
    """

    asked: AskedPart
    unit_asked: bool
    cells: tuple[tuple[str, str], ...]
    carried: tuple[str, ...]
    levels: tuple[Level, ...]
    steps: tuple[str, ...]
    accept: tuple[tuple[str, str], ...]
    reject: tuple[str, ...]
    hint: str


@dataclass(frozen=True)
class PaperQuestion:
    """A question with its place on the paper; `vectors` is its drawing or graph as SVG."""

    number: int
    template: str
    seed: int
    version: str
    title: str
    text: str
    marks: int
    command_word: str
    safety: str
    vectors: str
    picture: str
    parts: tuple[PaperPart, ...]


def paper_questions(bank: Bank, questions: Sequence[Question]) -> tuple[PaperQuestion, ...]:
    """The rows of a paper, numbered from 1.

    Raises:
        DrillError: a drawing is not there or is no drawing.
    """
    return tuple(_row(bank, number, one) for number, one in enumerate(questions, 1))


def _row(bank: Bank, number: int, question: Question) -> PaperQuestion:
    from drill.app.pictures import vectors_of

    asked = as_row(question)
    samples = _Samples(bank, question)
    return PaperQuestion(
        number=number,
        template=question.template,
        seed=question.seed,
        version=question.version,
        title=question.title,
        text=question.text,
        marks=question.marks,
        command_word=question.command_word,
        safety=question.safety,
        vectors=vectors_of(question),
        picture=asked.picture or "",
        parts=tuple(
            _part(part, row, samples) for part, row in zip(question.parts, asked.parts, strict=True)
        ),
    )


def _part(part: Part, asked: AskedPart, samples: _Samples) -> PaperPart:
    from drill.model import LevelsKey, NumberKey, TableKey, WrittenKey

    key = part.key
    number = key if isinstance(key, NumberKey) else None
    levels = key if isinstance(key, LevelsKey) else None
    written = isinstance(key, WrittenKey)
    return PaperPart(
        asked=asked,
        unit_asked=bool(number and "unit" in number.award),
        cells=_cells(key) if isinstance(key, TableKey) else (),
        carried=_carried(number) if number else (),
        levels=tuple(_levels(levels.levels)) if levels else (),
        steps=tuple(point.says for point in levels.points) if levels else (),
        accept=tuple(samples.accepted(part)) if written else (),
        reject=tuple(samples.rejected(part)) if written else (),
        hint=part.hint,
    )


def _cells(key: TableKey) -> tuple[tuple[str, str], ...]:
    return tuple((name, cell.unit if cell.unit_printed else "") for name, cell in key.cells.items())


def _levels(levels: Sequence[tuple[int, str]]) -> Iterator[Level]:
    lows = [*(top + 1 for top, _ in levels[1:]), 1]
    for low, (top, says) in zip(lows, levels, strict=True):
        yield Level(low, top, says)


def _carried(key: NumberKey) -> tuple[str, ...]:
    """Letters of the parts whose answer this one is worked out from."""
    letters = {name: letter for letter, name in key.chain.answers.items()}
    steps = {step.name: step.is_ for step in key.chain.steps}
    waiting, seen = _names(key.answer), set()
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            if name in steps and name not in letters:
                waiting += _names(steps[name])
    return tuple(sorted(letters[name] for name in seen & letters.keys()))


def _names(expression: Expression) -> list[str]:
    return [name.split(".")[0] for name in expression.names]


class _Samples:
    """The sample answers of a template that fit the numbers of this question."""

    def __init__(self, bank: Bank, question: Question) -> None:
        from drill.bank import answers_path

        entry = bank.entry(question.template)
        self._bank, self._question = bank, question
        self._rows = list(_read(answers_path(Path(entry.path)))) if entry else []
        self._own = _all_words(question)
        self._foreign: dict[int, frozenset[str]] = {}

    def accepted(self, part: Part) -> Iterator[tuple[str, str]]:
        """(point, wording) of answers that say no more than this point, the shortest first."""
        for point in part.points:
            earns = [
                row["answer"]
                for row in self._fitting(part)
                if row["points"].get(point.id)
                and sum(row["points"].values()) == point.marks
                and not _SEVERAL.search(row["answer"])
            ]
            earns.sort(key=lambda one: (len(one), one))
            yield from ((point.id, answer) for answer in self._apart(earns))

    def rejected(self, part: Part) -> list[str]:
        """Answers that earn nothing, those first that sound most like the scheme."""
        scheme = _words(" ".join((part.model_answer, *(point.says for point in part.points))))
        earns = [row["answer"] for row in self._fitting(part) if not any(row["points"].values())]
        near = [one for one in earns if _words(one) & scheme and not _GIVEN_UP.search(one)]
        near.sort(key=lambda one: (-len(_words(one) & scheme), len(one), one))
        return self._apart(near)

    def _apart(self, answers: Iterable[str]) -> list[str]:
        """The first few that are spelt right and do not say the same with other words."""
        found: list[str] = []
        for answer in answers:
            words = _words(answer)
            new = all(2 * len(words & _words(other)) <= len(words) for other in found)
            if len(words) > 1 and new and self._is_said(answer):
                found.append(answer.rstrip(". "))
            if len(found) == _MOST_WORDINGS:
                break
        return found

    def _is_said(self, answer: str) -> bool:
        """Whether it is spelt right and more than a row of words out of the scheme."""
        from drill.typed.spelling import is_word

        joined = _JOINING.search(answer) or len(answer.split()) <= _FEW_WORDS
        return bool(joined) and all(one in self._own or is_word(one) for one in _words(answer))

    def _fitting(self, part: Part) -> list[dict[str, Any]]:
        """The samples of this part whose points are asked for here: draws may ask for others."""
        asked = {point.id for point in part.points}
        return [
            row
            for row in self._rows
            if row["part"] == part.id
            and set(row["points"]) <= asked
            and not _words(row["answer"]) & self._others(row["seed"])
        ]

    def _others(self, seed: int) -> frozenset[str]:
        """Words that only the question with these other numbers prints."""
        if seed not in self._foreign:
            self._foreign[seed] = frozenset(self._words_of(seed) - self._own)
        return self._foreign[seed]

    def _words_of(self, seed: int) -> set[str]:
        from drill.app.ask import question_of

        return _all_words(question_of(self._bank, self._question.template, seed))


def _read(path: Path) -> Iterator[dict[str, Any]]:
    try:
        lines = path.read_text(encoding="utf-8", errors="replace").splitlines()[:_MOST_SAMPLES]
    except OSError:
        return
    for line in lines:
        try:
            row = json.loads(line)
        except (ValueError, RecursionError):
            continue
        if (
            isinstance(row, dict)
            and isinstance(row.get("answer"), str)
            and 0 < len(row["answer"]) <= _LONGEST_WORDING
            and isinstance(row.get("points"), dict)
        ):
            yield {**row, "part": row.get("part", "a"), "seed": row.get("seed", 0)}


def _all_words(question: Question) -> set[str]:
    texts = [question.text, *(part.ask + " " + part.model_answer for part in question.parts)]
    return _words(" ".join(texts))


def _words(text: str) -> set[str]:
    return set(re.findall(r"[a-z]{3,}", text.casefold()))


@dataclass(frozen=True)
class MadePaper:
    """A paper that was made, for programs."""

    paper: str
    deck: str
    version: str
    pupil: str
    seed: int
    marks: int
    difficulty: float
    templates: tuple[str, ...]
    files: tuple[str, ...]
