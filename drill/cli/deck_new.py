"""The questions of `drill deck new`: each answer is checked when it is typed, and asked again.

`back` goes back one question: the interview begins anew, with what was typed before.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from drill.app.topics.courses import courses_of, listed_courses
from drill.app.topics.deck_answers import (
    Wrong,
    both,
    day_of,
    line_of,
    minutes_of,
    paper_of,
    practicals_of,
    title_of,
)
from drill.app.topics.decks import NewDeck, NewTopic, id_from, nothing_for
from drill.app.topics.left_out import LeftOut, for_teacher
from drill.errors import DrillError
from drill.plaintext import listed
from drill.typed.dates import in_words

if TYPE_CHECKING:
    from drill.app.context import Bank
    from drill.cli.screen import Screen

T = TypeVar("T")
_USUAL_PRACTICALS = "salts,measure,safety"
_MOST_PAPERS = 6
BACK = "back"


class Given(NamedTuple):
    """What options said; None is asked, and what goes with it too."""

    title: str | None
    course: str | None
    exam: str | None
    practicals: str | None
    minutes: str | None


class _Back(Exception):
    """The word `back` was typed."""


@dataclass
class Interview:
    """Takes each answer from its option when it is given, else asks until it can be used."""

    screen: Screen
    out: str
    bank: Bank
    today: date

    def __post_init__(self) -> None:
        self.titles = {id_: one.title for id_, one in self.bank.practicals().items()}
        self.courses: tuple[str, ...] = ()
        self._typed: list[str] = []
        self._at = 0

    def answers(self, given: Given) -> NewDeck:
        """Raises DrillError for an option that cannot be used, or when `--out` exists already."""
        if self.out and Path(self.out).exists():
            raise DrillError(f"{self.out} exists already. Choose another name with --out.")
        self._look_at(given)
        if None in given:
            self._say(f"Enter takes what stands in brackets · {BACK}: one question back")
        while True:
            self._at = 0
            try:
                return self._asked(given)
            except _Back:
                del self._typed[-1:]

    def _asked(self, given: Given) -> NewDeck:
        title = self._take(given.title, "Title, as pupils see it", "Our practicals", self.title)
        if given.course is None:
            for course in listed_courses(joined="\n").splitlines():
                self._say(f"  {course}")
        self.courses = self._take(
            given.course, "Course; a mixed class: each, with commas", "combined higher", courses_of,
            shown=", ".join,
        )  # fmt: skip
        papers = self._papers(given.exam)
        practicals = self._practicals(given.practicals)
        asked = given.practicals is None
        topics = [self._topic(one, papers, asked) for one in practicals]
        minutes = self._take(given.minutes, "Minutes a day", "12", minutes_of)
        bench = self._risk_line() if given.minutes is None else {}
        return NewDeck(self.path(title), title, self.courses, papers, topics, minutes, bench)

    def _look_at(self, given: Given) -> None:
        """Every option is read before anything is asked."""
        options: tuple[tuple[str, str | None, Callable[[str], object]], ...] = (
            ("--title", given.title, self.title),
            ("--course", given.course, courses_of),
            ("--exam", given.exam, self._exam),
            ("--practicals", given.practicals, lambda typed: practicals_of(typed, self.titles)),
            ("--minutes", given.minutes, minutes_of),
        )
        for option, typed, read in options:
            wrong = None if typed is None else read(typed)
            if isinstance(wrong, Wrong):
                raise DrillError(f'{option} "{typed}": {wrong.says}')

    def _say(self, line: str) -> None:
        """A line, unless it stood there before `back`."""
        if self._at == len(self._typed):
            self.screen.line(line)

    def _take(
        self,
        given: str | None,
        asks: str,
        usual: str,
        read: Callable[[str], T | Wrong],
        usual_says: str = "",
        shown: Callable[[T], str] | None = None,
    ) -> T:
        """The first answer that can be used; `shown` tells what it was taken for."""
        while True:
            again = given is None and self._at < len(self._typed)
            typed = given if given is not None else self._typed[self._at] if again else None
            if typed is None:
                typed = self._type(f"{asks} (Enter: {usual_says or usual}) > ") or usual
            found = read(typed)
            if isinstance(found, Wrong):
                if given is not None:
                    raise DrillError(found.says)
                self.screen.line(found.says)
                del self._typed[self._at :]
                continue
            if given is None:
                self._keep(typed, shown(found) if shown else "", again)
            return found

    def _type(self, prompt: str) -> str:
        """What is typed, which may be the word that goes back."""
        while True:
            typed = self.screen.ask(prompt).strip()
            if typed.casefold() != BACK:
                return typed
            if self._typed:
                raise _Back
            self.screen.line("This is the first question.")

    def _keep(self, typed: str, taken_for: str, again: bool) -> None:
        if not again:
            self._typed.append(typed)
            if taken_for not in ("", typed):
                self.screen.line(f"  {taken_for}")
        self._at += 1

    # ---------------------------------------------------------------- the questions

    def _exam(self, typed: str) -> str | Wrong:
        return day_of(typed, self.today, ahead=True)

    def _taught(self, typed: str) -> str | Wrong:
        return day_of(typed, self.today)

    def _papers(self, given: str | None) -> list[str]:
        """The date of each paper; one option gives one."""
        if given is not None:
            day = self._take(given, "", "", self._exam)
            if day:
                self._say(f"  Exam: {_day(day)}")
            return [day] if day else []
        papers: list[str] = []
        asks, none = "Exam date, as 18 May", "none yet"
        while len(papers) < _MOST_PAPERS:
            day = self._take(None, asks, "", self._exam, none, _day)
            if not day:
                break
            papers.append(day)
            asks, none = f"Date of paper {len(papers) + 1}", "no more"
        return papers

    def _practicals(self, given: str | None) -> list[str]:
        if given is None and self._at == len(self._typed):
            self.screen.line()
            rows = [(str(n), id_, says) for n, (id_, says) in enumerate(self.titles.items(), 1)]
            self.screen.table(("", "practical", "what it is"), rows)
        found = self._take(
            given, "Practicals, by name or number", _USUAL_PRACTICALS, self.practicals,
            shown=lambda ids: listed([self.titles.get(id_, id_) for id_ in ids]),
        )  # fmt: skip
        for id_, courses in nothing_for(self.bank, found, self.courses).items():
            told = LeftOut(self.titles.get(id_, id_), tuple(courses))
            self._say(*for_teacher([told]))
        return found

    def _topic(self, practical: str, papers: Sequence[str], asked: bool) -> NewTopic:
        """When a practical was taught, and by which paper it is examined."""
        if not asked:
            return NewTopic(practical)
        says = self.titles.get(practical, practical)
        taught = self._take(
            None, f"{says}: taught on, as 11 January", "", self._taught, "already", _day
        )
        if len(papers) < 2:
            return NewTopic(practical, taught)
        numbers = ", ".join(str(number) for number in range(1, len(papers) + 1))
        number = self._take(
            None, f"Which paper examines it: {numbers} or {both(papers)}?", "1",
            lambda typed: paper_of(typed, papers),
            shown=lambda number: f"paper {number}, {_day(papers[number - 1])}: learnt by then",
        )  # fmt: skip
        return NewTopic(practical, taught, number)

    def _risk_line(self) -> dict[str, str]:
        """The school's own line beside a question's caution."""
        asks = "Your line under each safety notice, as Follow the risk assessment of room 4"
        line = self._take(None, asks, "none", line_of)
        return {"risk_line": line} if line else {}

    # ---------------------------------------------------------------- reading an answer

    def path(self, title: str) -> Path:
        """Where the deck goes."""
        return Path(self.out or f"{id_from(title)}.toml")

    def title(self, typed: str) -> str | Wrong:
        """A title whose file is not there yet."""
        found = title_of(typed)
        if isinstance(found, str) and self.path(typed).exists():
            return Wrong(
                f"{self.path(typed)} exists already. Another title, please "
                "(or stop with Ctrl-C and name a file with --out)."
            )
        return found

    def practicals(self, typed: str) -> list[str] | Wrong:
        """Ids of practicals, each with questions for one of the courses at least."""
        found = practicals_of(typed, self.titles)
        if isinstance(found, Wrong):
            return found
        lacks = nothing_for(self.bank, found, self.courses)
        empty = [id_ for id_, courses in lacks.items() if len(courses) == len(self.courses)]
        if empty:
            titles = "; ".join(self.titles.get(id_, id_) for id_ in empty)
            return Wrong(f"No question for {' or '.join(self.courses)} in: {titles}.")
        return found


def _day(iso: str) -> str:
    """As Monday 23 November 2026, so that a year that was left out is seen."""
    return f"{date.fromisoformat(iso):%A} {in_words(date.fromisoformat(iso))}" if iso else ""
