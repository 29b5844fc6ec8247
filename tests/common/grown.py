"""A store grown as a student grows one: a sitting a day, answers right and wrong, hints."""

from __future__ import annotations

from datetime import datetime, timedelta
from random import Random

from drill.app.context import deck_of, open_bank
from drill.model import Part
from drill.sitting import CurrentQuestion, Goal, Sitting
from drill.store import Learner, Store

_SENTENCES = (
    "because the acid is all used up", "so that the crystals are bigger and purer",
    "to get rid of the excess solid that did not react", "it heats up more evenly", "12.5 g",
    "it evaporates the water", "filter it, then leave it to dry", "I think it is about 66 %", "B",
    "some of it is lost when it is poured from one beaker into another", "copper sulfate", "0.66",
)  # fmt: skip


def grown(store: Store, deck_id: str, answers: int, start: datetime, chance: Random) -> int:
    """Let K7 practise, ten questions a day, until so many answers are stored; how many they are."""
    who, day, number = store.new_learner("K7", start), 0, 0
    deck = deck_of(store, who, deck_id)
    while number < answers:
        now = start + timedelta(days=day)
        sitting = Sitting(store, open_bank(deck), deck, who, now, Goal(10, None))
        while (asked := sitting.next(now, extra=True)) is not None:
            for part in () if asked.shown else asked.waiting():
                now += timedelta(seconds=chance.randrange(8, 90))
                _answered(sitting, asked, part, now, chance)
            sitting.finish(asked, now)
        sitting.end(now)
        number, day = _answers(store, who), day + chance.choice((1, 1, 2))
    return number


def _answered(
    sitting: Sitting, asked: CurrentQuestion, part: Part, now: datetime, chance: Random
) -> None:
    seconds, sure = chance.uniform(4, 80), chance.choice(("", "guess", "fairly", "certain"))
    if chance.random() < 0.1:
        sitting.hint(asked, part, now)
    if chance.random() < 0.05:
        sitting.pass_part(asked, part, seconds, now)
        return
    text = part.model_answer if chance.random() < 0.6 else chance.choice(_SENTENCES)
    mark = sitting.answer(asked, part, text, seconds, now, sure)
    if not mark.readable:
        mark = sitting.answer(asked, part, part.model_answer, seconds, now, sure, again=True)
    if mark.marks < mark.of and chance.random() < 0.1:
        sitting.appeal(asked, part, chance.choice(_SENTENCES), now)


def _answers(store: Store, who: Learner) -> int:
    return sum(one.kind == "answer" for row in store.askings(who) for one in row.answers)
