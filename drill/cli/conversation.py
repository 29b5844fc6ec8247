"""The conversation about one question: typed lines in, marks out, each part in its turn.

While answering `?` asks for a hint, `pass` gives up the part, `stop` ends the sitting. After a
verdict, at whichever prompt comes next, also `appeal`, `fix` and `faulty`.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import TYPE_CHECKING

from drill.cli import views

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Mark, Part
    from drill.sitting import CurrentQuestion, Sitting

# longer than this and the learner was away: such a pause is not thinking time
_AWAY = 600.0


class Stopped(Exception):
    """The learner typed `stop`."""


class Desk:
    """One learner at one screen."""

    def __init__(
        self, screen: Screen, sitting: Sitting, now: Callable[[], datetime], sure: bool
    ) -> None:
        self.screen, self.sitting, self.now, self._sure = screen, sitting, now, sure
        self._last: tuple[CurrentQuestion, Part] | None = None
        self._said_sure = ""

    def take(self, asked: CurrentQuestion, place: str) -> None:
        """Put a question before the learner and see it through."""
        views.show_question(self.screen, asked.question, place)
        try:
            if asked.shown:
                self._example(asked)
            else:
                self._parts(asked)
        except Stopped:
            self.sitting.finish(asked, self.now())
            raise
        self.sitting.finish(asked, self.now())

    def _parts(self, asked: CurrentQuestion) -> None:
        for place, part in enumerate(asked.waiting()):
            if place:
                views.show_graph_again(self.screen, asked.question)
            self._part(asked, part)
            if asked.left:
                return
        self._go_on(asked, "Enter to go on > ")

    def _example(self, asked: CurrentQuestion) -> None:
        self.screen.line("First, one worked through. Read it; there is nothing to answer.")
        self.screen.line()
        views.show_example(self.screen, asked.question)
        self._go_on(asked, "Enter for one with other numbers > ")

    # ---------------------------------------------------------------- one part

    def _part(self, asked: CurrentQuestion, part: Part) -> None:
        views.show_part(self.screen, part, alone=len(asked.question.parts) == 1)
        letter = "" if len(asked.question.parts) == 1 else f"({part.id}) "
        prompt = f"{letter}{views.how_to_answer(part)} > "
        began = time.monotonic()
        text = self._typed(prompt, asked, part)
        if text is None:
            return
        seconds = min(time.monotonic() - began, _AWAY)
        mark = None if _passes(text) else self._answered(asked, part, text, seconds)
        if mark is not None and not mark.readable:  # typed again, once
            self.screen.line(mark.says)
            again = self._typed(prompt, asked, part)
            if again is None:
                return
            mark = None if _passes(again) else self._answered(asked, part, again, seconds, True)
        passed = mark is None
        if mark is None:
            mark = self.sitting.pass_part(asked, part, seconds, self.now())
        self._last = (asked, part)
        self._feedback(asked, part, mark, passed)

    def _typed(self, prompt: str, asked: CurrentQuestion, part: Part) -> str | None:
        """What is typed for a part, after any hints; None when the question was left."""
        while True:
            text = self._line(prompt, asked)
            if asked.left:
                return None
            if text == "?":
                hint = self.sitting.hint(asked, part, self.now())
                self.screen.line(f"Hint: {hint}" if hint else "There is no hint for this one.")
            elif text == "" and part.kind != "levels":
                self.screen.line("Type an answer; or ? for a hint, pass, or stop.")
            else:
                return text

    def _answered(
        self, asked: CurrentQuestion, part: Part, text: str, seconds: float, again: bool = False
    ) -> Mark:
        if self._sure and not again:
            self._said_sure = self._how_sure()
        sure = self._said_sure if self._sure else ""
        return self.sitting.answer(asked, part, text, seconds, self.now(), sure, again=again)

    def _how_sure(self) -> str:
        said = self.screen.ask("How sure? guess, fairly or certain (Enter: skip) > ")
        word = said.strip().casefold()
        return word if word in ("guess", "fairly", "certain") else ""

    def _feedback(self, asked: CurrentQuestion, part: Part, mark: Mark, passed: bool) -> None:
        if passed:
            self.screen.line()
            self.screen.line("Passed; here is how it goes.", style="bold")
        else:
            views.show_mark(self.screen, part, mark)
            if mark.self_marked:
                self._set_level(asked, part)
                return
            if mark.unsure:
                mark = self._decide(asked, part, mark)
        views.show_worked(self.screen, part, mark.marks == mark.of, passed, mark.says)
        self.screen.line()

    def _decide(self, asked: CurrentQuestion, part: Part, mark: Mark) -> Mark:
        """Scheme and answer stand on the screen; the learner decides what the marker could not."""
        says = {point.id: point.says for point in part.points}
        earned: dict[str, bool] = {}
        for point in mark.unsure:
            self.screen.item("scheme", says.get(point, point))
            self.screen.item("you wrote", asked.typed[part.id][1])
            reply = self.screen.ask("Does your answer say that? yes or no (Enter: leave it) > ")
            word = reply.strip().casefold()
            if word in ("yes", "y", "no", "n"):
                earned[point] = word.startswith("y")
            elif word == "stop":
                self._keep_decided(asked, part, earned)
                raise Stopped
        return self._keep_decided(asked, part, earned) or mark

    def _keep_decided(
        self, asked: CurrentQuestion, part: Part, earned: Mapping[str, bool]
    ) -> Mark | None:
        """Keep what the learner decided; None when it was nothing."""
        if not earned:
            return None
        decided = self.sitting.decide(asked, part, earned, self.now())
        own = asked.shares(part.id)
        marks = f"{own.own} of {own.own_of}"
        self.screen.line(f"Noted: {marks}, decided by you and counted apart.")
        return decided

    def _set_level(self, asked: CurrentQuestion, part: Part) -> None:
        """Levels and an exemplar stand on the screen; the learner confirms or changes the mark."""
        views.show_levels(self.screen, part, asked.typed[part.id][1])
        while True:
            reply = self.screen.ask(f"Your mark, 0 to {part.marks} (Enter: leave it) > ").strip()
            if reply == "":
                self.screen.line("Left for your teacher or tutor.")
                break
            if reply.casefold() == "stop":
                raise Stopped
            if reply in map(str, range(part.marks + 1)):
                own = self.sitting.set_level(asked, part, int(reply), self.now())
                self.screen.line(f"Noted: {own.marks} of {own.of}, set by you and counted apart.")
                break
        self.screen.line()

    # ---------------------------------------------------------------- words that are not answers

    def _go_on(self, asked: CurrentQuestion, prompt: str) -> None:
        """The pause after a question: Enter goes on, words for the desk are taken, no other."""
        while self._line(prompt, asked) and not asked.left:
            self.screen.line("Enter goes on; or stop, appeal, fix, faulty.")

    def _line(self, prompt: str, asked: CurrentQuestion) -> str:
        """A typed line that is none of the words for the desk itself."""
        while True:
            text = self.screen.ask(prompt).strip()
            word = text.casefold()
            if word == "stop":
                raise Stopped
            if word == "faulty":
                self._faulty(asked)
                return ""
            if word in ("appeal", "fix"):
                self._about_last(word)
            else:
                return text

    def _faulty(self, asked: CurrentQuestion) -> None:
        note = self.screen.ask("What is wrong with this question? > ")
        self.sitting.faulty(asked, note, self.now())
        self.screen.line("Thank you. It is noted, and this question counts for nothing.")

    def _about_last(self, word: str) -> None:
        if self._last is None:
            self.screen.line(f"There is nothing yet to {word}: answer a part first.")
        elif word == "appeal":
            self._appeal(*self._last)
        else:
            self._fix(*self._last)

    def _appeal(self, asked: CurrentQuestion, part: Part) -> None:
        reason = self.screen.ask("Why should it earn more? > ")
        self.sitting.appeal(asked, part, reason, self.now())
        self.screen.line("Kept for your teacher or tutor. Until then the mark stands.")

    def _fix(self, asked: CurrentQuestion, part: Part) -> None:
        text = self.screen.ask("What did you mean to type? > ")
        mark = self.sitting.fix(asked, part, text, self.now())
        self.screen.line(
            f"That would be {mark.marks} of {mark.of}. The first answer stands; both are kept."
        )


def _passes(text: str) -> bool:
    return text.casefold() == "pass"
