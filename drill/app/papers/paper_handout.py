"""Marks from paper on their way to the pupils' machines: put into a handout, taken out of it.

They go to machines that have handed in to a class here, since only their ids are known. An answer
has the same id on both machines, so that it counts once in the class's report.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.papers.paper_entry import PartMark, judge_parts, new_asking
from drill.app.papers.paper_marks import PaperItemKept
from drill.exchange.paper_lines import PaperLine, PaperPartMark, as_text, paper_lines

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Question
    from drill.store import AnswerRow, AskingRow, Learner, Store


def marks_on_paper(store: Store) -> str:
    """The lines for a handout: every question answered on paper by somebody of a class here."""
    return as_text(_lines(store))


def _lines(store: Store) -> Iterator[PaperLine]:
    machines = _machines(store)
    for who in store.learners():
        theirs = machines.get(who.code.casefold(), ())
        for asking in store.askings(who) if theirs else ():
            for machine in theirs:
                yield from _of_asking(asking, machine)


def _machines(store: Store) -> dict[str, list[str]]:
    """{code in small letters: ids of that pupil's learners on machines that handed in}."""
    from drill.app.classes.class_room import class_named, classes

    own = {who.id.hex() for who in store.learners()}
    found: dict[str, list[str]] = {}
    for name in classes():
        room = class_named(name)
        for learner, head in room.heads():
            code = room.counts_for(learner, head["code"]).casefold()
            if learner not in own and learner not in found.get(code, ()):
                found.setdefault(code, []).append(learner)
    return found


def _of_asking(asking: AskingRow, machine: str) -> Iterator[PaperLine]:
    answers = [answer for answer in asking.answers if is_by_paper(answer)]
    parts = tuple(map(_mark_of, answers))
    if parts:
        yield PaperLine(
            machine, asking.sitting.hex(), asking.when, _judged(answers),
            asking.template, asking.version, asking.seed, asking.skill, parts,
        )  # fmt: skip


def is_by_paper(answer: AnswerRow) -> bool:
    """Whether it was written on paper, so that nothing typed is touched."""
    return bool(answer.verdict and answer.verdict.by == "paper" and not answer.text)


def _judged(answers: Iterable[AnswerRow]) -> datetime:
    """When the last of their marks was given."""
    return max(answer.verdict.when for answer in answers if answer.verdict)


def _mark_of(answer: AnswerRow) -> PaperPartMark:
    marks = None if answer.kind == "pass" or answer.mark is None else answer.mark.marks
    return PaperPartMark(answer.part, marks, answer.id)


# ------------------------------------------------------------------ on the pupil's machine


def take_paper_marks(store: Store, bank: Bank, deck: str, text: str, now: datetime) -> int:
    """Take over the marks that are for learners of this machine, as sittings of a deck.

    Only for questions that this bank makes the same, and within their marks.

    Returns:
        How many questions have marks that are new here.
    """
    by_learner: dict[str, list[PaperLine]] = {}
    for line in paper_lines(text):
        by_learner.setdefault(line.learner, []).append(line)
    return sum(
        _take(store, bank, deck, who, by_learner[who.id.hex()], now)
        for who in store.learners()
        if who.id.hex() in by_learner
    )


def _take(
    store: Store, bank: Bank, deck: str, who: Learner, lines: Iterable[PaperLine], now: datetime
) -> int:
    there = {(asking.template, asking.seed): asking for asking in store.askings(who)}
    sittings: dict[str, bytes] = {}
    new = 0
    for line in lines:
        asking = there.get((line.template, line.seed))
        question = None if asking and _is_known(asking, line) else _question(store, bank, line)
        if question is None:
            continue
        at, judged = min(line.at, now), min(line.judged, now)
        if asking is None:
            if line.paper not in sittings:
                sittings[line.paper] = store.start_sitting(who, deck, at, {})
            item = PaperItemKept(line.template, line.version, line.seed, line.skill, {})
            asking = new_asking(store, sittings[line.paper], who, item, at)
        marks = dict(_marks(line, question))
        new += judge_parts(store, asking, marks, "paper, handed out", judged) != "unchanged"
    for sitting in sittings.values():
        store.end_sitting(sitting, now, "done")
    return new


def _is_known(asking: AskingRow, line: PaperLine) -> bool:
    """Whether a mark as new is here already, or an answer that was typed."""
    here = [one for one in asking.answers if is_by_paper(one)]
    return not here or _judged(here) >= line.judged


def _question(store: Store, bank: Bank, line: PaperLine) -> Question | None:
    """The question, its text kept; None where this bank has another version of it."""
    from drill.errors import Problem
    from drill.generate import generate
    from drill.sitting.question_supply import keep

    template = bank.template(line.template) if bank.entry(line.template) else ()
    if isinstance(template, tuple) or template.version != line.version:
        return None
    question = generate(template, line.seed)
    if isinstance(question, Problem):
        return None
    keep(store, template)
    return question


def _marks(line: PaperLine, question: Question) -> Iterator[tuple[str, PartMark]]:
    most = {part.id: part.marks for part in question.parts}
    for one in line.parts:
        if one.part in most and (one.marks or 0) <= most[one.part]:
            yield one.part, PartMark(one.marks, most[one.part], one.answer)
