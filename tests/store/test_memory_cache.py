"""The cache of what is remembered: used only when it is what was written, and still fits."""

from __future__ import annotations

import sqlite3

from drill.store import MemoryRow, Store
from tests.store.making import NOW, asked, later, mark, sitting, typed

from tests.store.making import TEMPLATE, VERSION  # isort: skip


def test_the_last_verdict_is_the_one_stored_last_whoever_gave_it(store: Store) -> None:
    asking = asked(store)
    who, other = store.learners()[0], store.new_learner("Q9", NOW)
    assert store.last_verdict(who) is None
    answer = typed(store, asking)
    first = store.verdict(answer, "engine", "3", mark(0), later(5))
    assert store.last_verdict(who) == first
    second = store.verdict(answer, "teacher", "", mark(1), NOW)
    assert store.last_verdict(who) == second
    assert store.last_verdict(other) is None


def test_a_state_comes_back_and_is_replaced(store: Store) -> None:
    who = store.learners()[0] if store.learners() else store.new_learner("K7", NOW)
    assert store.load_memory(who) is None
    store.save_memory(who, "w1", None, "{}")
    store.save_memory(who, "w2", b"\1" * 16, '{"é":1}')
    assert store.load_memory(who) == MemoryRow("w2", b"\1" * 16, '{"é":1}')
    assert store.counts()["memory_state"] == 1


def test_a_damaged_state_is_as_good_as_none(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    store.save_memory(who, "w1", None, '{"half_life": 4}')
    with sqlite3.connect(store.path) as other:
        other.execute("UPDATE memory_state SET state = replace(state, '4', '5')")
    other.close()
    assert store.load_memory(who) is None


def test_what_changes_memory_without_a_verdict_drops_the_cache(store: Store) -> None:
    who, begun = sitting(store)
    store.save_memory(who, "w1", None, "{}")
    asking = store.ask(begun, who, VERSION, TEMPLATE, 1, "s", False, NOW)
    assert store.load_memory(who) is not None
    store.ask(begun, who, VERSION, TEMPLATE, 1, "s", True, NOW)
    assert store.load_memory(who) is None
    store.save_memory(who, "w1", None, "{}")
    store.faulty(asking, "", NOW)
    assert store.load_memory(who) is None
