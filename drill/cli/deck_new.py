"""The questions of `drill deck new`: each answer is checked when it is typed, and asked again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from drill.cli.dates import date_of
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.cli.screen import Screen

T = TypeVar("T")


class Wrong(NamedTuple):
    """What is wrong with an answer, and what is wanted instead."""

    says: str


class DeckAnswers(NamedTuple):
    """All that a new deck is written from."""

    path: Path
    title: str
    course: str
    exam: str
    practicals: list[str]
    minutes: int


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
    ) -> DeckAnswers:
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
        return DeckAnswers(
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
        """A title with something in it, whose file is not there yet."""
        from drill.bank.schema.fields import unprintable

        if not typed.strip() or unprintable(typed):
            return Wrong("A title is a few printable words.")
        if self.path(typed).exists():
            return Wrong(
                f"{self.path(typed)} exists already. Another title, please "
                "(or stop with Ctrl-C and name a file with --out)."
            )
        return typed.strip()

    def practicals(self, typed: str) -> list[str] | Wrong:
        """Ids, each once; a title will do."""
        from drill.bank.reading.deck_reader import practical_hint

        by_name = {title.casefold(): id_ for id_, title in self.titles.items()}
        by_name |= {id_.casefold(): id_ for id_ in self.titles}
        names = [" ".join(name.split()) for name in typed.split(",") if name.strip()]
        for name in names:
            if name.casefold() not in by_name:
                # the list stands on the screen already: it is said again only when nothing is near
                hint = practical_hint(name, self.titles).partition(" There are:")[0]
                return Wrong(f'There is no practical "{name}". {hint}')
        if not names:
            return Wrong("Name at least one practical.")
        return list(dict.fromkeys(by_name[name.casefold()] for name in names))


COURSES = ("combined foundation", "combined higher", "separate foundation", "separate higher")


def course_of(typed: str) -> str | Wrong:
    """One of the four courses, the two words in either order."""
    words = set(typed.casefold().split())
    for course in COURSES:
        if words == set(course.split()):
            return course
    return Wrong(f"That is no course. Type {_either(COURSES)}.")


def exam_of(typed: str) -> str | Wrong:
    """The date as ISO text; "" for none yet."""
    if typed.casefold() in ("", "none", "none yet"):
        return ""
    found = date_of(typed)
    return Wrong(found) if isinstance(found, str) else found.isoformat()


def minutes_of(typed: str) -> int | Wrong:
    """Whole minutes from 1 to 240."""
    if typed.isascii() and typed.isdecimal() and 1 <= int(typed[:6]) <= 240:
        return int(typed)
    return Wrong("Type whole minutes, from 1 to 240.")


def id_from(title: str) -> str:
    """Small letters and digits with - between words, for the deck and its file."""
    letters = "".join(
        sign if sign.isascii() and sign.isalnum() else "-" for sign in title.casefold()
    )
    return "-".join(part for part in letters.split("-") if part)[:40].strip("-") or "deck"


def _either(names: tuple[str, ...]) -> str:
    return f"{', '.join(names[:-1])} or {names[-1]}"
