"""`drill weak`: what to take up in the next lesson, and what it rests on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import deck_of, existing_learner, open_bank, open_store
from drill.cli.common import AsJson, At, Plain, clock, print_rows, write_bytes, write_file
from drill.errors import WrongValue

if TYPE_CHECKING:
    from drill.app.context import Learner, Store
    from drill.app.weakness.lesson_sheet import LessonSheet
    from drill.app.weakness.weak import LearnerReport

Who = Annotated[
    list[str] | None,
    typer.Argument(
        help="A learner's code, several side by side, a pupil's of a class, or a file: a hand-in, "
        "or what drill data export wrote as .jsonl; left out: the one who sat last."
    ),
]
Html = Annotated[str, typer.Option("--html", help="Write a page for a browser or printer here.")]
Sheet = Annotated[
    str,
    typer.Option(
        "--sheet", help="Write the next lesson's questions and answers here: .pdf, .html or .txt."
    ),
]
Csv = Annotated[str, typer.Option("--csv", help="Write a row a skill for a spreadsheet here.")]
Deck = Annotated[str, typer.Option("--deck", help="The topic deck it speaks of.")]
All = Annotated[bool, typer.Option("--all", help="All skills by topic, and every common mistake.")]
Weeks = Annotated[bool, typer.Option("--weeks", help="The trend by week.")]
Sure = Annotated[bool, typer.Option("--sure", help="How sure they were, against the marks.")]
Hints = Annotated[bool, typer.Option("--hints", help="Where hints were taken and what was passed.")]
Unsure = Annotated[bool, typer.Option("--not-sure", help="What the marker was not sure of.")]
Since = Annotated[str, typer.Option("--since", help="Compare before and after, as 2027-02-01.")]
Until = Annotated[str, typer.Option("--until", help="The last day that --since compares.")]


def weak(
    learner: Who = None,
    deck: Deck = "",
    all_skills: All = False,
    weeks: Weeks = False,
    sure: Sure = False,
    hints: Hints = False,
    not_sure: Unsure = False,
    since: Since = "",
    until: Until = "",
    plain: Plain = False,
    html: Html = "",
    csv: Csv = "",
    sheet: Sheet = "",
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Show what to take up in the next lesson, with the answers it rests on.

    Twenty lines first: at most three things, what is held least, common mistakes, what was not
    tried, what is strong, questions to ask. Options show the rest instead; a page holds it all.
    """
    from drill.cli.screen import Screen
    from drill.documents import writer
    from drill.documents.weak_document import Wanted, document, whole_document

    now, between = clock(at), _between(since, until, clock(at))
    found = list(_reports(learner or [""], deck, now, between, bool(sheet)))
    reports = [report for report, _ in found]
    if as_json:
        print_rows(reports)
    if csv:
        from drill.app.weakness.weak_csv import as_csv

        write_file(Path(csv), as_csv(reports))
    if html:
        write_file(Path(html), writer("html")(whole_document(reports)))
    if sheet:
        _write_sheet(Path(sheet), [one for _, one in found if one is not None])
    if not (as_json or csv or html or sheet):
        wanted = Wanted(all_skills, weeks, sure, hints, not_sure)
        screen = Screen(plain)
        screen.document(document(reports, wanted, screen.width))


def _reports(
    names: list[str],
    deck: str,
    now: datetime,
    between: tuple[date, date] | None,
    sheet: bool,
) -> Iterator[tuple[LearnerReport, LessonSheet | None]]:
    """A report for each code, and for each learner in each file; with `sheet` also a sheet."""
    from drill.app.weakness.weak import store_of_file

    for name in names:
        if name and Path(name).is_file():
            with store_of_file(name, now) as store:
                for who in store.learners():
                    yield _report(store, who, deck, now, between, sheet)
        else:
            with _store_with(name) as store:
                who = existing_learner(store, name)
                yield _report(store, who, deck, now, between, sheet)


@contextmanager
def _store_with(name: str) -> Iterator[Store]:
    """This machine's store; for a pupil of a class who has not practised here, one of theirs."""
    from drill.app.classes.class_pupil import class_pupil, store_of_pupil

    with open_store(reading=True) as store:
        known = [who for who in store.learners() if who.code.casefold() == name.casefold()]
        handed = class_pupil(name) if name else None
        if handed is None or any(_practised(store, who) for who in known):
            yield store
        else:
            with store_of_pupil(store, handed) as theirs:
                yield theirs


def _practised(store: Store, who: Learner) -> bool:
    """Whether somebody answered on this computer, not on paper alone."""
    given = (answer.verdict for asking in store.askings(who) for answer in asking.answers)
    return any(verdict is None or verdict.by != "paper" for verdict in given)


def _report(
    store: Store,
    who: Learner,
    deck: str,
    now: datetime,
    between: tuple[date, date] | None,
    sheet: bool,
) -> tuple[LearnerReport, LessonSheet | None]:
    from drill.app.classes.class_pupil import names_in_classes
    from drill.app.weakness.lesson_sheet import lesson_sheet
    from drill.app.weakness.weak import learner_report

    chosen = deck_of(store, who, deck)
    bank = open_bank(chosen)
    report = learner_report(store, bank, chosen, who, now, between)
    report = replace(report, name=names_in_classes().get(who.code.casefold(), ""))
    return report, lesson_sheet(store, bank, report, who, now) if sheet else None


def _write_sheet(path: Path, sheets: list[LessonSheet]) -> None:
    """By the file's ending."""
    from drill.cli.paper import FORMATS, written_as
    from drill.documents.lesson_sheet import document

    kinds = {ending: name for name, ending in FORMATS.items()}
    if path.suffix not in kinds:
        raise WrongValue(f"--sheet {path.name}: its ending is one of {', '.join(kinds)}.")
    write_bytes(path, written_as(document(sheets), kinds[path.suffix]))


def _between(since: str, until: str, now: datetime) -> tuple[date, date] | None:
    if not (since or until):
        return None
    if not since:
        raise WrongValue("--until goes with --since. Give the day from which to compare, too.")
    first = _date("--since", since)
    last = _date("--until", until) if until else now.date()
    if last < first:
        raise WrongValue(f"--until {last} is before --since {first}. Give a later day.")
    return first, last


def _date(option: str, text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise WrongValue(f'{option} "{text}" is not a date. Write it as 2027-02-01.') from None
