"""The questions of `drill deck new`: each answer is checked when it is typed, and asked again."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from drill.app.topics.deck_answers import (
    Wrong,
    courses_of,
    day_of,
    division_of,
    line_of,
    minutes_of,
    names_of,
    practicals_of,
    title_of,
)
from drill.app.topics.decks import NewDeck, NewTopic, id_from, without_questions
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.app.context import Bank
    from drill.cli.screen import Screen

T = TypeVar("T")
_USUAL_PRACTICALS = "salts,measure,safety"
_MOST_PAPERS = 6


@dataclass(frozen=True)
class Given:
    """What options said; None is asked, and what goes with it too."""

    title: str | None
    course: str | None
    exam: str | None
    practicals: str | None
    minutes: str | None


class Interview:
    """Takes each answer from its option when it is given, else asks until it can be used."""

    def __init__(self, screen: Screen, out: str, bank: Bank) -> None:
        self.screen, self.out, self.bank = screen, out, bank
        self.titles = {id_: one.title for id_, one in bank.practicals().items()}
        self.courses: tuple[str, ...] = ()

    def answers(self, given: Given) -> NewDeck:
        """Raises DrillError for an option that cannot be used, or when `--out` exists already."""
        if self.out and Path(self.out).exists():
            raise DrillError(f"{self.out} exists already. Choose another name with --out.")
        self._look_at(given)
        title = self._take(given.title, "Title, as pupils see it", "Our practicals", self.title)
        self.courses = self._take(
            given.course, "Course, or several with commas", "combined higher", courses_of
        )
        papers = self._papers(given.exam)
        practicals = self._practicals(given.practicals)
        asked = given.practicals is None
        topics = [self._topic(one, papers, asked) for one in practicals]
        minutes = self._take(given.minutes, "Minutes a day", "12", minutes_of)
        bench, names = self._bench() if given.minutes is None else ({}, {})
        return NewDeck(self.path(title), title, self.courses, papers, topics, minutes, bench, names)

    def _look_at(self, given: Given) -> None:
        """Every option is read before anything is asked."""
        options: tuple[tuple[str, str | None, Callable[[str], object]], ...] = (
            ("--title", given.title, self.title),
            ("--course", given.course, courses_of),
            ("--exam", given.exam, day_of),
            ("--practicals", given.practicals, lambda typed: practicals_of(typed, self.titles)),
            ("--minutes", given.minutes, minutes_of),
        )
        for option, typed, read in options:
            wrong = None if typed is None else read(typed)
            if isinstance(wrong, Wrong):
                raise DrillError(f'{option} "{typed}": {wrong.says}')

    def _take(
        self,
        given: str | None,
        asks: str,
        usual: str,
        read: Callable[[str], T | Wrong],
        usual_says: str = "",
    ) -> T:
        while True:
            typed = given
            if typed is None:
                typed = (
                    self.screen.ask(f"{asks} (Enter: {usual_says or usual}) > ").strip() or usual
                )
            found = read(typed)
            if not isinstance(found, Wrong):
                return found
            if given is not None:
                raise DrillError(found.says)
            self.screen.line(found.says)

    # ---------------------------------------------------------------- the questions

    def _papers(self, given: str | None) -> list[str]:
        """The date of each paper; one option gives one."""
        if given is not None:
            day = self._take(given, "", "", day_of)
            return [day] if day else []
        papers: list[str] = []
        asks, none = "Exam date, as 18/05/2027", "none yet"
        while len(papers) < _MOST_PAPERS:
            day = self._take(None, asks, "", day_of, none)
            if not day:
                break
            papers.append(day)
            asks, none = f"Date of paper {len(papers) + 1}", "no more"
        return papers

    def _practicals(self, given: str | None) -> list[str]:
        if given is None:
            self.screen.line()
            rows = [(str(n), id_, says) for n, (id_, says) in enumerate(self.titles.items(), 1)]
            self.screen.table(("", "practical", "what it is"), rows)
        return self._take(given, "Practicals, with commas", _USUAL_PRACTICALS, self.practicals)

    def _topic(self, practical: str, papers: Sequence[str], asked: bool) -> NewTopic:
        """When a practical was taught, and by which paper it is examined."""
        if not asked:
            return NewTopic(practical)
        says = self.titles.get(practical, practical)
        taught = self._take(None, f"{says}: taught on", "", day_of, "already")
        if len(papers) < 2:
            return NewTopic(practical, taught)
        numbers = f"1 to {len(papers)}"

        def read(typed: str) -> int | Wrong:
            known = {str(number): number for number in range(1, len(papers) + 1)}
            return known.get(typed) or Wrong(f"Type the number of a paper, {numbers}.")

        return NewTopic(practical, taught, self._take(None, f"examined by paper {numbers}", "1",
                                                      read))  # fmt: skip

    def _bench(self) -> tuple[dict[str, str], Mapping[str, str]]:
        """What this school really uses."""
        self.screen.line("What your school uses; questions follow it.")
        asked = {
            "balance": self._take(None, "Balance reads to, in g", "none", division_of),
            "thermometer": self._take(None, "Thermometer marked every, in °C", "none", division_of),
        }
        names = self._take(
            None, "Own words, as evaporating basin = evaporating dish", "none", names_of
        )
        asked["risk_line"] = self._take(None, "A line on risk for every caution", "none", line_of)
        return {name: value for name, value in asked.items() if value}, names

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
        """Ids of practicals that have questions for the courses; a title or a number will do."""
        found = practicals_of(typed, self.titles)
        if isinstance(found, Wrong):
            return found
        empty = without_questions(self.bank, found, self.courses)
        if empty:
            return Wrong(f"No question for {' or '.join(self.courses)} in: {', '.join(empty)}.")
        return found
