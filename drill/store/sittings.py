"""What a sitting writes: each call adds rows and is on disk when it returns."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from math import isfinite
from typing import TYPE_CHECKING

from drill.errors import DrillError
from drill.store.database import Database
from drill.store.marks import as_json, mark_columns
from drill.store.rows import Learner
from drill.store.values import new_id, stamp, storable

if TYPE_CHECKING:
    from drill.model import Mark

KINDS = ("answer", "pass", "fix", "hint")
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
    """Keep the text, facts rows and shared slips of a version, once."""
    if _version_key(db, version, template_id) is not None:
        return
    with db.transaction():
        if _version_key(db, version, template_id) is None:
            db.insert(
                "template_version",
                hash=version,
                template=template_id,
                text=storable(text),
                rows=as_json([dict(row) for row in rows]),
                slips=as_json(dict(slips)),
            )


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
    """Close a sitting; `how` says in a word why ("done", "left", "stop")."""
    key = db.key("sitting", sitting)
    db.insert("sitting_end", id=new_id(), sitting=key, how=how, **stamp(now))


def ask(
    db: Database,
    sitting: bytes,
    learner: Learner,
    version: str,
    template_id: str,
    seed: int,
    skill: str,
    shown: bool,
    now: datetime,
) -> bytes:
    """A question was put; its version must have been kept before. Returns the asking's id.

    Raises:
        DrillError: the seed does not fit in 64 bits.
        KeyError: the version was never kept.
    """
    if not -_LARGEST <= seed <= _LARGEST:
        raise DrillError(f"a seed is a whole number up to {_LARGEST}; this one is beyond it")
    kept = _version_key(db, version, template_id)
    if kept is None:
        raise KeyError(f"version {version} of {template_id} was not kept before it was asked")
    id = new_id()
    with db.transaction():
        key = db.key("learner", learner.id)
        db.insert(
            "asking",
            id=id,
            sitting=db.key("sitting", sitting),
            learner=key,
            template_version=kept,
            seed=seed,
            skill=skill,
            shown=int(shown),
            **stamp(now),
        )
        if shown:  # memory changes without a verdict, so the cached one no longer fits
            db.rows('DELETE FROM "memory_state" WHERE "learner" = ?', key)
    return id


def answer(
    db: Database,
    asking: bytes,
    part: str,
    text: str,
    kind: str,
    sure: str | None,
    seconds: float,
    now: datetime,
) -> bytes:
    """What was typed, on disk before anything judges it. Returns the answer's id."""
    if kind not in KINDS:
        raise ValueError(f"an answer is one of {', '.join(KINDS)}, got {kind!r}")
    id = new_id()
    db.insert(
        "answer",
        id=id,
        asking=db.key("asking", asking),
        part=part,
        text=storable(text),
        kind=kind,
        sure=None if sure is None else storable(sure),
        ms=_milliseconds(seconds),
        **stamp(now),
    )
    return id


def _milliseconds(seconds: float) -> int:
    """Whole milliseconds of a stopwatch, which a clock set back or a bad file may have spoilt."""
    if not isfinite(seconds):
        return 0
    return round(max(0.0, min(seconds, _LONGEST_SECONDS)) * 1000)


def verdict(db: Database, answer: bytes, by: str, marker: str, mark: Mark, now: datetime) -> bytes:
    """One judgement of an answer; earlier ones stay, authority decides which counts."""
    if by not in JUDGES:
        raise ValueError(f"a verdict is by one of {', '.join(JUDGES)}, got {by!r}")
    id = new_id()
    key = db.key("answer", answer)
    columns = mark_columns(mark)
    db.insert("verdict", id=id, answer=key, judge=by, marker=marker, **columns, **stamp(now))
    return id


def appeal(db: Database, answer: bytes, reason: str, now: datetime) -> None:
    """The learner contests the mark; it stands until a teacher's verdict."""
    key = db.key("answer", answer)
    db.insert("appeal", id=new_id(), answer=key, reason=storable(reason), **stamp(now))


def faulty(db: Database, asking: bytes, note: str, now: datetime) -> None:
    """The question itself is said to be wrong; nothing is learned from it."""
    key = db.key("asking", asking)
    with db.transaction():
        db.insert("faulty", id=new_id(), asking=key, note=storable(note), **stamp(now))
        db.rows(
            'DELETE FROM "memory_state" WHERE "learner" = '
            '(SELECT "learner" FROM "asking" WHERE "key" = ?)',
            key,
        )
