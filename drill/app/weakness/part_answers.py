"""Every part a learner answered: what was asked, typed and right, its marks, and which mistake.

What reports count from. A question is made again from the text that was kept with it; where that
no longer makes the same question, what was right is left empty and an option has no name.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.papers.reading_height import HEIGHTS, LIQUIDS, seen_from
from drill.model import ChoiceKey, NameKey, NumberKey, TableKey
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Mark, Part, Question, Scale, Template
    from drill.store import AnswerRow, AskingRow, Learner, PartInfo, Store

_LONGEST = 600
_SHOWN = "parallax"
"""The mistake of a question that shows its scale from a wrong height: what is seen is taken."""


@dataclass(frozen=True)
class PartAnswer:
    """One part, answered or passed.

    `marks` of `of` are what was marked, `own` of `own_of` what the learner decided; never added.
    `mistake`: the common mistake it was, in words; `could`: those that this part lets happen;
    `scheme`: its marking points in words; `question`: as it was put, None where that is not known;
    `seconds`: how long the answer took, 0 where that is not known.
    """

    when: datetime
    template: str
    skill: str
    part: str
    kind: str
    ask: str
    typed: str
    right: str
    marks: int
    of: int
    own: int
    own_of: int
    passed: bool = False
    hinted: bool = False
    sure: str = ""
    unsure: bool = False
    mistake: str = ""
    could: frozenset[str] = frozenset()
    asking: bytes = b""
    seconds: float = 0.0
    scheme: tuple[str, ...] = ()
    question: Question | None = None

    @property
    def is_right(self) -> bool:
        """Whether every mark was earned."""
        return self.of > 0 and self.marks == self.of


def part_answers(store: Store, bank: Bank, who: Learner) -> list[PartAnswer]:
    """Everything a learner answered or passed and that was marked, oldest first."""
    return answers_of(store, bank, store.askings(who))


def answers_of(store: Store, bank: Bank, askings: Iterable[AskingRow]) -> list[PartAnswer]:
    """What `part_answers` finds, of askings that were read already."""
    asked = Asked(store, bank)
    return [
        row
        for asking in askings
        if not (asking.shown or asking.faulty)
        for row in _rows(asking, asked)
    ]


def marks_so_far(askings: Iterable[AskingRow]) -> tuple[int, int]:
    """Marks earned of marks asked, without what the learner decided."""
    marks = of = 0
    for asking in askings:
        for letter in {} if asking.shown or asking.faulty else dict.fromkeys(_letters(asking)):
            stands = standing([answer for answer in asking.answers if answer.part == letter])
            if stands is not None and stands.verdict is not None:
                shares = stands.verdict.mark.shares(stands.verdict.decided)
                marks, of = marks + shares.marks, of + shares.of
    return marks, of


def marks_by_skill(store: Store, askings: Iterable[AskingRow]) -> dict[str, float]:
    """The share of marks earned of each skill asked, without what the learner decided."""
    from drill.sitting import parts_of_versions

    asked = [asking for asking in askings if not (asking.shown or asking.faulty)]
    parts = parts_of_versions(store, asked)
    earned: dict[str, tuple[int, int]] = {}
    for asking in asked:
        for letter in dict.fromkeys(_letters(asking)):
            stands = standing([answer for answer in asking.answers if answer.part == letter])
            info = parts[asking.version].get(letter)
            if stands is not None and stands.verdict is not None and info is not None:
                shares = stands.verdict.mark.shares(stands.verdict.decided)
                marks, of = earned.get(info.skill, (0, 0))
                earned[info.skill] = marks + shares.marks, of + shares.of
    return {skill: marks / of for skill, (marks, of) in earned.items() if of}


def _letters(asking: AskingRow) -> Iterator[str]:
    return (answer.part for answer in asking.answers)


class Asked:
    """Questions as they were put; each version's text is read once."""

    def __init__(self, store: Store, bank: Bank) -> None:
        self._store, self._bank = store, bank
        self._versions: dict[str, tuple[Template | None, dict[str, PartInfo]]] = {}

    def parts(self, asking: AskingRow) -> tuple[dict[str, Part], dict[str, PartInfo]]:
        """The parts with their numbers, {} where they cannot be vouched for; and their skills."""
        question, info = self.question(asking)
        return {part.id: part for part in question.parts} if question else {}, info

    def question(self, asking: AskingRow) -> tuple[Question | None, dict[str, PartInfo]]:
        """The question with its numbers, None where it cannot be vouched for; its parts' skills."""
        from drill.errors import Problem
        from drill.generate import generate

        template, info = self._version(asking)
        question = generate(template, asking.seed) if template else None
        return None if isinstance(question, Problem) else question, info

    def infos(self, asking: AskingRow) -> dict[str, PartInfo]:
        """What its parts examine, by letter."""
        return self._version(asking)[1]

    def _version(self, asking: AskingRow) -> tuple[Template | None, dict[str, PartInfo]]:
        if asking.version not in self._versions:
            from drill.sitting import parts_of_versions

            text = self._store.template_text(asking.version)
            read = self._bank.template_from(text, asking.template)
            info = parts_of_versions(self._store, [asking])[asking.version]
            kept = None if isinstance(read, tuple) or read.version != asking.version else read
            self._versions[asking.version] = (kept, info)
        return self._versions[asking.version]


