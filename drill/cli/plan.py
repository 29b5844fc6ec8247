"""`drill plan`: the exam date, minutes a day, and what they are likely to bring."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import deck_of, existing_learner, open_checked, open_store
from drill.cli.common import (
    AsJson,
    At,
    LearnerCode,
    PlainKept,
    TopicArgument,
    clock,
    finite,
    is_plain,
    print_rows,
    write_file,
)
from drill.cli.figures import figure_lines
from drill.cli.views import share
from drill.plaintext import counted, listed

if TYPE_CHECKING:
    from drill.app.context import Learner, Store
    from drill.app.plan import MinutesRow, PlanFigures
    from drill.app.weakness.practised import Practised
    from drill.cli.screen import Screen
    from drill.model import Deck

Exam = Annotated[str, typer.Option(help="The exam's date, as 2027-05-18; none takes it away.")]
Minutes = Annotated[
    float | None, typer.Option(min=1, max=240, callback=finite, help="Minutes a day.")
]
Course = Annotated[
    str,
    typer.Option(help='Your course from now on, as "combined higher"; none: that of the deck.'),
]
Calendar = Annotated[
    str, typer.Option("--calendar", help="Write the planned sittings here, as iCalendar.")
]

_BESIDE_BAR = 26
"""Columns: the label of a bar, and its minutes behind it."""


def plan(
    topics: TopicArgument = "",
    exam: Exam = "",
    minutes: Minutes = None,
    course: Course = "",
    learner: LearnerCode = "",
    plain: PlainKept = None,
    calendar: Calendar = "",
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Set exam date, minutes a day and course; see how you stand and the coming days."""
    from drill.app.plan import plan_figures, set_course, set_plan
    from drill.app.topics.left_out import for_pupil, left_out
    from drill.cli.screen import Screen

    now = clock(at)
    changing = bool(exam or course) or minutes is not None
    with open_store(reading=not changing) as store:
        plain = is_plain(store, learner, plain)
        who = _who(store, learner, plain, changing, now)
        set_plan(store, who, exam, minutes, now)
        if course:
            set_course(store, who, course, deck_of(store, who, topics), now)
        deck = deck_of(store, who, topics)
        bank = open_checked(deck)
        found = plan_figures(store, bank, deck, who, now)
        lacks = for_pupil(left_out(deck, bank)) if deck.course else ""
    if calendar:
        _write_calendar(Path(calendar), found, now)
    elif as_json:
        print_rows(found)
    else:
        _show(Screen(plain), deck, found, lacks)


def _write_calendar(path: Path, found: PlanFigures, now: datetime) -> None:
    from drill.app.calendar_file import as_calendar

    write_file(path, as_calendar(found, now).decode())


def _who(store: Store, code: str, plain: bool, changing: bool, now: datetime) -> Learner:
    """The learner; who sets a plan before the first sitting is asked for a code."""
    if changing and not store.learners():
        from drill.cli.greeting import who_is_it
        from drill.cli.screen import Screen

        return who_is_it(Screen(plain), store, code, now)
    return existing_learner(store, code)


def _show(screen: Screen, deck: Deck, found: PlanFigures, lacks: str) -> None:
    """At most 24 lines of 80 columns."""
    screen.pair(deck.title, _countdown(found), style="bold")
    screen.rule()
    if lacks:
        screen.line(lacks)
    done = found.practised
    if done.of_days:
        screen.line(
            f"Practised on {done.days} of {counted(done.of_days, 'day')}, "
            f"{done.minutes} of {done.planned} planned minutes."
        )
        _show_done(screen, done)
    for line in figure_lines(found):
        screen.line(line)
    screen.line(_other_minutes(found))
    if found.doubt and found.on_the_day:
        screen.line(found.doubt)
    screen.line()
    _show_days(screen, found)


def _show_done(screen: Screen, done: Practised) -> None:
    """Minutes done and planned as two bars with their figures; the line above tells both."""
    if not screen.draws:
        return
    a_minute = (screen.width - _BESIDE_BAR) / max(done.minutes, done.planned, 1)
    for name, minutes in (("done", done.minutes), ("planned", done.planned)):
        bar = "█" * max(1, round(a_minute * minutes)) if minutes else ""
        screen.item(name, f"{bar} {minutes} min".strip())


def _countdown(found: PlanFigures) -> str:
    if found.days_left is None:
        return "no exam date: planned four weeks ahead"
    if len(found.papers) > 1:
        return "  ".join(f"{row.id} in {row.days_left} days" for row in found.papers)
    return f"exam {found.exam}: {counted(found.days_left, 'day')} left"


def _other_minutes(found: PlanFigures) -> str:
    """What ten minutes more or less would change; never a figure that tells nothing apart."""
    planned = f"Planned: {found.minutes_a_day:g} minutes a day; course: {found.course or 'any'}."
    if found.on_the_day is None or not found.by_minutes:
        return (
            f"{planned} More minutes meet more skills sooner; "
            "by how much they help you, more answers will tell."
        )
    others = [row for row in found.by_minutes if row.minutes_a_day != found.minutes_a_day]
    told = ", ".join(_with(row, found.minutes_a_day, found.on_the_day.share) for row in others)
    return f"{planned} On the day, {told}."


def _with(row: MinutesRow, yours: float, on_the_day: float) -> str:
    """Other minutes and their share; in words where the figures, as shown, are the same."""
    minutes, told = f"with {row.minutes_a_day:g}", share(row.on_the_day)
    if told != share(on_the_day):
        return f"{told} {minutes}"
    more = row.minutes_a_day > yours
    return f"{'as much or more' if more else 'about as much'} {minutes}"


def _show_days(screen: Screen, found: PlanFigures) -> None:
    rows = []
    for row in found.days:
        day = date.fromisoformat(row.day)
        left = " more" if row.spent else ""
        rest = "done" if row.done else "a day of rest"
        what = f"{row.minutes} min{left}" if row.practice else rest
        topics = listed(row.topics)
        if row.taught:
            lesson = counted(len(row.taught), "new skill")
            topics = f"{topics}; taught: {lesson}" if topics else f"taught: {lesson}"
        rows.append((f"{day:%a} {day.day} {day:%b}", what, topics))
    screen.line("The coming days, if you keep to the plan:")
    screen.table(("day", "practice", "mostly about"), rows)
