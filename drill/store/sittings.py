"""What a sitting writes: each call adds rows and is on disk when it returns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from math import isfinite
from typing import TYPE_CHECKING

from drill.errors import DrillError
from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.limits import LONGEST_TEXT
from drill.store.marks import as_json, mark_columns
from drill.store.order import last_of_asking, placed, stamped
from drill.store.rows import Learner, NewAsking
from drill.store.values import new_id, stamp, storable

if TYPE_CHECKING:
    from drill.model import Mark

KINDS = ("answer", "pass", "fix", "hint", "paper")
"""What an answer is: typed, given up, put right or tried again, a hint, or written on paper."""
JUDGES = ("engine", "learner", "teacher", "paper")
_LARGEST = 2**63 - 1
_LONGEST_SECONDS = 1e9


def keep_template(
    db: Database,
    version: str,
    template_id: str,
    text: str,
    rows: Sequence[Mapping[str, object]],
    slips: Mapping[str, object],
) -> None:
    """Keep the text, facts rows and shared slips of a version, once.

    A text kept under this hash that is another one came from outside before that was looked at;
    it gives way.
    """
    found = db.row(
        'SELECT "key", "text" FROM "template_version" WHERE "hash" = ? AND "template" = ?',
        version,
        template_id,
    )
    if found and found[1] == storable(text):
        return
    values = {
        "hash": version,
        "template": template_id,
        "text": storable(text),
        "rows": as_json([dict(row) for row in rows]),
        "slips": as_json(dict(slips)),
    }
    with db.transaction():
        if found:
            db.replace("template_version", found[0], **values)
        elif _version_key(db, version, template_id) is None:
            db.insert("template_version", **values)


def _version_key(db: Database, version: str, template_id: str) -> int | None:
    found = db.row(
        'SELECT "key" FROM "template_version" WHERE "hash" = ? AND "template" = ?',
        version,
        template_id,
    )
    return None if found is None else int(found[0])


def start_sitting(
    db: Database, learner: Learner, deck_id: str, now: datetime, goal: Mapping[str, object]
) -> bytes:
    """Begin a sitting of a topic deck; returns its id."""
    with db.transaction():
        found = db.row('SELECT "key" FROM "deck" WHERE "name" = ?', deck_id)
        deck = found[0] if found else db.insert("deck", name=deck_id, **stamp(now))
        id = new_id()
        key = db.key("learner", learner.id)
        goal_text = as_json(dict(goal))
        db.insert("sitting", id=id, learner=key, deck=deck, goal=goal_text, **stamp(now))
    return id


def end_sitting(db: Database, sitting: bytes, now: datetime, how: str) -> None:
    """Close a sitting; `how` says in a word why ("done", "left", "stop"). Once is enough."""
    key = db.key("sitting", sitting)
    with db.transaction():
        if db.row('SELECT 1 FROM "sitting_end" WHERE "sitting" = ?', key) is None:
            db.insert("sitting_end", id=new_id(), sitting=key, how=how, **stamp(now))


def ask(db: Database, new: NewAsking, now: datetime) -> bytes:
    """A question was put; its version must have been kept before. Returns the asking's id.

    Raises:
        DrillError: the seed does not fit in 64 bits, or the learner has had it with this template.
        KeyError: the version was never kept.
    """
    if not -_LARGEST <= new.seed <= _LARGEST:
        raise DrillError(f"a seed is a whole number up to {_LARGEST}; this one is beyond it")
    kept = _version_key(db, new.version, new.template)
    if kept is None:
        raise KeyError(f"version {new.version} of {new.template} was not kept before it was asked")
    id = new_id()
    with db.transaction():
        db.insert(
            "asking",
            id=id,
            sitting=db.key("sitting", new.sitting),
            learner=db.key("learner", new.learner.id),
            template_version=kept,
            seed=new.seed,
            skill=word(db, new.skill),
            shown=int(new.shown),
            **stamp(now),
        )
    return id


def word(db: Database, text: str) -> int:
    """The key of a word that comes again and again, kept once."""
    found = db.row('SELECT "key" FROM "word" WHERE "text" = ?', text)
    return int(found[0]) if found else db.insert("word", text=text)


def answer(
    db: Database,
    asking: bytes,
    part: str,
    text: str,
    kind: str,
    sure: str | None,
    seconds: float,
    now: datetime,
    id: bytes | None = None,
) -> bytes:
    """What was typed, on disk before anything judges it. Returns the answer's id.

    `id` is the one it has on another machine; it gets a new one where that is taken.
    """
    if kind not in KINDS:
        raise ValueError(f"an answer is one of {', '.join(KINDS)}, got {kind!r}")
    if id is None or db.row('SELECT 1 FROM "answer" WHERE "id" = ?', id):
        id = new_id()
    with db.transaction():
        key = db.key("asking", asking)
        db.insert(
            "answer",
            id=id,
            asking=key,
            part=part,
            text=_kept(text),
            kind=kind,
            sure=None if sure is None else _kept(sure),
            ms=_milliseconds(seconds),
            **placed(now, last_of_asking(db, key)),
        )
    return id


def _kept(text: str) -> str:
    """What was typed, as far as it can be kept."""
    return storable(text[:LONGEST_TEXT])[:LONGEST_TEXT]


def _milliseconds(seconds: float) -> int:
    """Whole milliseconds of a stopwatch, which a clock set back or a bad file may have spoilt."""
    if not isfinite(seconds):
        return 0
    return round(max(0.0, min(seconds, _LONGEST_SECONDS)) * 1000)


def reading(db: Database, asking: bytes, name: str, text: str, now: datetime) -> None:
    """A reading that the learner took, for the question it is to be used in."""
    key = db.key("asking", asking)
    texts = {"name": storable(name), "text": _kept(text)}
    db.insert("reading", id=new_id(), asking=key, **texts, **stamp(now))


def verdict(
    db: Database,
    answer: bytes,
    by: str,
    marker: str,
    mark: Mark,
    now: datetime,
    note: str | None = None,
) -> bytes:
    """One judgement of an answer; earlier ones stay, authority decides which counts."""
    if by not in JUDGES:
        raise ValueError(f"a verdict is by one of {', '.join(JUDGES)}, got {by!r}")
    columns = mark_columns(mark)
    with db.transaction():
        key = db.key("answer", answer)
        told = _said_of(db, key, now)
        kept = word(db, marker)
        note = None if note is None else _kept(note)
        db.insert("verdict", answer=key, judge=by, marker=kept, note=note, **columns, **told)
    id = told["id"]
    assert isinstance(id, bytes)
    return id


def accept(db: Database, verdict: bytes, now: datetime) -> None:
    """Somebody here takes over a verdict that was given on another machine."""
    with db.transaction():
        key = db.key("verdict", verdict)
        db.insert("acceptance", verdict=key, **stamped(db, now, None))


def appeal(db: Database, answer: bytes, reason: str, now: datetime) -> None:
    """The learner contests the mark; it stands until a teacher's verdict."""
    with db.transaction():
        key = db.key("answer", answer)
        db.insert("appeal", answer=key, reason=_kept(reason), **_said_of(db, key, now))


def _said_of(db: Database, answer: int, now: datetime) -> dict[str, Cell]:
    """Id, time and place of what is said of an answer now, after all said of its question."""
    found = db.row('SELECT "asking" FROM "answer" WHERE "key" = ?', answer)
    assert found is not None
    return stamped(db, now, last_of_asking(db, found[0]))


def faulty(db: Database, asking: bytes, note: str, now: datetime) -> None:
    """The question itself is said to be wrong; nothing is learned from it."""
    key = db.key("asking", asking)
    db.insert("faulty", id=new_id(), asking=key, note=_kept(note), **stamp(now))
