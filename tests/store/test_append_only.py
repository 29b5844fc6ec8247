"""No row is ever changed, and none deleted but the memory cache and by erase."""

from __future__ import annotations

import sqlite3

import pytest

from drill.store import MemoryRow, NewAsking, Store
from drill.store.tables import TABLES
from tests.store.making import NOW, TEMPLATE, VERSION, later, mark, sitting, typed

CHANGES = {sqlite3.SQLITE_UPDATE: "update", sqlite3.SQLITE_DELETE: "delete"}


def watched(store: Store) -> set[tuple[str, str]]:
    """Collects (update or delete, table) of whatever is done from now on."""
    seen: set[tuple[str, str]] = set()

    def note(action: int, table: str, *_: object) -> int:
        if action in CHANGES and table in TABLES:
            seen.add((CHANGES[action], table))
        return sqlite3.SQLITE_OK

    store._db.connection.set_authorizer(note)
    return seen


def test_whatever_a_sitting_does_only_adds_rows(store: Store) -> None:
    seen = watched(store)
    who, begun = sitting(store)
    asking = store.ask(NewAsking(begun, who, VERSION, TEMPLATE, 1, "s", False), NOW)
    answer = typed(store, asking)
    store.verdict(answer, "engine", "3", mark(0), later(1))
    store.verdict(answer, "teacher", "", mark(1), later(2))
    store.appeal(answer, "why", later(3))
    typed(store, asking, kind="fix")
    store.set_setting(who, "minutes", "12", NOW)
    store.set_setting(who, "minutes", "15", NOW)
    store.rename_learner("K7", "Q9", NOW)
    store.keep_passed(VERSION, NOW)
    store.end_sitting(begun, later(9), "done")
    store.askings(who)
    store.verify()
    store.faulty(asking, "", NOW)
    assert seen == set()
    store.save_memory(who, MemoryRow("w", store.seen(), "{}"))
    assert seen <= {("delete", "memory_state")}


def test_the_watch_sees_what_it_is_meant_to_see(store: Store) -> None:
    seen = watched(store)
    store._db.rows("UPDATE answer SET text = ''")
    store._db.rows("DELETE FROM verdict")
    assert seen == {("update", "answer"), ("delete", "verdict")}


@pytest.mark.parametrize("table", ["answer", "verdict", "asking", "learner"])
def test_only_values_of_the_right_type_go_in(store: Store, table: str) -> None:
    with pytest.raises(sqlite3.IntegrityError):
        store._db.insert(table, id="not bytes", at="not a time", zone=0)