def _rows(asking: AskingRow, asked: Asked) -> Iterator[PartAnswer]:
    question, infos = asked.question(asking)
    parts = {part.id: part for part in question.parts} if question else {}
    scale = question.scale if question else None
    for letter in dict.fromkeys(_letters(asking)):
        typed = [answer for answer in asking.answers if answer.part == letter]
        stands = standing(typed)
        if stands is None or stands.mark is None:
            continue
        info = infos.get(letter)
        hinted = any(answer.kind == "hint" for answer in typed)
        skill, kind = (info.skill, info.kind) if info else (asking.skill, "")
        part = parts.get(letter)
        row = _row(asking, stands, stands.mark, part, skill, kind, hinted)
        row = replace(row, question=question)
        if part is not None and scale is not None:
            row = _seen(row, part, stands.mark, scale)
        if row.of or row.own_of:
            yield row


def standing(typed: list[AnswerRow]) -> AnswerRow | None:
    """The first text that could be read; one put right before its verdict was seen stands over it.

    What was typed once, could not be read and was never typed again says nothing.
    """
    stands: AnswerRow | None = None
    for answer in typed:
        if answer.kind == "hint" or answer.mark is None or not answer.mark.readable:
            continue
        if stands is None or (answer.kind == "fix" and _before_verdict(stands, answer)):
            stands = answer
    return stands


def _before_verdict(stands: AnswerRow, fix: AnswerRow) -> bool:
    return stands.verdict is not None and stands.verdict.first > fix.place


def _row(
    asking: AskingRow,
    answer: AnswerRow,
    mark: Mark,
    part: Part | None,
    skill: str,
    kind: str,
    hinted: bool,
) -> PartAnswer:
    decided = answer.verdict.decided if answer.verdict else ()
    shares = mark.shares(decided)
    return PartAnswer(
        when=answer.when,
        template=asking.template,
        skill=skill,
        part=answer.part,
        kind=kind,
        ask=_short(part.ask) if part else "",
        typed=_typed(answer, part),
        right=_right(part) if part else "",
        marks=shares.marks,
        of=shares.of,
        own=shares.own,
        own_of=shares.own_of,
        passed=answer.kind == "pass",
        hinted=hinted,
        sure=answer.sure or "",
        unsure=bool(set(mark.unsure) - set(decided)),
        mistake=mistake_of(mark, part, kind),
        could=frozenset(_possible(part)) if part else frozenset(),
        scheme=tuple(point.says for point in part.points) if part else (),
        asking=asking.id,
        seconds=answer.seconds,
    )


def _short(text: str) -> str:
    return one_line(text, _LONGEST)


def _right(part: Part) -> str:
    """What would have been right; options by their words."""
    if isinstance(part.key, ChoiceKey):
        return _short("; ".join(option.text for option in part.key.options if option.right))
    return _short(part.model_answer)


def _typed(answer: AnswerRow, part: Part | None) -> str:
    """What was typed; a letter with the words of its option."""
    text = _short(answer.text)
    if part is None or not isinstance(part.key, ChoiceKey):
        return text
    words = {option.letter: option.text for option in part.key.options}
    return one_line(words.get(text.strip(" .)").upper(), text), _LONGEST)


def in_words(answer: AnswerRow, part: Part | None) -> tuple[str, str, str]:
    """What was asked, the words of the option typed, and what was right; "" where not known."""
    if part is None:
        return "", "", ""
    option = _typed(answer, part) if isinstance(part.key, ChoiceKey) else ""
    return one_line(part.ask, 1000), option, _right(part)


# ---------------------------------------------------------------- common mistakes


def mistake_of(mark: Mark, part: Part | None, kind: str) -> str:
    """The slip in words: an option by its text, a name by the one it was taken for."""
    slip = mark.slip
    if not slip:
        return ""
    if part is not None and isinstance(part.key, ChoiceKey):
        chosen = {option.letter: option.text for option in part.key.options}.get(slip)
        return _option(chosen) if chosen else ""
    if part is not None and isinstance(part.key, NameKey):
        return _confused(slip, part.key)
    return "" if kind == "choice" else said(slip)


def _possible(part: Part) -> Iterator[str]:
    """The mistakes that can be told in this part."""
    key = part.key
    if isinstance(key, ChoiceKey):
        yield from (_option(option.text) for option in key.options if not option.right)
    elif isinstance(key, NumberKey):
        yield from (said(slip.id) for slip in key.slips)
    elif isinstance(key, TableKey):
        yield from (said(slip.id) for cell in key.cells.values() for slip in cell.slips)
    elif isinstance(key, NameKey):
        yield from (_confused(name, key) for name in key.look_alikes)


def _seen(row: PartAnswer, part: Part, mark: Mark, scale: Scale) -> PartAnswer:
    """The row of a reading, with the height it was seen from where that explains it best.

    A question that shows the scale from a wrong height says nothing of the learner's own.
    """
    if not (isinstance(part.key, NumberKey) and part.kind == "reading" and scale.shape in LIQUIDS):
        return row
    if any(slip.id == _SHOWN for slip in part.key.slips):
        return row
    found = "" if row.is_right else seen_from(mark, part.key, scale)
    return replace(row, mistake=found or row.mistake, could=row.could.union(HEIGHTS))


def _option(text: str) -> str:
    return f"“{one_line(text, 60)}”"


def _confused(name: str, key: NameKey) -> str:
    return f"{one_line(name, 40)} for {one_line(key.accept[0], 40)}"


def said(slip: str) -> str:
    """A slip's id as words."""
    return one_line(slip.replace("-", " "), 60)
