"""`appeal`, `fix` and `faulty`: which part is meant, what is said of it; Enter leaves it alone."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from drill.cli.command_words import is_word
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Part
    from drill.sitting import CurrentQuestion, Sitting

_FEELINGS = re.compile(
    r"\b(fair|unfair|hard|difficult|easy|boring|stupid|hate|annoying|i (do not|don'?t|dont|cant|"
    r"can'?t|cannot) (know|get|like|understand|do)|no idea|idk|dunno)\b",
    re.IGNORECASE,
)
"""How a question feels is no fault of it."""


class Objections:
    """What a learner says about a mark or a question."""

    def __init__(self, screen: Screen, sitting: Sitting, now: Callable[[], datetime]) -> None:
        self._screen, self._sitting, self._now = screen, sitting, now
        self._contested: set[tuple[bytes, str]] = set()

    def appeal(self, asked: CurrentQuestion) -> None:
        """A mark is contested; it stands until somebody in charge has looked at it."""
        if not _typed(asked):
            self._screen.line(_PASSED)
            return
        missed = [part for part in _typed(asked) if part.id in asked.missed()]
        open_ = [part for part in missed if (asked.asking, part.id) not in self._contested]
        self._say_full(asked, missed)
        if not open_:
            said = "It is with your teacher or tutor already." if missed else _FULL
            self._screen.line(said)
            return
        part = self._which(open_)
        if part is None:
            return
        reason = self._said(f"Why should {_named(asked, part)} earn more?")
        if reason:
            self._sitting.appeal(asked, part, reason, self._now())
            self._contested.add((asked.asking, part.id))
            self._screen.line("Kept for your teacher or tutor. Until then the mark stands.")

    def fix(self, asked: CurrentQuestion) -> None:
        """A typing mistake is noted; the first text stands."""
        missed = [part for part in _answered(asked) if part.id in asked.missed()]
        self._say_full(asked, missed)
        part = self._which(missed) if missed else None
        if part is None:
            if not missed:
                self._screen.line(_FULL)
            return
        text = self._said(f"What did you mean to type for {_named(asked, part)}?", needs_word=False)
        if not text:
            return
        if text == asked.typed[part.id][1].strip():
            self._screen.line("That is what you typed.")
            return
        mark = self._sitting.fix(asked, part, text, self._now())
        marks = f"{mark.marks} of {counted(mark.of, 'mark')}"
        self._screen.line(f"That would be {marks}. The first answer stands; both are kept.")

    def faulty(self, asked: CurrentQuestion) -> bool:
        """The question itself is said to be wrong; whether that was said."""
        part = self._which(asked.question.parts)
        if part is None:
            return False
        about = f"({part.id})" if len(asked.question.parts) > 1 else "this question"
        note = self._said(f"What is wrong with {about}, for everybody who gets it?")
        if not note:
            return False
        if _FEELINGS.search(note):
            self._screen.line(
                "That says how it feels, not what is wrong with it. To contest a mark: appeal."
            )
            return False
        missed = bool(asked.missed())
        place = f"({part.id}) " if len(asked.question.parts) > 1 else ""
        self._sitting.faulty(asked, place + note, self._now())
        self._screen.line(
            "Thank you. It is noted for your teacher; until they agree, your mark counts."
            if missed
            else "Thank you. It is noted, and this question does not count."
        )
        return True

    # ---------------------------------------------------------------- asking for the details

    def _say_full(self, asked: CurrentQuestion, missed: Sequence[Part]) -> None:
        """Which parts are not asked about, as they earned all of their marks."""
        full = [f"({part.id})" for part in _answered(asked) if part.id not in asked.missed()]
        if full and missed:
            earned = "every mark was earned there"
            self._screen.line(f"Not about {' or '.join(full)}: {earned}.")

    def _which(self, parts: Sequence[Part]) -> Part | None:
        """The part that is meant; the only one there is without asking."""
        if len(parts) == 1:
            return parts[0]
        letters = " or ".join(part.id for part in parts)
        while True:
            typed = self._screen.ask(f"Which part, {letters}? (Enter: leave it) > ")
            letter = typed.strip().casefold().strip("().")
            if not letter or is_word(letter):
                self._screen.line("Left as it is.")
                return None
            found = [part for part in parts if part.id == letter]
            if found:
                return found[0]

    def _said(self, question: str, needs_word: bool = True) -> str:
        """What is typed; "" when it was left, or says nothing."""
        text = self._screen.ask(f"{question} (Enter: leave it) > ").strip()
        if not text or is_word(text):
            self._screen.line("Left as it is.")
            return ""
        if needs_word and not re.search(r"[^\W\d_]{3}", text):
            self._screen.line("Say it in a word or two, or leave it. Left as it is.")
            return ""
        return text


_PASSED = "Nothing was answered: there is no mark to contest."
_FULL = "Every mark was earned: there is nothing to put right."


def _answered(asked: CurrentQuestion) -> list[Part]:
    """Parts with a mark that the marker gave: what learners set themselves needs no appeal."""
    marks = asked.marks
    return [
        part
        for part in asked.question.parts
        if part.id in asked.typed and not marks[part.id].self_marked
    ]


def _typed(asked: CurrentQuestion) -> list[Part]:
    """Those of them with an answer: a part that was passed has no mark to contest."""
    return [part for part in _answered(asked) if asked.typed[part.id][1]]


def _named(asked: CurrentQuestion, part: Part) -> str:
    return f"({part.id})" if len(asked.question.parts) > 1 else "it"
