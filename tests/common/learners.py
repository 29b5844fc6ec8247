"""Invented learners who type answers through real sittings, with a weakness or without."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

from drill.bank import read_deck
from drill.model import ChoiceKey, Deck, NumberKey, Part
from drill.places import demo_decks_dir
from drill.sitting import Goal, Sitting
from drill.store import Learner, Store
from tests.common.shipped import shipped_bank

Typing = Callable[[Part, str, Random], str]
"""(part, template, chance) to what is typed."""


def typing(
    right: float = 0.85, slip: str = "", skills: tuple[str, ...] = (), forget: float = 0.1
) -> Typing:
    """Right on `right` of the parts; makes `slip` where it can be made; weak in `skills`."""

    def typed(part: Part, template: str, chance: Random) -> str:
        key = part.key
        if slip and isinstance(key, NumberKey):
            for one in key.slips:
                if one.id == slip:
                    return one.text
        share = forget if part.skill in skills else right
        if chance.random() < share:
            return _right(part)
        return _wrong(part, chance)

    return typed


def _right(part: Part) -> str:
    if isinstance(part.key, ChoiceKey):
        return ",".join(option.letter for option in part.key.options if option.right)
    return part.model_answer


def _wrong(part: Part, chance: Random) -> str:
    if isinstance(part.key, ChoiceKey):
        return chance.choice([option.letter for option in part.key.options if not option.right])
    if isinstance(part.key, NumberKey):
        return "17.3"
    return "i am not sure about it"


def practise(
    store: Store,
    who: Learner,
    typed: Typing,
    start: datetime,
    days: int = 14,
    questions: int = 8,
    deck: Path | None = None,
    seed: int = 1,
) -> datetime:
    """Sit on `days` days in a row; returns a moment after the last answer."""
    found = read_deck(deck or demo_decks_dir() / "first-steps.toml")
    assert isinstance(found, Deck)
    bank, chance = shipped_bank(), Random(seed)
    now = start
    for day in range(days):
        now = start + timedelta(days=day)
        sitting = Sitting(store, bank, found, who, now, Goal(questions), seed + day)
        while (asked := sitting.next(now, extra=True)) is not None:
            now += timedelta(seconds=40)
            for part in () if asked.shown else asked.waiting():
                text = typed(part, asked.question.template, chance)
                sitting.answer(asked, part, text, 30.0, now, "", again=True)
            sitting.finish(asked, now)
        sitting.end(now)
    return now
