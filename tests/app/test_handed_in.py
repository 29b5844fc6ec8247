"""A hand-in alone gives the report; where the question is gone, without its words."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from drill.app.context import open_bank
from drill.app.weakness.handed_in import take_hand_in
from drill.app.weakness.part_answers import part_answers
from drill.exchange.hand_in import HandedIn, HandIn, Item
from drill.store import Store
from tests.common.shipped import shipped_bank, template

NOW = datetime(2027, 2, 1, 17, tzinfo=UTC)
AT = round(NOW.timestamp() * 1000)


def handed_in(part: str, skill: str, **rest: Any) -> HandedIn:
    return HandedIn(
        answer=bytes(16), item=Item("made-up/gone", "v", part, skill, "number"), asked=0, seed=1,
        at=AT, zone=60, ms=9000, kind="answer", text="2.4 g", marks=1, of=2,
        points='[["m1",1,1],["m2",0,1]]', unsure="", mistake="", sure="fairly", judge="engine",
        appeal=None, faulty=False,
    )._replace(**rest)  # fmt: skip


@pytest.fixture
def store(tmp_path: Path) -> Store:
    return Store.open(tmp_path / "drill.db")


def taken(store: Store, *rows: HandedIn) -> list[tuple[object, ...]]:
    bank = open_bank()
    take_hand_in(store, bank, HandIn("ab", "K7", "no-such-deck", 15, AT, rows))
    (who,) = store.learners()
    assert who.code == "K7"
    return [
        (row.part, row.skill, row.kind, row.marks, row.of, row.mistake, row.right, row.seconds)
        for row in part_answers(store, bank, who)
    ]


def test_a_question_that_is_not_in_this_bank_keeps_its_skill_marks_and_mistake(
    store: Store,
) -> None:
    rows = (
        handed_in("a", "calc.mass", mistake="container not subtracted"),
        handed_in("c", 'calc.\x7f"]\n[[part]]', kind="pass", text="", marks=0, unsure="m2"),
    )
    assert taken(store, *rows) == [
        ("a", "calc.mass", "number", 1, 2, "container not subtracted", "", 9.0),
        ("c", 'calc.\ufffd"] [[part]]', "number", 0, 2, "", "", 9.0),
    ]


def test_parts_of_one_question_stay_together_and_a_faulty_one_counts_not(store: Store) -> None:
    rows = (
        handed_in("a", "calc.mass", asked=3),
        handed_in("b", "calc.mass", asked=3),
        handed_in("a", "calc.moles", asked=4, faulty=True),
    )
    assert [row[0] for row in taken(store, *rows)] == ["a", "b"]
    assert [len(asking.answers) for asking in store.askings(store.learners()[0])] == [2, 1]


def test_a_wrong_route_from_the_pupils_own_earlier_value_is_found_again(store: Store) -> None:
    """450 % is ten times what follows from 17.6 cm3, and no known route from the right volume."""
    entry = shipped_bank().entry("electrolysis/twice-as-much-gas")
    item = Item(entry.id, template(entry.id).version, "a", entry.skills[0], "number")
    rows = (
        handed_in("a", "", item=item, seed=3, text="17.6 cm3", marks=0, of=1, points="[]"),
        handed_in("b", "", item=item._replace(part="b"), seed=3, text="450 %", marks=0, of=1,
                  points="[]", mistake="power of ten"),
    )  # fmt: skip
    assert [(row[0], row[5]) for row in taken(store, *rows)] == [("a", ""), ("b", "power of ten")]
