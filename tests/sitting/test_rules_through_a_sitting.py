"""What is said and asked for in a sitting reaches the planner, at once and after a new start."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from drill.bank import read_deck
from drill.model import Deck
from drill.planning import Reason
from drill.sitting import CurrentQuestion, Goal, Sitting, learners_planner
from drill.store import Learner, Store
from tests.common.shipped import shipped_bank
from tests.store.making import in_haste

NOW = datetime.fromisoformat("2027-01-12T17:00:00+00:00")
BANK = shipped_bank()
DECK = """\
format = 1
id = "scales"
title = "Scales and hazards"
course = "separate higher"
minutes_a_day = 5
[[paper]]
id = "first"
exam = 2027-05-18
[[topic]]
skills = ["measure.*"]
[[topic]]
skills = ["safety.*", "salts.*"]
"""


@pytest.fixture
def deck(tmp_path: Path) -> Deck:
    (tmp_path / "deck.toml").write_text(DECK, "utf-8")
    found = read_deck(tmp_path / "deck.toml")
    assert isinstance(found, Deck)
    return found


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as found:
        yield found


def put(sitting: Sitting, asked: CurrentQuestion, now: datetime, right: bool, sure: str) -> None:
    """Answer every part, or pass on the worked answer."""
    for part in () if asked.shown else asked.waiting():
        text = part.model_answer if right else "nobody knows"
        sitting.answer(asked, part, text, 20.0, now, sure, again=True)
    sitting.finish(asked, now)


def question(sitting: Sitting, now: datetime) -> CurrentQuestion:
    """The next one that is asked, not shown, and marked by us."""
    while True:
        asked = sitting.next(now)
        assert asked is not None
        if not asked.shown and all(part.kind != "levels" for part in asked.question.parts):
            return asked
        put(sitting, asked, now, True, "")


@pytest.mark.parametrize("sure", ["certain", "guess"])
def test_a_certain_error_comes_back_within_days(store: Store, deck: Deck, sure: str) -> None:
    who = store.new_learner("K7", NOW)
    sitting = Sitting(store, BANK, deck, who, NOW, Goal(3))
    first = question(sitting, NOW)
    put(sitting, first, NOW, False, sure)
    while (asked := sitting.next(NOW + timedelta(minutes=5))) is not None:
        put(sitting, asked, NOW + timedelta(minutes=5), True, "")
    sitting.end(NOW + timedelta(minutes=9))
    certain = sure == "certain"
    anew = learners_planner(store, BANK, deck, who, NOW)
    for planner in (sitting.planner, anew):
        assert bool(planner.memory.last_answers(first.skill).certain) is certain
    later = NOW + timedelta(days=2)
    back = Sitting(store, BANK, deck, who, later, Goal(1)).next(later)
    assert back is not None
    assert (back.skill == first.skill and back.why is Reason.CERTAIN) is certain


def rightly(store: Store, deck: Deck, who: Learner, days: int) -> datetime:
    """So many days of right answers, as planned; the day after."""
    for day in range(days):
        now = NOW + timedelta(days=day)
        sitting = Sitting(store, BANK, deck, who, now, Goal())
        while (asked := sitting.next(now)) is not None:
            put(sitting, asked, now, True, "")
        sitting.end(now)
    return NOW + timedelta(days=days)


def test_questions_asked_for_are_put_whatever_the_minutes(store: Store, deck: Deck) -> None:
    who = store.new_learner("K7", NOW)
    now = rightly(store, deck, who, 1)
    late = now - timedelta(hours=20)
    assert Sitting(store, BANK, deck, who, late, Goal()).next(late) is None
    sitting = Sitting(store, BANK, deck, who, late, Goal(4))
    while (asked := sitting.next(late)) is not None:
        put(sitting, asked, late, True, "")
    assert len(sitting.done) == 4


def evening(store: Store, deck: Deck, right: bool, length: int = 20) -> list[CurrentQuestion]:
    """A first sitting of so many questions, worked answers left out."""
    sitting = Sitting(store, BANK, deck, store.new_learner("K7", NOW), NOW, Goal(length))
    now, asked = NOW, []
    while (one := sitting.next(now)) is not None:
        put(sitting, one, now, right, "")
        asked += [] if one.shown else [one]
        now += timedelta(seconds=50)
    return asked


@pytest.mark.parametrize("right", [True, False])
def test_an_evening_has_no_object_twice_and_two_of_a_kind_in_ten(
    store: Store, tmp_path: Path, right: bool
) -> None:
    asked = evening(store, many_topics(tmp_path), right)
    objects = [entry.object for one in asked if (entry := BANK.entry(one.question.template))]
    about = [what for what in objects if what]
    assert len(asked) == 20
    assert len(about) > 8
    assert len(set(about)) == len(about)
    kinds = [one.skill.rpartition(".")[2] for one in asked]
    for first in range(len(kinds) - 9):
        assert max(Counter(kinds[first : first + 10]).values()) <= 2
    practicals = [one.question.template.partition("/")[0] for one in asked]
    assert len(set(practicals)) >= 3


def test_the_steps_of_several_practicals_are_one_kind(store: Store, tmp_path: Path) -> None:
    topics = '[[topic]]\nskills = ["*.steps"]\nweight = 9\n[[topic]]\nskills = ["salts.*"]\n'
    asked = evening(store, read_deck_of(tmp_path, topics), False, 10)
    steps = [one.skill for one in asked if one.skill.endswith(".steps")]
    assert (len(steps), len(set(steps))) == (2, 2)


def test_a_topic_chosen_by_name_may_ask_one_kind_again_and_again(
    store: Store, tmp_path: Path
) -> None:
    deck = read_deck_of(tmp_path, '[[topic]]\nskills = ["measure.read-scale"]\n')
    asked = evening(store, deck, True, 6)
    assert [one.skill for one in asked] == ["measure.read-scale"] * 6


def many_topics(folder: Path) -> Deck:
    names = ("safety", "measure", "salts", "titration", "rates", "water")
    return read_deck_of(folder, "".join(f'[[topic]]\npractical = "{name}"\n' for name in names))


def read_deck_of(folder: Path, topics: str) -> Deck:
    head = DECK.partition("[[topic]]")[0].replace("minutes_a_day = 5", "minutes_a_day = 40")
    (folder / "own.toml").write_text(head + topics, "utf-8")
    found = read_deck(folder / "own.toml")
    assert isinstance(found, Deck), found
    return found
