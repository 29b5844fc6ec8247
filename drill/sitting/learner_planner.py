"""The planner of one learner with one deck: what is set, what is remembered, what was asked."""

from __future__ import annotations

from collections.abc import Container
from datetime import date, datetime, time
from typing import TYPE_CHECKING

from drill.planning import Planner, lessons
from drill.sitting import history
from drill.sitting.skill_plans import exam_of, skill_plans

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.memory import Memory
    from drill.model import Deck
    from drill.store import Learner, Store


def learners_planner(
    store: Store,
    bank: Bank,
    deck: Deck,
    learner: Learner,
    now: datetime,
    memory: Memory | None = None,
    without: Container[str] = (),
) -> Planner:
    """The planner with everything remembered so far (or with `memory` instead).

    Templates whose id is in `without` are left out: those that cannot be used.

    What the learner set with `drill plan` stands over the deck's minutes; the deck's exam dates
    stand over the learner's. In a deck of a single topic kinds of question need not be mixed.
    """
    zone = now.tzinfo
    assert zone is not None, "times carry their zone"
    minutes = store.setting(learner, "minutes")
    own = store.setting(learner, "exam")
    exam = exam_of(deck, zone)
    if exam is None and own:
        exam = datetime.combine(date.fromisoformat(own), time(9), zone)
    every = list(bank.entries())
    if memory is None:
        taught = lessons(skill_plans(deck, every, zone))
        memory = history.remembered(store, learner, taught)
    entries = [entry for entry in every if entry.id not in without]
    return Planner(
        skill_plans(deck, entries, zone, now),
        exam=exam,
        minutes_per_day=float(minutes) if minutes else float(deck.minutes_a_day),
        memory=memory,
        asked=store.asked(learner),
        mixed=len(deck.topics) > 1,
    )
