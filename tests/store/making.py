"""Short ways to a store with something in it."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from fractions import Fraction
from pathlib import Path

from drill.model import Mark, PointMark
from drill.store import AnswerRow, AskingRow, Learner, NewAsking, Store

NOW = datetime(2027, 3, 1, 17, 0, tzinfo=timezone(timedelta(hours=1)))
VERSION, TEMPLATE = "5f" * 16, "salts/percentage-yield"


def later(seconds: float) -> datetime:
    return NOW + timedelta(seconds=seconds)


def opened(folder: Path) -> Store:
    return Store.open(folder / "drill.sqlite")


def in_haste(store: Store) -> Store:
    """The same store without waiting for the disk: for tests that are not about lasting."""
    store._db.rows("PRAGMA synchronous = OFF")
    return store


def mark(marks: int, of: int = 1, unsure: str = "", **rest: object) -> Mark:
    """Single-mark points a, b, c…, the first `marks` of them earned; `unsure` names some."""
    points = tuple(
        PointMark(id, int(place < marks), 1, "", id in unsure)
        for place, id in enumerate("abcdefgh"[:of])
    )
    return Mark(marks, of, points, "says", **rest)  # type: ignore[arg-type]


def rich_mark() -> Mark:
    """A mark with every field filled."""
    points = (
        PointMark("method", 1, 1, "65.9… × 100 ÷ 99"),
        PointMark("value", 0, 2, 'the words "used up"\x00', unsure=True),
    )
    return Mark(1, 3, points, "Nearly.\nTurn it over.", "inverted", False, Fraction(-22, 7), True)


def sitting(store: Store, code: str = "K7") -> tuple[Learner, bytes]:
    """A learner with a sitting that has begun and a template kept."""
    who = store.new_learner(code, NOW)
    store.keep_template(VERSION, TEMPLATE, "format = 1", [{"id": "CuO"}], {"inverted": "turn it"})
    return who, store.start_sitting(who, "autumn-salts", NOW, {"questions": 5, "minutes": None})


def asked(store: Store, code: str = "K7", seed: int = 7, shown: bool = False) -> bytes:
    """A question just asked of a learner made for it."""
    who, begun = sitting(store, code)
    return store.ask(NewAsking(begun, who, VERSION, TEMPLATE, seed, "calc.yield", shown), NOW)


def typed(
    store: Store, asking: bytes, text: str = "66.0", part: str = "a", kind: str = "answer"
) -> bytes:
    return store.answer(asking, part, text, kind, None, 12.0, later(12))


def one_answer(store: Store, asking: bytes) -> AnswerRow:
    (answer,) = store.asking(asking).answers
    return answer


def only(rows: list[AskingRow]) -> AskingRow:
    (row,) = rows
    return row
