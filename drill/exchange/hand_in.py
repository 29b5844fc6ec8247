"""What a pupil hands in: one small file of marked answers, for their teacher to gather.

A header line, a digest, then compressed JSON by columns, since similar values compress well. It
holds a short code and what was typed, no name. It may come from anywhere, so a file that departs
from this format or exceeds a limit is refused with a one-line reason.
"""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from hashlib import blake2b
from itertools import accumulate
from typing import Any, NamedTuple

from drill.errors import DrillError

SUFFIX = ".handin"
_HEAD = b"drill hand-in 1\n"
_NAMED = len(b"drill hand-in ")
_DIGEST = 16
LARGEST, LARGEST_UNPACKED, MOST_ROWS = 6_000_000, 60_000_000, 100_000
_LONGEST = 4000
_MOST_MARKS = 1000
_TIMES = (946_684_800_000, 4_133_980_800_000)  # 2000 to 2100, in ms
_COLUMNS_OF_WORDS = 6
KINDS = ("answer", "fix", "pass", "paper")
JUDGES = ("engine", "learner", "teacher", "tutor", "paper")


class NotHandIn(DrillError):
    """A file that is refused; the text gives the reason in one line."""


class Item(NamedTuple):
    """A part of a question: what a row is about."""

    template: str
    version: str
    part: str
    skill: str
    kind: str


class HandedIn(NamedTuple):
    """One part answered, with the mark in force; the columns of a file in this order.

    Args:
        answer: its id, 16 bytes. asked: a number of the question within the file, growing.
        at: when, in ms UTC; zone: minutes east. ms: how long it took.
        marks: earned of `of`, without what the pupil decided. points: [[id, marks, of], …] as JSON.
        unsure: ids of points not sure of, with spaces. mistake: the wrong route in words, or "".
        judge: who marked. appeal: why it is contested, or None. faulty: said to be wrong itself.
    """

    answer: bytes
    item: Item
    asked: int
    seed: int
    at: int
    zone: int
    ms: int
    kind: str
    text: str
    marks: int
    of: int
    points: str
    unsure: str
    mistake: str
    sure: str
    judge: str
    appeal: str | None
    faulty: bool


@dataclass(frozen=True)
class HandIn:
    """A whole file: whose it is on their machine, when it was made, and the answers by time."""

    learner: str
    code: str
    deck: str
    minutes: int
    made: int
    rows: tuple[HandedIn, ...]


def packed(one: HandIn) -> bytes:
    """The file's bytes; the same for the same content."""
    rows = sorted(one.rows, key=lambda row: (row.at, row.answer))
    items = sorted({row.item for row in rows})
    said = [_words(row) for row in rows]
    words = sorted({word for one in said for word in one})
    where, place = _places(items), _places(words)
    columns = {
        "made": [int.from_bytes(row.answer[:6], "big") - row.at for row in rows],
        "item": [where[row.item] for row in rows],
        "asked": _steps([row.asked for row in rows]),
        "seed": [row.seed for row in rows],
        "at": _steps([row.at for row in rows]),
        "zone": _steps([row.zone for row in rows]),
        "ms": [row.ms for row in rows],
        "marks": [row.marks for row in rows],
        "of": [row.of for row in rows],
        "words": [[place[one[n]] for one in said] for n in range(_COLUMNS_OF_WORDS)],
        "text": [row.text[:_LONGEST] for row in rows],
        "appeal": [
            [n, row.appeal[:_LONGEST]] for n, row in enumerate(rows) if row.appeal is not None
        ],
        "faulty": [n for n, row in enumerate(rows) if row.faulty],
    }
    whole = {
        "learner": one.learner, "code": one.code, "deck": one.deck, "minutes": one.minutes,
        "made": one.made, "items": items, "words": words,
        "ids": base64.b64encode(b"".join(row.answer[6:] for row in rows)).decode(),
        "columns": columns,
    }  # fmt: skip
    body = zlib.compress(json.dumps(whole, ensure_ascii=False, separators=(",", ":")).encode(), 9)
    return _HEAD + blake2b(body, digest_size=_DIGEST).digest() + body


def _words(row: HandedIn) -> tuple[str, ...]:
    return row.kind, row.points, row.unsure, row.mistake, row.sure, row.judge


def _places(things: Sequence[Any]) -> dict[Any, int]:
    return {thing: number for number, thing in enumerate(things)}


def _steps(values: Sequence[int]) -> list[int]:
    """Each value less the one before: small numbers pack well."""
    return [value - before for value, before in zip(values, (0, *values), strict=False)]


# ---------------------------------------------------------------- reading one


def is_hand_in(data: bytes) -> bool:
    """Whether it begins as one does, of this version or another."""
    return data.startswith(_HEAD[:_NAMED])


def unpacked(data: bytes) -> HandIn:
    """What a file holds.

    Raises:
        NotHandIn: it is damaged, hostile, of a newer drill, or something else.
    """
    try:
        return _checked(json.loads(_body(data)))
    except NotHandIn:
        raise
    except (ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError,
            OverflowError, zlib.error, MemoryError) as error:  # fmt: skip
        raise NotHandIn("damaged: it is not what was written.") from error


