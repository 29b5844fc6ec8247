"""A question counts as asked whoever marks it: the rules of what may follow are the same."""

from __future__ import annotations

import itertools
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from drill.bank import read_deck
from drill.model import Deck
from drill.sitting import Goal, Sitting, learners_planner
from drill.store import Store
from tests.common.shipped import shipped_bank
from tests.store.making import in_haste

NOW = datetime.fromisoformat("2027-01-12T17:00:00+00:00")
BANK = shipped_bank()
DECK = """\
format = 1
id = "methods"
title = "Whole methods"
course = "separate higher"
minutes_a_day = 60
[[paper]]
id = "first"
exam = 2027-05-18
[[topic]]
skills = ["salts.method-order", "salts.naming"]
without = [
  "salts/missing-steps",
  "salts/order-crystals",
  "salts/order-from-solid",
  "salts/order-precipitate",
  "salts/order-titration-salt",
]
"""


@pytest.mark.parametrize("hints", [False, True])
def test_a_planner_made_anew_knows_of_the_same_askings(tmp_path: Path, hints: bool) -> None:
    (tmp_path / "deck.toml").write_text(DECK, "utf-8")
    deck = read_deck(tmp_path / "deck.toml")
    assert isinstance(deck, Deck)
    kinds, templates, now = set(), [], NOW
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as store:
        who = store.new_learner("K7", NOW)
        sitting = Sitting(store, BANK, deck, who, NOW, Goal(30, None))
        while (asked := sitting.next(now)) is not None:
            for part in () if asked.shown else asked.waiting():
                now += timedelta(seconds=40)
                kinds.add(part.kind)
                if hints:
                    sitting.hint(asked, part, now)
                sitting.answer(asked, part, part.model_answer, 40.0, now)
                if part.kind == "levels":
                    sitting.set_level(asked, part, 4, now)
            templates += [] if asked.shown else [asked.question.template]
            sitting.finish(asked, now)
            anew = learners_planner(store, BANK, deck, who, now)
            assert sitting.planner.past.count == anew.past.count
            assert sitting.planner.past.last_skill == anew.past.last_skill
            assert sitting.planner.past.spent(now) == pytest.approx(anew.past.spent(now))
    assert "levels" in kinds
    assert all(one != other for one, other in itertools.pairwise(templates))
