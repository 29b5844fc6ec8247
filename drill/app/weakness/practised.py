"""Practice done, held against practice planned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.store import AskingRow

_WINDOW = 28
"""Days over which it is told."""


@dataclass(frozen=True)
class Practised:
    """Days and minutes of the last four weeks, or since the first question: done and planned."""

    days: int
    of_days: int
    minutes: int
    planned: int


def practised(askings: Sequence[AskingRow], minutes_a_day: float, now: datetime) -> Practised:
    """What was done in the last four weeks, or since the first question, against the plan."""
    done = [asking for asking in askings if asking.answers and asking.when <= now]
    if not done:
        return Practised(0, 0, 0, 0)
    first = max(done[0].when, now - timedelta(days=_WINDOW - 1))
    days = (now.date() - first.astimezone(now.tzinfo).date()).days + 1
    recent = [
        asking
        for asking in done
        if (now.date() - asking.when.astimezone(now.tzinfo).date()).days < days
    ]
    seconds = sum(answer.seconds for asking in recent for answer in asking.answers)
    on = {asking.when.astimezone(now.tzinfo).date() for asking in recent}
    return Practised(len(on), days, round(seconds / 60), round(days * minutes_a_day))