def _body(data: bytes) -> bytes:
    if not data.startswith(_HEAD):
        newer = is_hand_in(data)
        raise NotHandIn("made by a newer drill." if newer else "not a hand-in file.")
    if len(data) > LARGEST:
        raise NotHandIn("larger than any hand-in file.")
    start = len(_HEAD) + _DIGEST
    body = data[start:]
    if blake2b(body, digest_size=_DIGEST).digest() != data[len(_HEAD) : start]:
        raise NotHandIn("damaged: its digest does not fit.")
    unpacking = zlib.decompressobj()
    raw = unpacking.decompress(body, LARGEST_UNPACKED)
    if unpacking.unconsumed_tail or not unpacking.eof:
        raise NotHandIn("it unpacks to more than is read.")
    return raw


def _checked(whole: dict[str, Any]) -> HandIn:
    columns = whole["columns"]
    number = len(columns["text"])
    if number > MOST_ROWS:
        raise NotHandIn(f"it holds {number} answers, at most {MOST_ROWS} are read.")
    items = [_item(one) for one in whole["items"]]
    words = _texts(whole["words"])
    rest = base64.b64decode(whole["ids"], validate=True)
    numbers = {name: _numbers(columns[name], number) for name in
               ("made", "item", "asked", "seed", "at", "zone", "ms", "marks", "of")}  # fmt: skip
    at = list(accumulate(numbers["at"]))
    appeals = dict(_pairs(columns["appeal"]))
    faulty = set(_numbers(columns["faulty"], len(columns["faulty"])))
    said = [_numbers(column, number) for column in columns["words"]]
    _within(numbers["item"], 0, len(items) - 1)
    _within(numbers["seed"], 0, 2**63 - 1)
    _within(at, *_TIMES)
    _within(numbers["ms"], 0, 10**9)
    _within(numbers["of"], 0, _MOST_MARKS)
    for column in said:
        _within(column, 0, len(words) - 1)
    if len(said) != _COLUMNS_OF_WORDS or len(rest) != 10 * number:
        raise ValueError("columns of different length")
    if any(not 0 <= marks <= of for marks, of in zip(numbers["marks"], numbers["of"], strict=True)):
        raise ValueError("more marks than there are")
    kinds, points, unsure, mistakes, sure, judges = ([words[n] for n in one] for one in said)
    if not set(kinds) <= set(KINDS) or not set(judges) <= set(JUDGES):
        raise ValueError("words that do not stand there")
    for pattern in set(points):
        _points(pattern)
    ids = (
        (made + when).to_bytes(6, "big") + rest[10 * n : 10 * n + 10]
        for n, (made, when) in enumerate(zip(numbers["made"], at, strict=True))
    )
    rows = map(
        HandedIn, ids, [items[n] for n in numbers["item"]], accumulate(numbers["asked"]),
        numbers["seed"], at, accumulate(numbers["zone"]), numbers["ms"], kinds,
        _texts(columns["text"]), numbers["marks"], numbers["of"], points, unsure, mistakes, sure,
        judges, map(appeals.get, range(number)), (n in faulty for n in range(number)),
    )  # fmt: skip
    learner, code, deck = _texts([whole["learner"], whole["code"], whole["deck"]])
    if len(bytes.fromhex(learner)) != 16 or not _is_code(code):
        raise ValueError("nobody's")
    minutes, made = _numbers([whole["minutes"], whole["made"]], 2)
    _within([minutes], 0, 1440)
    _within([made], *_TIMES)
    return HandIn(learner, code, deck, minutes, made, tuple(rows))


def _item(raw: Any) -> Item:
    item = Item(*_texts(raw))
    if not all(item.template.split("/")) or any(len(text) > 200 for text in item):
        raise ValueError("no part of a question")
    return item


def _is_code(code: str) -> bool:
    plain = code.replace("-", "")
    return 0 < len(code) <= 12 and plain.isascii() and plain.isalnum()


def _texts(raw: Iterable[Any]) -> list[str]:
    """Texts that can be stored and are not endless."""
    found = list(raw)
    if any(type(text) is not str or len(text) > _LONGEST for text in found):
        raise TypeError("text is wanted")
    "".join(found).encode()  # no half signs
    return found


def _numbers(raw: list[Any], number: int) -> list[int]:
    if type(raw) is not list or len(raw) != number or any(type(one) is not int for one in raw):
        raise TypeError("whole numbers are wanted")
    return raw


def _pairs(raw: list[list[Any]]) -> list[tuple[int, str]]:
    return [(_numbers([number], 1)[0], _texts([text])[0]) for number, text in raw]


def _within(values: Sequence[int], least: int, most: int) -> None:
    if values and (min(values) < least or max(values) > most):
        raise ValueError("outside what can be")


def _points(pattern: str) -> None:
    for id_, marks, of in json.loads(pattern):
        _texts([id_])
        if type(marks) is not int or type(of) is not int or not 0 <= marks <= of <= _MOST_MARKS:
            raise ValueError("no marking point")
