"""The questions of `drill deck new`: each answer is checked when it is typed, and asked again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from drill.app.deck_answers import (
    Wrong,
    course_of,
    exam_of,
    minutes_of,
    practicals_of,
    title_of,
)
from drill.app.decks import NewDeck, id_from
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.cli.screen import Screen

T = TypeVar("T")


class Interview:
    """Takes each answer from its option when it is given, else asks until it can be used."""

    def __init__(self, screen: Screen, out: str, titles: Mapping[str, str]) -> None:
        self.screen, self.out, self.titles = screen, out, titles

    def answers(
        self,
        title: str | None,
        course: str | None,
        exam: str | None,
        practicals: str | None,
        minutes: str | None,
    ) -> NewDeck:
        """Raises DrillError for an option that cannot be used, or when `--out` exists already."""
        if self.out and Path(self.out).exists():
            raise DrillError(f"{self.out} exists already. Choose another name with --out.")
        usual = "salts,measure,safety"
        options: tuple[tuple[str, str | None, Callable[[str], object]], ...] = (
            ("--title", title, self.title),
            ("--course", course, course_of),
            ("--exam", exam, exam_of),
            ("--practicals", practicals, self.practicals),
            ("--minutes", minutes, minutes_of),
        )
        for option, given, read in options:  # before anything is asked
            wrong = None if given is None else read(given)
            if isinstance(wrong, Wrong):
                raise DrillError(f'{option} "{given}": {wrong.says}')
        asked_title = self._take(title, "Title, as pupils see it", "Our practicals", self.title)
        return NewDeck(
            self.path(asked_title),
            asked_title,
            self._take(course, "Course, as separate foundation", "combined higher", course_of),
            self._take(exam, "Exam date, as 2027-05-18", "", exam_of, "none yet"),
            self._practicals(practicals, usual),
            self._take(minutes, "Minutes a day", "12", minutes_of),
        )

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
            self.screen.line(found.says)
            given = None

    def _practicals(self, given: str | None, usual: str) -> list[str]:
        if given is None:
            self.screen.line()
            self.screen.table(("practical", "what it is"), list(self.titles.items()))
        return self._take(given, "Practicals, with commas", usual, self.practicals)

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
        """Ids of practicals; a title will do."""
        return practicals_of(typed, self.titles)
