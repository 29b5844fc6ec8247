"""What is remembered after some sittings is what the store alone gives back."""

from __future__ import annotations

import json
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from drill.app.context import deck_of, open_bank
from drill.bank import Bank
from drill.generate.draws.stream import choose
from drill.planning import lessons
from drill.sitting import Goal, Sitting, history
from drill.sitting.skill_plans import skill_plans
from drill.store import Learner, MemoryRow, Store
from tests.store.making import in_haste

START = datetime.fromisoformat("2027-04-12T17:00:00+01:00")
ZONE = START.tzinfo
assert ZONE is not None


def sit(store: Store, bank: Bank, who: Learner, now: datetime, luck: str) -> None:
    """A sitting of eight questions: right answers, passes, hints and a question left, by luck."""
    deck = deck_of(store, who, "spring-practicals")
    sitting = Sitting(store, bank, deck, who, now, Goal(8, None))
    for number in range(14):
        asked = sitting.next(now)
        if asked is None:
            break
        for part in () if asked.shown else asked.waiting():
            now += timedelta(seconds=40)
            chance = choose(3, f"{luck} {number} {part.id}", 5)
            if chance == 0:
                sitting.hint(asked, part, now)
            if chance < 3 and part.model_answer:
                sitting.answer(asked, part, part.model_answer, 40.0, now)
            else:
                sitting.pass_part(asked, part, 40.0, now)
        sitting.finish(asked, now)
    sitting.end(now)


@pytest.mark.parametrize("luck", ["one", "two"])
def test_rebuilt_from_all_answers_it_is_the_memory_that_grew(tmp_path: Path, luck: str) -> None:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as store:
        who = store.new_learner("K7", START)
        deck = deck_of(store, who, "spring-practicals")
        bank = open_bank(deck)
        for day in range(3):
            sit(store, bank, who, START + timedelta(days=2 * day), f"{luck} {day}")
        grown = store.load_memory(who)
        assert grown is not None
        taught = lessons(skill_plans(deck, bank.entries(), ZONE))
        assert any(skill in taught for skill in json.loads(grown.state)["skills"])
        assert history.remembered(store, who, taught).to_state() == json.loads(grown.state)
        store.save_memory(who, MemoryRow("other weights", store.seen(), "{}"))
        rebuilt = history.remembered(store, who, taught).to_state()
        assert rebuilt["skills"]
        assert rebuilt == json.loads(grown.state)


def test_a_question_broken_off_and_taken_up_again_is_remembered_once(tmp_path: Path) -> None:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as store:
        who = store.new_learner("K7", START)
        deck = deck_of(store, who, "spring-practicals")
        bank, now, parts = open_bank(deck), START, 0
        first = Sitting(store, bank, deck, who, now, Goal(30, None))
        while parts < 2:  # until one with several parts comes
            asked = first.next(now)
            assert asked is not None
            parts = 0 if asked.shown else len(asked.question.parts)
            if parts >= 2:
                first.pass_part(asked, asked.waiting()[0], 40.0, now)
                break
            for part in () if asked.shown else asked.waiting():
                first.pass_part(asked, part, 40.0, now)
            now += timedelta(seconds=60)
            first.finish(asked, now)
        again = Sitting(store, bank, deck, who, now, Goal(30, None))
        asked = again.next(now)
        assert asked is not None
        assert again.resumed
        assert len(asked.waiting()) == parts - 1
        assert again.planner.memory.answers() > 0
        for part in asked.waiting():
            again.pass_part(asked, part, 40.0, now)
        again.finish(asked, now)
        grown = again.planner.memory.to_state()
        store.save_memory(who, MemoryRow("other weights", store.seen(), "{}"))
        taught = again.planner.memory.lessons
        assert history.remembered(store, who, taught).to_state() == grown


def test_a_state_of_another_form_is_not_read(tmp_path: Path) -> None:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as store:
        who = store.new_learner("K7", START)
        bank = open_bank(deck_of(store, who, "spring-practicals"))
        sit(store, bank, who, START, "one")
        weights, form, dates = history.weights_id().split(".")
        old = f"{weights}.{int(form) - 1}.{dates}"
        store.save_memory(who, MemoryRow(old, store.seen(), "{}"))
        assert history.remembered(store, who).to_state()["skills"]


def test_a_state_that_began_with_other_lessons_is_not_read(tmp_path: Path) -> None:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as store:
        who = store.new_learner("K7", START)
        deck = deck_of(store, who, "spring-practicals")
        bank = open_bank(deck)
        sit(store, bank, who, START, "one")
        taught = lessons(skill_plans(deck, bank.entries(), ZONE))
        moved = {skill: when - timedelta(days=30) for skill, when in taught.items()}
        before = history.remembered(store, who, taught).to_state()
        after = history.remembered(store, who, moved).to_state()
        assert before["skills"] == after["skills"]
        assert before["activations"] != after["activations"]
