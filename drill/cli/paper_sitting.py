"""`drill sit --paper 40`: a paper against the clock; marks and answers come at the end.

Extra time and rest breaks are as a school grants them. `pause` stops the clock.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.papers.paper_results import A_MARK, PaperRow, result_of
from drill.cli import feedback, views
from drill.cli.aids import Aids
from drill.cli.command_words import passes, word_in
from drill.cli.loose_words import MEANT, meant
from drill.cli.self_marking import set_level
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.papers.paper_results import PaperResult
    from drill.cli.screen import Screen
    from drill.model import Part, Question
    from drill.sitting import CurrentQuestion, Sitting

_LONG = 3


class HandedIn(Exception):
    """The paper is over: handed in, or its time is up."""


class ExamClock:
    """Seconds that run, without those of rest breaks."""

    def __init__(self, allowed: float, spent: float = 0.0) -> None:
        self.allowed, self._began, self._rested = allowed, time.monotonic() - spent, 0.0

    def spent(self) -> float:
        """Seconds since the paper began, breaks left out."""
        return time.monotonic() - self._began - self._rested

    def left(self) -> str:
        """The time left, in whole minutes."""
        return f"{max(0, round((self.allowed - self.spent()) / 60))} min left"

    def rest(self, wait: Callable[[], object]) -> None:
        """A break for as long as `wait` takes."""
        began = time.monotonic()
        wait()
        self._rested += time.monotonic() - began


class PaperConversation:
    """One learner with one paper."""

    def __init__(
        self,
        screen: Screen,
        sitting: Sitting,
        now: Callable[[], datetime],
        questions: Sequence[tuple[Question, str]],
        extra: int,
    ) -> None:
        self.screen, self.sitting, self.now = screen, sitting, now
        self.questions = questions
        marks = sum(question.marks for question, _ in questions)
        self.seconds = {
            (asked.asking, part): spent
            for asked, seconds in sitting.taken_up
            for part, spent in seconds.items()
        }
        spent = sum(self.seconds.values())
        self.clock = ExamClock(marks * A_MARK * (1 + extra / 100), spent)
        self._begun = {_name(asked.question): asked for asked, _ in sitting.taken_up}
        self._aids = Aids(screen, sitting, now)
        self.done: list[CurrentQuestion] = []

    def take(self) -> PaperResult:
        """Put every question until the paper is handed in or its time is up; the figures."""
        self._greet()
        try:
            for number, (question, skill) in enumerate(self.questions, 1):
                self._question(number, question, skill)
        except HandedIn:
            pass
        for asked in self.done:
            self._set_levels(asked)
            self.sitting.finish(asked, self.now())
        questions = [question for question, _ in self.questions]
        says = self.sitting.bank.skills()
        return result_of(questions, self.done, self.seconds, self.clock.allowed, says)

    def _greet(self) -> None:
        minutes = round(self.clock.allowed / 60)
        marks = sum(question.marks for question, _ in self.questions)
        self.screen.line(f"A paper of {counted(marks, 'mark')}: {counted(minutes, 'minute')}.")
        if self.sitting.resumed:
            answered = sum(len(asked.marks) for asked in self._begun.values())
            self.screen.line(
                f"Going on where you stopped, after {counted(answered, 'part')}: "
                f"{self.clock.left()}. The time in between is not counted."
            )
        self.screen.line("Marks and answers come at the end.")
        self._words()

    def _words(self) -> None:
        self.screen.line(
            "pass leaves a part, pause stops the clock, table and calc are there, question and "
            "drawing tell it again, stop hands the paper in."
        )

    def _question(self, number: int, question: Question, skill: str) -> None:
        asked = self._begun.get(_name(question)) or self.sitting.put(question, skill, self.now())
        if asked is None:
            return
        self.done.append(asked)
        waiting = asked.waiting()
        if not waiting:
            return
        self._aids.forget()
        place = f"question {number} of {len(self.questions)} · {self.clock.left()}"
        views.show_question(self.screen, question, place, safety=False)
        for part in waiting:
            self._part(asked, part)

    def _part(self, asked: CurrentQuestion, part: Part) -> None:
        if self.clock.spent() >= self.clock.allowed:
            self.screen.line("Time is up.")
            raise HandedIn
        views.show_part(self.screen, part, alone=len(asked.question.parts) == 1)
        letter = f"({part.id}) " if len(asked.question.parts) > 1 else ""
        ends = ", an empty line ends it" if self._is_long(part) else ""
        prompt = f"{letter}{views.how_to_answer(part)}{ends} > "
        began = self.clock.spent()
        text = self._typed(prompt, asked, part)
        spent = self.clock.spent() - began
        self.seconds[asked.asking, part.id] = spent
        if passes(text) or not text:
            self.sitting.pass_part(asked, part, spent, self.now())
            return
        mark = self.sitting.answer(asked, part, text, spent, self.now())
        if not mark.readable:  # typed again, once
            self.screen.line(mark.says)
            again = self._typed(prompt, asked, part)
            self.sitting.answer(asked, part, again, spent, self.now(), again=True)

    def _typed(self, prompt: str, asked: CurrentQuestion, part: Part) -> str:
        """What is typed for a part; "" when it is left."""
        while True:
            text = self.screen.ask(prompt).strip()
            word, rest = word_in(text)
            if text.casefold() == "pause":
                self.clock.rest(lambda: self.screen.ask("The clock stands. Enter to go on > "))
                self.screen.line(f"Going on, {self.clock.left()}.")
            elif word == "stop":
                self._hand_in()
            elif word == "calc":
                self._aids.calc(rest)
            elif word == "take":
                taken = self._aids.taken(rest)
                if taken is not None:
                    return taken
            elif word in ("larger", "drawing", "table"):
                self._aids.tell(word, asked)
            elif word == "question":
                self._aids.question(asked, part)
            elif word == "help":
                self._words()
            elif word:
                self.screen.line("Not during a paper: at its end.")
            elif (sure := self._made_sure(part, text)) is not None:
                more = self.screen.further_lines() if sure and self._is_long(part) else []
                return "\n".join([sure, *more])

    def _is_long(self, part: Part) -> bool:
        """Whether several lines are taken; said only where somebody can see it."""
        long = part.kind == "levels" or part.marks >= _LONG
        return long and _in_words(part) and self.screen.is_typed_at

    def _made_sure(self, part: Part, text: str) -> str | None:
        """The answer, asked about once where its words only seem to mean an option; None for no."""
        letters = "" if passes(text) or not text else self.sitting.guessed(part, text)
        if not letters:
            return text
        return meant(text, letters, self.screen.ask(f"{letters}{MEANT}").strip())

    def _hand_in(self) -> None:
        sure = self.screen.ask("Hand it in? yes or no (Enter: no) > ").strip().casefold()
        if sure in ("y", "yes"):
            raise HandedIn

    def _set_levels(self, asked: CurrentQuestion) -> None:
        """Extended answers are marked by the learner, now that nothing is left to answer."""
        for part in asked.question.parts:
            mark = asked.marks.get(part.id)
            if mark is not None and mark.self_marked and asked.typed[part.id][1]:
                self.screen.rule()
                self.screen.line(part.ask)
                self.screen.line(mark.says)
                set_level(self.screen, self.sitting, asked, part, self.now())


def _name(question: Question) -> tuple[str, int]:
    return question.template, question.seed


def _in_words(part: Part) -> bool:
    return part.kind in ("written", "levels")


def show_result(screen: Screen, found: PaperResult, done: Sequence[CurrentQuestion]) -> None:
    """Marks and pace, by command word and by skill; then every part that lost marks."""
    screen.line()
    screen.rule()
    minutes, allowed = round(found.seconds / 60), round(found.allowed / 60)
    screen.line(
        f"{feedback.of_marks(found.marks, found.of)} in {minutes} of {allowed} minutes.", "bold"
    )
    if found.own_of:
        own = feedback.of_marks(found.own, found.own_of)
        screen.line(f"Besides, decided by you and counted apart: {own}.")
    if found.reached:
        a_mark = found.seconds / found.reached
        screen.line(f"{a_mark:.0f} seconds a mark; a paper gives about {A_MARK:.0f}.")
    missing = found.of + found.own_of - found.reached
    if missing > 0:
        screen.line(f"Not reached: {counted(missing, 'mark')}.")
    for head, rows in (("command word", found.by_word), ("skill", found.by_skill)):
        screen.line()
        screen.table((head, "marks", "seconds a mark"), [_cells(row) for row in rows])
    screen.line()
    for number, asked in enumerate(done, 1):
        _show_missed(screen, number, asked)


def _cells(row: PaperRow) -> tuple[str, str, str]:
    return row.name, f"{row.marks} of {row.of}", f"{row.seconds:.0f}"


def _show_missed(screen: Screen, number: int, asked: CurrentQuestion) -> None:
    """The parts of a question that lost marks: what was typed, why, what is right."""
    for part in asked.question.parts:
        mark = asked.marks.get(part.id)
        if mark is None or mark.marks == mark.of or mark.self_marked:
            continue
        letter = f"({part.id})" if len(asked.question.parts) > 1 else ""
        screen.rule()
        screen.pair(f"{number}{letter} {asked.question.title}", _short(mark.marks, mark.of))
        screen.line(part.ask)
        typed = asked.typed[part.id][1]
        screen.item("you typed", typed or "nothing")
        if typed:
            feedback.show_says(screen, part, mark)
            feedback.show_points(screen, part, mark)
        feedback.show_told(screen, part, mark, not typed, ())


def _short(marks: int, of: int) -> str:
    return f"{marks} of {of}"
