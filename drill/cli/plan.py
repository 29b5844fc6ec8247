"""`drill plan`: the exam date, minutes a day, and what they are likely to bring."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import deck_of, existing_learner, open_bank, open_store
from drill.cli.common import (
    AsJson,
    At,
    LearnerCode,
    Plain,
    TopicArgument,
    clock,
    finite,
    print_rows,
)
from drill.cli.views import FEW_ANSWERS, share
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.plan import ForecastRow, PlanFigures
    from drill.cli.screen import Screen
    from drill.model import Deck

Exam = Annotated[str, typer.Option(help="The exam's date, as 2027-05-18; none takes it away.")]
Minutes = Annotated[
    float | None, typer.Option(min=1, max=240, callback=finite, help="Minutes a day.")
]


def plan(
    topics: TopicArgument = "",
    exam: Exam = "",
    minutes: Minutes = None,
    learner: LearnerCode = "",
    plain: Plain = False,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Set exam date and minutes a day; see what to expect and the coming days."""
    from drill.app.plan import plan_figures, set_plan
    from drill.cli.screen import Screen

    now = clock(at)
    with open_store(reading=not exam and minutes is None) as store:
        who = existing_learner(store, learner)
        set_plan(store, who, exam, minutes, now)
        deck = deck_of(store, who, topics)
        found = plan_figures(store, open_bank(deck), deck, who, now)
    if as_json:
        print_rows(found)
    else:
        _show(Screen(plain), deck, found)


def _show(screen: Screen, deck: Deck, found: PlanFigures) -> None:
    screen.pair(deck.title, _countdown(found), style="bold")
    screen.rule()
    screen.line("Share of marks to expect on the day, practising as planned:")
    rows = []
    for row in found.forecast:
        mark = "  (yours)" if row.minutes_a_day == found.minutes_a_day else ""
        label = f"{row.minutes_a_day:g} min a day{mark}"
        rows.append((label, share(row.expected), _bar(row), _range(row)))
    screen.table(("", "", "0      25      50     75     100", "8 papers in 10"), rows)
    screen.line(_rests_on(found.answers))
    if found.doubt:
        screen.line(found.doubt)
    screen.line()
    screen.line("Likely to stay weakest:")
    screen.table(("skill", "on the day"), [(row.says, share(row.expected)) for row in found.weak])
    screen.line()
    _show_days(screen, found)


def _rests_on(answers: int) -> str:
    """How much to make of it, in a sentence."""
    if not answers:
        return "Nothing is answered yet, so this could be far out: the first sittings will tell."
    number = counted(answers, "answer")
    if answers < FEW_ANSWERS:
        return f"It rests on {number} so far: a sitting or two can still move it much."
    return f"It rests on {number}."


def _countdown(found: PlanFigures) -> str:
    if found.days_left is None:
        return "no exam date: planned four weeks ahead"
    if len(found.papers) > 1:
        return "  ".join(f"{row.id} in {row.days_left} days" for row in found.papers)
    return f"exam {found.exam}: {counted(found.days_left, 'day')} left"


def _range(row: ForecastRow) -> str:
    return f"{share(row.low)} to {share(row.high)}"


def _bar(row: ForecastRow, width: int = 31) -> str:
    """The range as a line with the expected share on it."""
    low, at, high = (round(at * (width - 1)) for at in (row.low, row.expected, row.high))
    cells = ["·"] * width
    cells[low : high + 1] = ["─"] * (high + 1 - low)
    cells[at] = "●"
    return "".join(cells)


def _show_days(screen: Screen, found: PlanFigures) -> None:
    rows = []
    for row in found.days:
        day = date.fromisoformat(row.day)
        left = " more" if row.spent else ""
        rest = "done" if row.done else "nothing worth asking"
        what = f"up to {row.minutes} min{left}" if row.practice else rest
        taught = "taught: " + ", ".join(row.taught) if row.taught else ""
        rows.append((f"{day:%a} {day.day} {day:%b}", what, taught))
    screen.line("The coming days, if you keep to the plan:")
    screen.table(("day", "practice", ""), rows)
