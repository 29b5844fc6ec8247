"""The cache of what is remembered: used only when it is what was written, and still fits."""

from __future__ import annotations

import re
import sqlite3
from zlib import compress

from drill.store import MemoryRow, NewAsking, Store, memory, reading
from tests.store.making import NOW, TEMPLATE, VERSION, asked, later, mark, sitting, typed


def test_a_state_comes_back_and_is_replaced(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    assert store.load_memory(who) is None
    store.save_memory(who, MemoryRow("w1", "0", "{}"))
    store.save_memory(who, MemoryRow("w2", "1", '{"é":1}'))
    assert store.load_memory(who) == MemoryRow("w2", "1", '{"é":1}')
    assert store.counts()["memory_state"] == 1


def test_a_damaged_state_is_as_good_as_none(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    store.save_memory(who, MemoryRow("w1", "0", '{"half_life": 4}'))
    with sqlite3.connect(store.path) as other:
        other.execute("UPDATE memory_state SET state = ?", [compress(b'{"half_life": 5}')])
    other.close()
    assert store.load_memory(who) is None


def test_whatever_memory_rests_on_is_seen_to_have_changed(store: Store) -> None:
    who, begun = sitting(store)
    new = NewAsking(begun, who, VERSION, TEMPLATE, 1, "s", False)
    asking = store.ask(new, NOW)
    seen = [store.seen()]

    def changed() -> set[bytes]:
        found = store.changed_since(who, seen[-1])
        assert found is not None
        assert store.changed_since(other, seen[-1]) == {}
        seen.append(store.seen())
        return set(found)

    other = store.new_learner("Q9", NOW)
    assert changed() == set()
    answer = typed(store, asking)
    assert changed() == {asking}
    store.verdict(answer, "engine", "3", mark(0), later(5))
    assert changed() == {asking}
    verdict = store.verdict(answer, "teacher", "", mark(1), NOW)
    assert changed() == {asking}
    store.accept(verdict, NOW)
    assert changed() == {asking}
    store.faulty(asking, "", NOW)
    assert changed() == {asking}
    shown = store.ask(new._replace(seed=2, shown=True), NOW)
    assert changed() == {shown}
    store.ask(new._replace(seed=3), NOW)
    assert changed() == set()


def test_a_question_put_since_is_told_from_one_put_before(store: Store) -> None:
    before = asked(store)
    who = store.learners()[0]
    seen = store.seen()
    begun = store.asking(before).sitting
    since = store.ask(NewAsking(begun, who, VERSION, TEMPLATE, 8, "s", False), later(9))
    typed(store, before)
    typed(store, since)
    assert store.changed_since(who, seen) == {before: False, since: True}
    assert store.is_latest(since)
    assert not store.is_latest(before)


def test_between_questions_only_what_came_lately_is_read(store: Store) -> None:
    """However many answers there are: no statement begins with all of a learner's askings."""
    asked(store)
    for statement, count in (
        (memory._CHANGED, 2 * len(memory._TOLD)),
        (reading._LAST_ASKED, 2),
        (f"{reading._ASKING} WHERE {reading._IN_SITTING}", 2),
        (f"{reading._ANSWER} WHERE {reading._IN_SITTING}", 2),
        (f"{reading._VERDICT} WHERE {reading._IN_SITTING}", 2),
    ):
        steps = store._db.rows(f"EXPLAIN QUERY PLAN {statement}", *[1] * count)
        begun = [text for *_, text in steps if re.match(r"SCAN (?!o|s\b)", text)]
        begun += [
            text for *_, text in steps if re.search(r"asking_learner\w* \(learner=\?\)", text)
        ]
        assert begun == [], statement


def test_no_key_comes_again_after_an_erasure(store: Store) -> None:
    gone = asked(store)
    typed(store, gone)
    seen = store.seen()
    store.erase(store.learners()[0])
    stays = asked(store, "Q9")
    typed(store, stays)
    assert store.changed_since(store.learners()[0], seen) == {stays: True}
