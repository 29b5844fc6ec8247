"""Practice done, held against practice planned."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.model import Deck
    from drill.store import AskingRow, Learner, Store

_WINDOW = 28
"""Days over which it is told."""


@dataclass(frozen=True)
class Practised:
    """Days and minutes of the last four weeks, or since the first question: done and planned."""

    days: int
    of_days: int
    minutes: int
    planned: int


def minutes_planned(
    store: Store, who: Learner, deck: Deck, zone: tzinfo | None
) -> Callable[[date], float]:
    """The minutes planned for a day: those set by then; before any were set, the deck's."""
    found = store.settings_in_order(who, "minutes")
    told = [(when.astimezone(zone).date(), text) for when, text in found]

    def planned(day: date) -> float:
        then = [text for since, text in told if since <= day]
        return float(then[-1]) if then and then[-1] else float(deck.minutes_a_day)

    return planned


def practised(
    askings: Sequence[AskingRow], planned: Callable[[date], float], now: datetime
) -> Practised:
    """What was done in the last four weeks, or since the first question, against the plan.

    Args:
        planned: the minutes that were planned for a day, by the plan of that day.
    """
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
    minutes = sum(planned(now.date() - timedelta(days=ago)) for ago in range(days))
    return Practised(len(on), days, round(seconds / 60), round(minutes))
