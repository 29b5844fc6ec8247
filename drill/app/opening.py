"""How a day begins: how it went last time, and which topics come now; in words, without counts."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from drill.app.coming_days import skills_of_day

if TYPE_CHECKING:
    from drill.sitting import Sitting

_WELL, _WRONG = 0.75, 0.5
_MOST = 2
_LOOK_BACK = timedelta(days=60)


@dataclass(frozen=True)
class Opening:
    """The last day of practice, the skills that went well and wrong on it; topics of today."""

    last: date
    well: tuple[str, ...]
    wrong: tuple[str, ...]
    now: tuple[str, ...]


def opening(sitting: Sitting, now: datetime) -> Opening | None:
    """The opening of the day; None on the first day, and once there are answers today."""
    askings = sitting.store.askings(sitting.learner, now - _LOOK_BACK)
    days = {one.when.astimezone(now.tzinfo).date() for one in askings if one.answers}
    if not days or now.date() in days:
        return None
    from drill.app.weakness.part_answers import marks_by_skill

    last = max(days)
    that_day = [one for one in askings if one.when.astimezone(now.tzinfo).date() == last]
    shares = marks_by_skill(sitting.store, that_day)
    says = sitting.bank.skills()
    named = {says[one].says if one in says else one: share for one, share in shares.items()}
    by_share = sorted(named, key=named.__getitem__)
    well = [name for name in reversed(by_share) if named[name] >= _WELL]
    wrong = [name for name in by_share if named[name] < _WRONG]
    return Opening(last, tuple(well[:_MOST]), tuple(wrong[:_MOST]), _topics(sitting, now))


def _topics(sitting: Sitting, now: datetime) -> tuple[str, ...]:
    """The topics most of today's questions will be about, played through on a copy."""
    from drill.memory import Memory
    from drill.sitting import learners_planner

    says, memory = sitting.bank.skills(), sitting.planner.memory
    copy = learners_planner(
        sitting.store,
        sitting.bank,
        sitting.deck,
        sitting.learner,
        now,
        memory=Memory.from_state(memory.to_state(), lessons=memory.lessons),
    )
    played = skills_of_day(copy, now)
    topics = Counter(says[skill].family if skill in says else skill for skill in played)
    return tuple(topic for topic, _ in topics.most_common(_MOST))
