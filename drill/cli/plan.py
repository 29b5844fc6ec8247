"""`drill plan`: the exam date, minutes a day, and what they are likely to bring."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.cli.common import (
    AsJson,
    At,
    LearnerCode,
    Plain,
    TopicArgument,
    clock,
    deck_of,
    existing_learner,
    open_bank,
    open_store,
    rows_as_json,
)
from drill.cli.views import FEW_ANSWERS, share
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Deck
    from drill.planning import Planner
    from drill.store import Learner, Store

Exam = Annotated[str, typer.Option(help="The exam's date, as 2027-05-18; none takes it away.")]
Minutes = Annotated[float | None, typer.Option(min=1, max=240, help="Minutes a day.")]

_OTHER_MINUTES = (0, 10, 20, 30)
_DAYS_SHOWN = 7


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
    from drill.cli.screen import Screen

    now = clock(at)
    with open_store() as store:
        who = existing_learner(store, learner)
        _set(store, who, exam, minutes, now)
        deck = deck_of(store, who, topics)
        found = figures(store, deck, who, now)
    if as_json:
        rows_as_json(found)
    else:
        _show(Screen(plain), deck, found)


def _set(store: Store, who: Learner, exam: str, minutes: float | None, now: datetime) -> None:
    if exam:
        store.set_setting(who, "exam", "" if exam == "none" else _coming(exam, now), now)
    if minutes is not None:
        store.set_setting(who, "minutes", f"{minutes:g}", now)


def _coming(text: str, now: datetime) -> str:
    """The date, if it is one and still to come."""
    try:
        exam = date.fromisoformat(text)
    except ValueError:
        raise DrillError(f'--exam "{text}" is not a date. Write it as 2027-05-18.') from None
    if exam <= now.date():
        raise DrillError(f"--exam {exam} is over. Give the date of the exam still to come.")
    return exam.isoformat()


def figures(store: Store, deck: Deck, who: Learner, now: datetime) -> dict[str, Any]:
    """Everything `drill plan` shows, as one JSON object."""
    from drill.sitting import learners_planner

    bank = open_bank(deck)
    planner = learners_planner(store, bank, deck, who, now)
    says = bank.skills()
    a_day = planner.minutes_per_day
    forecasts = {
        minutes: planner.forecast(now, minutes_per_day=minutes)
        for minutes in sorted({*_OTHER_MINUTES, a_day})
    }
    chosen = forecasts[a_day]
    weak = sorted(chosen.per_skill.items(), key=lambda item: item[1][0])
    return {
        "learner": who.code,
        "deck": deck.id,
        "exam": planner.exam.date().isoformat() if planner.exam else None,
        "days_left": (planner.exam.date() - now.date()).days if planner.exam else None,
        "papers": [
            {"id": paper.id, "exam": paper.exam, "days_left": _days_to(paper.exam, now)}
            for paper in deck.papers
            if paper.exam
        ],
        "minutes_a_day": a_day,
        "answers": planner.memory.answers(),
        "apart": round(chosen.apart, 3),
        "doubt": chosen.doubt,
        "forecast": [_forecast_row(minutes, row) for minutes, row in forecasts.items()],
        "weak": [
            {"skill": skill, "says": says[skill].says, "expected": round(share[0], 3)}
            for skill, share in weak[:5]
        ],
        "days": _days(planner, now),
    }


def _forecast_row(minutes: float, forecast: Any) -> dict[str, Any]:
    return {
        "minutes_a_day": minutes,
        "expected": round(forecast.expected, 3),
        "low": round(forecast.low, 3),
        "high": round(forecast.high, 3),
    }


def _days(planner: Planner, now: datetime) -> list[dict[str, Any]]:
    from datetime import timedelta

    days = []
    for ahead in range(_DAYS_SHOWN):
        day = now + timedelta(days=ahead)
        choice = planner.choose(day)
        taught = [name for name, plan in planner.skills.items() if _starts(plan.taught_from, day)]
        days.append(
            {
                "day": day.date().isoformat(),
                "practice": choice is not None,
                "minutes": _minutes(planner, day) if choice is not None else 0,
                "spent": planner.past.spent(day) > 0.0,
                "done": choice is None and planner.past.spent(day) > 0.0,
                "taught": taught,
            }
        )
    return days


def _minutes(planner: Planner, day: datetime) -> int:
    """Whole minutes of the day that are not spent yet, at least one."""
    return max(1, round(planner.minutes_per_day - planner.past.spent(day) / 60.0))


def _starts(taught: datetime | None, day: datetime) -> bool:
    return taught is not None and taught.date() == day.date()


def _show(screen: Screen, deck: Deck, found: dict[str, Any]) -> None:
    left = found["days_left"]
    when = "no exam date: planned four weeks ahead" if left is None else _countdown(found)
    screen.pair(deck.title, when, style="bold")
    screen.rule()
    screen.line("Share of marks to expect on the day, practising as planned:")
    rows = []
    for row in found["forecast"]:
        mark = "  (yours)" if row["minutes_a_day"] == found["minutes_a_day"] else ""
        label = f"{row['minutes_a_day']:g} min a day{mark}"
        rows.append((label, share(row["expected"]), _bar(row), _range(row)))
    screen.table(("", "", "0      25      50     75     100", "8 papers in 10"), rows)
    screen.line(_rests_on(found["answers"]))
    if found["doubt"]:
        screen.line(found["doubt"])
    screen.line()
    screen.line("Likely to stay weakest:")
    screen.table(
        ("skill", "on the day"), [(row["says"], share(row["expected"])) for row in found["weak"]]
    )
    screen.line()
    _show_days(screen, found)


def _rests_on(answers: int) -> str:
    """How much to make of it, in a sentence."""
    if not answers:
        return "Nothing is answered yet, so this could be far out: the first sittings will tell."
    number = f"{answers} {'answer' if answers == 1 else 'answers'}"
    if answers < FEW_ANSWERS:
        return f"It rests on {number} so far: a sitting or two can still move it much."
    return f"It rests on {number}."


def _days_to(exam: str, now: datetime) -> int:
    return (date.fromisoformat(exam) - now.date()).days


def _countdown(found: dict[str, Any]) -> str:
    if len(found["papers"]) > 1:
        return "  ".join(f"{row['id']} in {row['days_left']} days" for row in found["papers"])
    left = found["days_left"]
    return f"exam {found['exam']}: {left} {'day' if left == 1 else 'days'} left"


def _range(row: dict[str, Any]) -> str:
    return f"{share(row['low'])} to {share(row['high'])}"


def _bar(row: dict[str, Any], width: int = 31) -> str:
    """The range as a line with the expected share on it."""
    low, at, high = (round(row[name] * (width - 1)) for name in ("low", "expected", "high"))
    cells = ["·"] * width
    cells[low : high + 1] = ["─"] * (high + 1 - low)
    cells[at] = "●"
    return "".join(cells)


def _show_days(screen: Screen, found: dict[str, Any]) -> None:
    rows = []
    for row in found["days"]:
        day = date.fromisoformat(row["day"])
        left = " more" if row["spent"] else ""
        rest = "done" if row["done"] else "nothing worth asking"
        what = f"up to {row['minutes']} min{left}" if row["practice"] else rest
        taught = "taught: " + ", ".join(row["taught"]) if row["taught"] else ""
        rows.append((f"{day:%a} {day.day} {day:%b}", what, taught))
    screen.line("The coming days, if you keep to the plan:")
    screen.table(("day", "practice", ""), rows)
