"""`drill answers`: what was typed before, its mark, what was right, and the scheme."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import existing_learner, open_bank_of_all, open_store
from drill.cli.common import AsJson, At, PlainKept, clock, is_plain, print_rows
from drill.cli.pictures import IN_WORDS
from drill.errors import WrongValue
from drill.plaintext import counted

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from drill.app.answers import AnswerLine
    from drill.cli.screen import Screen

_SHOWN = 20

Code = Annotated[str, typer.Argument(help="A learner's code; left out: the one who sat last.")]
Skill = Annotated[str, typer.Option(help="Only answers on a skill or topic, in words.")]
Day = Annotated[str, typer.Option(help="Only answers of one day: 2027-03-01, today, yesterday.")]
Missed = Annotated[bool, typer.Option("--missed", help="Only answers that lost marks.")]
All = Annotated[bool, typer.Option("--all", help=f"Not the latest {_SHOWN} alone.")]


def answers(
    learner: Code = "",
    skill: Skill = "",
    day: Day = "",
    missed: Missed = False,
    every: All = False,
    plain: PlainKept = None,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Show past answers, the latest first: what was asked, typed and right, with the scheme."""
    from drill.app.answers import answers as past
    from drill.cli.screen import Screen

    with open_store(reading=True) as store:
        who = existing_learner(store, learner)
        screen = Screen(is_plain(store, who.code, plain))
        wanted = _day(day, clock(at)) if day else None
        most = None if every or as_json else _SHOWN
        found = past(store, open_bank_of_all(store), who, skill, wanted, missed, most)
    if as_json:
        print_rows(found.lines)
        return
    show_answers(screen, found.lines)
    if not found.of:
        screen.line("No answers there.")
    elif earlier := found.of - len(found.lines):
        screen.line(f"{counted(earlier, 'earlier answer')}: --all shows them.")


def _day(text: str, now: datetime) -> date:
    """The day meant.

    Raises:
        WrongValue: it is none.
    """
    from datetime import timedelta

    from drill.typed.dates import date_of

    named = {"today": now.date(), "yesterday": now.date() - timedelta(days=1)}
    found = named.get(text.casefold()) or date_of(text)
    if isinstance(found, str):
        raise WrongValue(f"--day: {found}")
    return found


def show_answers(screen: Screen, rows: Iterable[AnswerLine]) -> None:
    """Each under the line of its day; what stands before the parts of a question is said once."""
    day, before = "", ("", "")
    for row in rows:
        if row.day != day:
            day, of = row.day, date.fromisoformat(row.day)
            screen.line(f"{of:%A} {of.day} {of:%B} {of.year}", style="bold")
        _show(screen, row, (row.template, row.text) == before)
        before = row.template, row.text
        if screen.plain:
            screen.line()


def _show(screen: Screen, row: AnswerLine, goes_on: bool) -> None:
    own = f", {row.own} of {row.own_of} by you" if row.own_of else ""
    screen.rule()
    screen.pair(row.skill, f"{row.marks} of {counted(row.of, 'mark')}{own}", "bold")
    if row.text and not goes_on:
        screen.line(row.text)
    if row.picture and not goes_on:
        screen.line(IN_WORDS + row.picture)
    if row.ask:
        screen.line(row.ask)
    for option in row.options:
        screen.line(option, indent=2)
    screen.item("you typed", "(not answered)" if row.passed else row.typed or "(on paper)")
    if row.mistake and row.mistake.strip("“”") != row.typed:
        screen.item("mistake", row.mistake)
    if row.right and row.marks + row.own < row.of + row.own_of:
        screen.item("right", row.right)
    for line in row.scheme if len(row.scheme) > 1 else ():
        screen.item("scheme", line)
