"""The figure on the day is kept from sitting to sitting, and a kept one that is broken is left."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from drill.bank import read_deck
from drill.model import Deck
from drill.sitting import Goal, Sitting
from drill.sitting.learner_figures import learners_figures
from drill.store import Store
from tests.common.shipped import shipped_bank
from tests.sitting.test_rules_through_a_sitting import DECK, put
from tests.store.making import in_haste

NOW = datetime.fromisoformat("2027-01-12T17:00:00+00:00")
BANK = shipped_bank()


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as found:
        yield found


def test_the_figure_shown_goes_on_from_the_last_sitting(store: Store, tmp_path: Path) -> None:
    (tmp_path / "deck.toml").write_text(DECK, "utf-8")
    deck = read_deck(tmp_path / "deck.toml")
    assert isinstance(deck, Deck)
    who = store.new_learner("K7", NOW)
    shown: list[float] = []
    for day, right in ((0, True), (1, False), (2, True)):
        now = NOW + timedelta(days=day)
        sitting = Sitting(store, BANK, deck, who, now, Goal(24))
        while (asked := sitting.next(now)) is not None:
            now += timedelta(seconds=30)
            put(sitting, asked, now, right, "")
        sitting.end(now)
        found = sitting.figures(now)
        if found.on_the_day is None:
            assert found.answers < 40
            continue
        again = learners_figures(store, sitting.planner, deck, who, now)
        assert again.on_the_day == found.on_the_day
        raw = sitting.planner.forecast(now).expected
        expected = (raw + shown[-1]) / 2 if shown else raw
        assert found.on_the_day.share == pytest.approx(expected)
        assert found.change is None or 24 <= found.change.answers < 30
        shown.append(found.on_the_day.share)
    assert len(shown) == 2
    store.set_setting(who, f"figure of {deck.id}", "[1, 2", NOW + timedelta(days=3))
    broken = learners_figures(store, sitting.planner, deck, who, now)
    assert broken.on_the_day
    assert broken.change is None
