"""The conversation about one question: typed lines in, marks out, each part in its turn.

Besides answers there are words: those for help while answering (`aids.py`), those about a mark
(`objections.py`), `pass` and `stop`, and after a mark `more` and `again`.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

from drill.cli import feedback, views
from drill.cli.aids import Aids
from drill.cli.command_words import REFUSED, WORDS_AFTER, is_word, likely_word, passes, word_in
from drill.cli.how_sure import how_sure
from drill.cli.line_reader import forget
from drill.cli.loose_words import MEANT, meant
from drill.cli.meanwhile import load_marker
from drill.cli.objections import Objections
from drill.cli.self_marking import decide, set_level
from drill.cli.without_eyes import said

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Mark, Part
    from drill.sitting import CurrentQuestion, Sitting

_AWAY = 600.0
"""Longer than this and the learner was away: such a pause is not thinking time."""
_IN_WORDS = ("written", "name", "levels", "table")
_NOTHING = "nothing"
"""No answer and no word: what was typed is taken back."""
_BY_LETTER = ("choice", "order")
_BY_NUMBER = ("number", "reading")
_LONG = 3
"""From so many marks a written answer may have several lines."""


class Stopped(Exception):
    """The learner typed `stop`."""


class Conversation:
    """One learner at one screen."""

    def __init__(
        self, screen: Screen, sitting: Sitting, now: Callable[[], datetime], sure: bool
    ) -> None:
        self.screen, self.sitting, self.now, self._sure = screen, sitting, now, sure
        self._aids = Aids(screen, sitting, now)
        self._objections = Objections(screen, sitting, now)
        self._last: CurrentQuestion | None = None
        self._more: tuple[str, ...] = ()
        self._missed: Part | None = None
        self._safety: set[str] = set()
        self._said_sure = ""
        self._trying = False

    def take(self, asked: CurrentQuestion, place: str) -> None:
        """Put a question to the learner and stay with it to the end."""
        forget()
        self._aids.forget()
        line = self.sitting.deck.bench.get("risk_line", "")
        views.show_question(self.screen, asked.question, place, self._tells_safety(asked), line)
        try:
            if asked.shown:
                self._example(asked)
            else:
                self._parts(asked)
        except Stopped:
            self.sitting.finish(asked, self.now())
            raise
        self.sitting.finish(asked, self.now())

    def _tells_safety(self, asked: CurrentQuestion) -> bool:
        """Each notice once a sitting, and never before a pure calculation."""
        notice = asked.question.safety
        if not notice or notice in self._safety or views.is_pure_calculation(asked.question):
            return False
        self._safety.add(notice)
        return True

    def _parts(self, asked: CurrentQuestion) -> None:
        for place, part in enumerate(asked.waiting()):
            if place:
                views.show_graph_again(self.screen, asked.question)
            self._part(asked, part)
            if asked.left:
                return
            if asked.over:
                break
        self._go_on(asked, "Enter to go on > ")

    def _example(self, asked: CurrentQuestion) -> None:
        self.screen.line("First, one worked through. Read it; there is nothing to answer.")
        self.screen.line()
        with self.screen.by_windows():
            views.show_example(self.screen, asked.question)
        self._missed, self._more = None, ()
        self._go_on(asked, "Enter for a question of your own > ")

    # ---------------------------------------------------------------- one part

    def _part(self, asked: CurrentQuestion, part: Part) -> None:
        views.show_part(self.screen, part, alone=len(asked.question.parts) == 1)
        prompt = f"{_letter(asked, part)}{self._how(part)} > "
        began = time.monotonic()
        if self.screen.is_typed_at:
            load_marker()
        text = self._typed(prompt, asked, part)
        if text is None:
            return
        seconds = min(time.monotonic() - began, _AWAY)
        mark = None if passes(text) else self._answered(asked, part, text, seconds)
        while mark is not None and not mark.readable:  # a value is typed again once
            self.screen.line(mark.says)
            self.screen.line(REFUSED, style="dim")
            again = self._typed(prompt, asked, part)
            if again is None:
                return
            stands = not _is_no_answer(part, again)
            mark = None if passes(again) else self._answered(asked, part, again, seconds, stands)
        passed = mark is None
        if mark is None:
            mark = self.sitting.pass_part(asked, part, seconds, self.now())
        self._last = asked
        self._missed = part if mark.marks < mark.of and not mark.self_marked else None
        self._more = ()
        self._feedback(asked, part, mark, passed)

    def _how(self, part: Part) -> str:
        """What to type; that several lines are taken, where somebody can see it."""
        more = ", an empty line ends it" if self._is_long(part) else ""
        return f"{views.how_to_answer(part)}{more}"

    def _is_long(self, part: Part) -> bool:
        long = part.kind == "levels" or (part.kind == "written" and part.marks >= _LONG)
        return long and self.screen.is_typed_at

    def _typed(self, prompt: str, asked: CurrentQuestion, part: Part) -> str | None:
        """The answer typed to a part, after any help; None when the question was abandoned."""
        while True:
            text = self._line(prompt, asked, part)
            if asked.left or asked.over:
                return None
            if text == "" and part.kind != "levels":
                self.screen.line("Type an answer; or ? for a hint, pass, or stop.")
            elif text and self._is_long(part) and not passes(text):
                return "\n".join([text, *self.screen.further_lines()])
            elif (sure := self._made_sure(prompt, asked, part, text)) is not None:
                return sure
            elif asked.left:
                return None

    def _made_sure(self, prompt: str, asked: CurrentQuestion, part: Part, text: str) -> str | None:
        """The answer, asked about once where its words only seem to mean an option; None for no."""
        letters = "" if passes(text) else self.sitting.guessed(part, text)
        if not letters:
            return text
        reply = self._line(f"{letters}{MEANT}", asked, part)
        return None if asked.left else meant(text, letters, reply)

    def _answered(
        self, asked: CurrentQuestion, part: Part, text: str, seconds: float, again: bool = False
    ) -> Mark:
        if self._sure and not again:
            self._said_sure = how_sure(self.screen)
        sure = self._said_sure if self._sure else ""
        return self.sitting.answer(asked, part, text, seconds, self.now(), sure, again=again)

    # ---------------------------------------------------------------- after an answer

    def _feedback(self, asked: CurrentQuestion, part: Part, mark: Mark, passed: bool) -> None:
        if passed:
            self.screen.line()
            marks = feedback.of_marks(0, mark.of)
            self.screen.line(f"{feedback.NOT_ANSWERED}: {marks}", style="bold")
        else:
            feedback.show_word(self.screen, mark)
            if mark.self_marked:
                self._set_level(asked, part)
                return
            feedback.show_says(self.screen, part, mark)
            if _may_try_again(part, mark):
                self._second_try(asked, part)
            feedback.show_points(self.screen, part, mark)
            if mark.unsure:
                mark = self._decide(asked, part, mark)
        waiting = asked.waiting()
        self._more = feedback.show_told(self.screen, part, mark, passed, waiting)
        if self._more:
            self.screen.line("more tells the rest", style="dim")
        self.screen.line()

    def _second_try(self, asked: CurrentQuestion, part: Part) -> None:
        """A second try, now that the wrong route is named; marks and memory follow the first."""
        prompt = f"{_letter(asked, part)}once more, or Enter for the answer > "
        self._trying = True
        text = self._line(prompt, asked, part)
        self._trying = False
        if not text or is_word(text) or asked.over:
            return
        mark = self.sitting.fix(asked, part, text, self.now())
        if mark.marks == mark.of:
            self.screen.line("Right now. The marks are those of your first try.")
        else:
            self.screen.line("Not yet.")

    def _decide(self, asked: CurrentQuestion, part: Part, mark: Mark) -> Mark:
        decided, stops = decide(self.screen, self.sitting, asked, part, self.now())
        if stops:
            raise Stopped
        return decided or mark

    def _set_level(self, asked: CurrentQuestion, part: Part) -> None:
        if set_level(self.screen, self.sitting, asked, part, self.now()):
            raise Stopped

    def _go_on(self, asked: CurrentQuestion, prompt: str) -> None:
        """The pause after a question: Enter goes on, words are taken, a missed answer typed."""
        while (text := self._line(prompt, asked, None)) and not asked.left:
            if is_word(text) or self._missed is None:
                self.screen.line(f"Enter goes on; or {WORDS_AFTER}.")
            else:
                self._copied(asked, text)

    def _again(self, asked: CurrentQuestion) -> None:
        """The correct answer typed once by a learner who wants to; it earns nothing."""
        if self._missed is None or self._last is None:
            self.screen.line("There is nothing to type again.")
            return
        text = self.screen.ask(f"{_letter(self._last, self._missed)}type the right answer > ")
        if text.strip() and not is_word(text):
            self._copied(self._last, text)

    def _copied(self, asked: CurrentQuestion, text: str) -> None:
        assert self._missed is not None
        mark = self.sitting.would_be(asked, self._missed, text)
        if mark.marks == mark.of:
            self.screen.line("That is it.")
        else:
            self.screen.line(f"Not quite. It is: {self._missed.model_answer}")
        self._missed = None

    # ---------------------------------------------------------------- words that are not answers

    def _line(self, prompt: str, asked: CurrentQuestion, part: Part | None) -> str:
        """An answer, or "" when there was none; command words are dealt with first.

        `part`: the one to be answered; None in the pause after a question.
        """
        afterwards = part is None or part.kind not in _IN_WORDS or bool(self._more)
        while True:
            text = self.screen.ask(prompt).strip()
            word, rest = word_in(text, afterwards)
            if not word and (part is None or part.kind not in _IN_WORDS):
                word = self._asked_about(text, part)
            if not word:
                return text
            if word == "stop":
                raise Stopped
            if word == _NOTHING:
                continue
            if word == "take" and part is not None:
                taken = self._aids.taken(rest)
                if taken is not None:
                    self.screen.line(taken)
                    return taken
            elif self._see_to(word, rest, asked, part):
                return ""

    def _asked_about(self, text: str, part: Part | None) -> str:
        """The word that was likely meant, after asking wherever it could be an answer."""
        word = likely_word(text)
        if not word or (part is not None and views.is_option(part, text)):
            return ""
        if word != "stop":
            return word
        reply = self.screen.ask("Stop here? yes or no (Enter: no) > ")
        return word if reply.strip().casefold() in ("yes", "y", "stop") else _NOTHING

    def _see_to(self, word: str, rest: str, asked: CurrentQuestion, part: Part | None) -> bool:
        """Do what a command word asks for; returns whether that ends the line."""
        if word in ("appeal", "fix"):
            self._about_mark(word, asked)
        elif word == "faulty":
            return self._objections.faulty(asked)
        elif word == "more":
            self._tell_more()
        elif word == "again":
            self._again(asked)
            return self._trying  # that was the second try
        elif word == "calc":
            self._aids.calc(rest)
        elif word in ("help", "larger", "drawing", "table"):
            self._aids.tell(word, asked)
        elif word == "question":
            self._aids.question(asked, part)
        elif part is None:
            self.screen.line("That was the last part. Enter goes on.")
        elif word == "example":
            self._aids.example(asked)
            views.show_part(self.screen, part, alone=len(asked.question.parts) == 1)
        elif word == "?":
            hint = self.sitting.hint(asked, part, self.now())
            hint = f"Hint: {hint}" if hint else "There is no hint for this one."
            self.screen.line(said(self.screen, hint))
        return False

    def _about_mark(self, word: str, asked: CurrentQuestion) -> None:
        about = asked if asked.typed else self._last
        if about is None:
            self.screen.line(f"There is nothing yet to {word}: answer a part first.")
            return
        if about is not asked:
            self.screen.line(f"About the question before this one, {about.question.title}:")
        if word == "appeal":
            self._objections.appeal(about)
        else:
            self._objections.fix(about)

    def _tell_more(self) -> None:
        if not self._more:
            now = "The answer comes first: once more, or Enter for it."
            self.screen.line(now if self._trying else "That was all of it.")
        for line in self._more:
            self.screen.item("", line)
        self._more = ()


def _letter(asked: CurrentQuestion, part: Part) -> str:
    return "" if len(asked.question.parts) == 1 else f"({part.id}) "


def _is_no_answer(part: Part, text: str) -> bool:
    """Whether it is none if it cannot be read, however often it is typed: no value stands there."""
    no_figure = not any(sign.isdecimal() for sign in text)
    return part.kind in _BY_LETTER or (part.kind in _BY_NUMBER and no_figure)


def _may_try_again(part: Part, mark: Mark) -> bool:
    """A number whose wrong route is named, by words that do not hold the answer."""
    named = part.kind == "number" and mark.slip is not None and mark.marks < mark.of
    return named and part.model_answer.split(" ")[0] not in mark.says
