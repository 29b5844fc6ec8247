"""Hand-in files: small, whole again when read, and a hundred hostile ones taken by nobody."""

from __future__ import annotations

import json
import random
import time
import zlib
from collections.abc import Callable
from dataclasses import replace
from hashlib import blake2b
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.exchange.hand_in import NotHandIn, packed, unpacked
from tests.common.classes import NOW, SKILLS, item, practised, pupil, row
from tests.common.hostile_files import flipped
from tests.common.shipped import shipped_bank

GOOD = pupil("k05", practised(random.Random(1), dict.fromkeys(SKILLS, 0.6), 60))
HEAD = b"drill hand-in 1\n"


def sealed(body: bytes) -> bytes:
    return HEAD + blake2b(body, digest_size=16).digest() + body


def forged(change: Callable[[dict[str, Any]], object]) -> bytes:
    """A file with a fitting digest whose content was changed."""
    whole = json.loads(zlib.decompress(packed(GOOD)[len(HEAD) + 16 :]))
    change(whole)
    return sealed(zlib.compress(json.dumps(whole).encode()))


def test_what_is_packed_comes_out() -> None:
    found = unpacked(packed(GOOD))
    assert set(found.rows) == set(GOOD.rows)
    assert replace(found, rows=()) == replace(GOOD, rows=())
    assert unpacked(packed(replace(GOOD, rows=()))).rows == ()


@given(st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=200), st.integers(0, 3))
def test_whatever_was_typed_comes_out(text: str, marks: int) -> None:
    rng = random.Random(3)
    one = row(rng, item("x y"), NOW, marks, 3, text=text or "-", appeal=text, faulty=True)
    assert unpacked(packed(pupil("k", [one]))).rows == (one,)


def test_an_answer_takes_at_most_a_hundred_bytes() -> None:
    rows = practised(random.Random(2), dict.fromkeys(SKILLS, 0.6), 500)
    assert len(packed(pupil("k05", rows))) <= 100 * len(rows)


def test_so_it_does_where_words_are_typed() -> None:
    """As in the bank's sample answers, each with the points it really earned."""
    from pathlib import Path

    from drill.bank import answers_path

    rng, rows = random.Random(5), []
    entries = [one for one in shipped_bank().entries() if "written" in one.kinds]
    for entry in entries[:40]:
        path = answers_path(Path(entry.path))
        lines = path.read_text("utf-8").splitlines()[:5] if path.is_file() else []
        for line in filter(str.strip, lines):
            sample = json.loads(line)
            about = item(entry.skills[0], len(rows), entry.id)
            one = row(rng, about, NOW, 1, 2, len(rows), text=sample["answer"])
            points = [[id_, marks, 1] for id_, marks in sample.get("points", {}).items()]
            rows.append(one._replace(points=json.dumps(points)))
    assert len(rows) > 100
    assert len(packed(pupil("k05", rows))) <= 100 * len(rows)


CHANGES: dict[str, Callable[[dict[str, Any]], object]] = {
    "learner": lambda one: one.update(learner="zz"),
    "code": lambda one: one.update(code="../k05"),
    "code of control characters": lambda one: one.update(code="\x1b[2J"),
    "made": lambda one: one.update(made=10**18),
    "minutes": lambda one: one.update(minutes=float("inf")),
    "items": lambda one: one.update(items=[["a"] * 4]),
    "item outside": lambda one: one["columns"]["item"].__setitem__(0, 10**6),
    "item below": lambda one: one["columns"]["item"].__setitem__(0, -1),
    "marks above": lambda one: one["columns"]["marks"].__setitem__(0, 10**6),
    "marks below": lambda one: one["columns"]["marks"].__setitem__(0, -1),
    "of endless": lambda one: one["columns"]["of"].__setitem__(0, 10**9),
    "truth for a number": lambda one: one["columns"]["marks"].__setitem__(0, True),
    "share for a number": lambda one: one["columns"]["ms"].__setitem__(0, 1.5),
    "long column": lambda one: one["columns"]["ms"].append(1),
    "short column": lambda one: one["columns"]["text"].pop(),
    "no column": lambda one: one["columns"].pop("at"),
    "time": lambda one: one["columns"]["at"].__setitem__(0, 10**17),
    "zone": lambda one: one["columns"].update(zone="x"),
    "text": lambda one: one["columns"]["text"].__setitem__(0, {"a": 1}),
    "half a sign": lambda one: one["columns"]["text"].__setitem__(0, "\ud800"),
    "endless text": lambda one: one["columns"]["text"].__setitem__(0, "x" * 5000),
    "ids": lambda one: one.update(ids="!!"),
    "fewer ids": lambda one: one.update(ids=one["ids"][:-20]),
    "words": lambda one: one.update(words=[1]),
    "place of a word": lambda one: one["columns"]["words"][0].__setitem__(0, 99999),
    "kind": lambda one: one.update(words=["rm -rf" for _ in one["words"]]),
    "appeal": lambda one: one["columns"].update(appeal=[["x", 1]]),
    "faulty": lambda one: one["columns"].update(faulty="all"),
    "list": lambda one: one.update(columns=[]),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=list(CHANGES))
def test_a_forged_file_with_a_fitting_digest_is_not_taken(
    change: Callable[[dict[str, Any]], object],
) -> None:
    with pytest.raises(NotHandIn, match="damaged"):
        unpacked(forged(change))


def _hostile(rng: random.Random, turn: int) -> bytes:
    data = packed(GOOD)
    kinds: list[Callable[[], bytes]] = [
        lambda: flipped(rng, data),
        lambda: data[: rng.randrange(len(data))],
        lambda: data + rng.randbytes(9),
        lambda: rng.randbytes(rng.randrange(5000)),
        lambda: HEAD.replace(b"1", b"2") + data[len(HEAD) :],
        lambda: sealed(rng.randbytes(400)),
        lambda: sealed(zlib.compress(b"[" * rng.randrange(1000, 200_000))),
        lambda: sealed(zlib.compress(b" " * 70_000_000, 1)) if turn < 20 else b"",
        lambda: sealed(zlib.compress(rng.choice([b"null", b"7", b"[]", b'"x"', b"{}"]))),
        lambda: sealed(zlib.compress(b'{"columns": {"text": ' + b"[]," * 9 + b"}}")),
    ]
    return kinds[turn % len(kinds)]()


def test_a_hundred_hostile_files_are_refused_in_one_line() -> None:
    rng, began = random.Random(7), time.monotonic()
    for turn in range(100):
        with pytest.raises(NotHandIn) as told:
            unpacked(_hostile(rng, turn))
        assert len(str(told.value).splitlines()) == 1
    assert time.monotonic() - began < 20
