"""The end of a sitting: marks by skill, what changed for exam day, when to come back."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from drill.cli.nothing_to_ask import in_words, next_day, why_no_more
from drill.cli.views import FEW_ANSWERS, share

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.planning import Forecast
    from drill.sitting import Sitting

_TOO_FEW = 10
"""With fewer answers only the range is said. The standard error of a share from n answers, right or
wrong, is up to 0.5 / sqrt(n): 16 in 100 at ten, more below. A middle figure, or its fall after one
miss, would say more about that one question than about the learner."""


def farewell(screen: Screen, sitting: Sitting, now: datetime, put: bool = True) -> None:
    """Say what the sitting brought. A sitting without answers ends in one line.

    `put`: a question was put; without one there is only when to come back.
    """
    screen.line()
    screen.rule()
    if sitting.left_out:
        number = len(sitting.left_out)
        some = "1 question was" if number == 1 else f"{number} questions were"
        screen.line(f"{some} left out because of a fault. For an author: drill bank check")
    if not sitting.done and not put:
        _come_back(screen, sitting, now)
        return
    if not sitting.done:
        screen.line("Nothing answered this time; nothing is lost.")
        return
    marks, of = sitting.marks()
    minutes = max(1, round(sitting.seconds() / 60))
    number = len(sitting.done)
    screen.line(
        f"{number} {'question' if number == 1 else 'questions'}, {counted(marks, of)}, "
        f"{minutes} {'minute' if minutes == 1 else 'minutes'}.",
        style="bold",
    )
    own, own_of = sitting.own_marks()
    if own_of:
        screen.line(f"Besides, decided by you and counted apart: {counted(own, own_of)}.")
    _by_skill(screen, sitting, now)
    _forecast(screen, sitting, now)
    _come_back(screen, sitting, now)


def counted(marks: int, of: int) -> str:
    """As "0 of 1 mark", "3 of 4 marks"."""
    return f"{marks} of {of} {'mark' if of == 1 else 'marks'}"


def _by_skill(screen: Screen, sitting: Sitting, now: datetime) -> None:
    earned: dict[str, list[int]] = {}
    for asked in sitting.done:
        for part in asked.question.parts:
            shares = asked.shares(part.id) if part.id in asked.marks else None
            if shares is not None and shares.of:
                total = earned.setdefault(part.skill, [0, 0])
                total[0] += shares.marks
                total[1] += shares.of
    says, states = sitting.bank.skills(), sitting.states(now)
    rows = []
    for skill, (marks, of) in sorted(earned.items()):
        name = says[skill].says if skill in says else skill
        rows.append((name, f"{marks} of {of}", states.get(skill, "")))
    screen.table(("skill", "marks", "now"), rows)
    screen.line()


def _forecast(screen: Screen, sitting: Sitting, now: datetime) -> None:
    before, after = sitting.forecasts(now)
    day = "on exam day" if sitting.planner.exam else "in four weeks"
    answers = sitting.planner.memory.answers()
    said = _range(after, day) if answers < _TOO_FEW else _expected(before, after, day, answers)
    screen.line(said)


def _range(after: Forecast, day: str) -> str:
    low, high = share(after.low), share(after.high)
    return f"Too few answers yet to say much: between {low} and {high} of the marks {day}."


def _expected(before: Forecast, after: Forecast, day: str, answers: int) -> str:
    moved = round(100 * after.expected) - round(100 * before.expected)
    early = answers < FEW_ANSWERS
    if early:
        moved = 0  # what was thought before rested on next to nothing
    change = (
        f", {abs(moved)} {'more' if moved > 0 else 'less'} than thought before" if moved else ""
    )
    return (
        f"If you keep to the plan, expect about {share(after.expected)} of the marks {day}"
        f"{change}. It could be anything from {share(after.low)} to {share(after.high)}"
        f"{', and the next sittings can still move it much' if early else ''}."
    )


def _come_back(screen: Screen, sitting: Sitting, now: datetime) -> None:
    day = next_day(sitting.planner, now)
    if day is None:
        screen.line(why_no_more(sitting.planner, now))
    else:
        screen.line(f"Come back on {in_words(day)}.")
