"""The end of a sitting on the screen: marks by skill, exam day, when to come back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.app.nothing_to_ask import in_words
from drill.cli.views import FEW_ANSWERS, share
from drill.plaintext import counted

if TYPE_CHECKING:
    from datetime import datetime

    from drill.app.sitting_summary import Outlook, SittingSummary
    from drill.cli.screen import Screen

_TOO_FEW = 10
"""With fewer answers only the range is said. The standard error of a share from n answers, right or
wrong, is up to 0.5 / sqrt(n): 16 in 100 at ten, more below. A middle figure, or its fall after one
miss, would say more about that one question than about the learner."""


def farewell(screen: Screen, found: SittingSummary, put: bool = True) -> None:
    """Say what the sitting brought. A sitting without answers ends in one line.

    `put`: a question was put; without one there is only when to come back.
    """
    screen.line()
    screen.rule()
    if found.left_out:
        some = counted(found.left_out, "question was", "questions were")
        screen.line(f"{some} left out because of a fault. For an author: drill bank check")
    if not found.questions and not put:
        _come_back(screen, found.next_day)
        return
    if found.outlook is None:
        screen.line("Nothing answered this time; nothing is lost.")
        return
    screen.line(
        f"{counted(found.questions, 'question')}, {of_marks(found.marks, found.of)}, "
        f"{counted(found.minutes, 'minute')}.",
        style="bold",
    )
    if found.own_of:
        own = of_marks(found.own, found.own_of)
        screen.line(f"Besides, decided by you and counted apart: {own}.")
    rows = [(row.name, f"{row.marks} of {row.of}", row.state) for row in found.skills]
    screen.table(("skill", "marks", "now"), rows)
    screen.line()
    screen.line(_outlook(found.outlook))
    _come_back(screen, found.next_day)


def of_marks(marks: int, of: int) -> str:
    """As "0 of 1 mark", "3 of 4 marks"."""
    return f"{marks} of {counted(of, 'mark')}"


def _outlook(found: Outlook) -> str:
    day = "on exam day" if found.exam else "in four weeks"
    low, high = share(found.low), share(found.high)
    if found.answers < _TOO_FEW:
        return f"Too few answers yet to say much: between {low} and {high} of the marks {day}."
    early = found.answers < FEW_ANSWERS
    return (
        f"If you keep to the plan, expect about {share(found.expected)} of the marks {day}"
        f"{'' if early else _change(found)}. It could be anything from {low} to {high}"
        f"{', and the next sittings can still move it much' if early else ''}."
    )


def _change(found: Outlook) -> str:
    """Said only when what was thought before rested on more than next to nothing."""
    moved = round(100 * found.expected) - round(100 * found.before)
    if not moved:
        return ""
    return f", {abs(moved)} {'more' if moved > 0 else 'less'} than thought before"


def _come_back(screen: Screen, day: datetime | None) -> None:
    if day is None:
        screen.line("There is nothing to ask in the next four weeks.")
    else:
        screen.line(f"Come back on {in_words(day)}.")
