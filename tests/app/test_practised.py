"""Past days are held against the minutes that were planned then."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

from drill.app.weakness.practised import minutes_planned, practised
from drill.model import Deck
from drill.store import AnswerRow, AskingRow, Store
from tests.store.making import in_haste

NOW = datetime.fromisoformat("2027-02-10T17:00:00+00:00")
DECK = Deck("d", "d.toml", "A deck", "", 12, (), ())


def ago(days: int) -> datetime:
    return NOW - timedelta(days=days)


def asking(days: int) -> AskingRow:
    """A question answered so many days ago, in a minute."""
    answer = AnswerRow(b"a", b"q", "a", "x", "answer", None, 60.0, ago(days))
    return AskingRow(b"q", b"s", "t", "v", 1, "skill", False, ago(days), (answer,))


def test_each_day_counts_with_the_minutes_planned_for_it(tmp_path: Path) -> None:
    with in_haste(Store.open(tmp_path / "drill.db")) as store:
        who = store.new_learner("K7", ago(30))
        store.set_setting(who, "minutes", "20", ago(5))
        store.set_setting(who, "minutes", "30", ago(2))
        planned = minutes_planned(store, who, DECK, NOW.tzinfo)
    assert [planned(ago(days).date()) for days in (6, 5, 3, 2, 0)] == [12, 20, 20, 30, 30]
    done = practised([asking(7), asking(1)], planned, NOW)
    assert (done.days, done.of_days, done.minutes) == (2, 8, 2)
    assert done.planned == 2 * 12 + 3 * 20 + 3 * 30
