"""The cached memory of a learner, and the few totals planning asks for.

The only row that is ever replaced: everything in it can be rebuilt from the answers.
"""

from __future__ import annotations

from datetime import datetime

from drill.store.checksum import row_sum
from drill.store.database import Database
from drill.store.rows import Learner, MemoryRow
from drill.store.values import moment

RECENT = 500
"""So many askings tell a planner how long a learner takes, and what was asked lately."""
_COUNTS = (
    'a."learner" = ? AND NOT a."shown" AND EXISTS (SELECT 1 FROM "answer" n '
    'WHERE n."asking" = a."key" AND n."kind" IN (\'answer\', \'pass\'))'
)
_LATEST = 'ORDER BY a."at" DESC, a."key" DESC'
_ASKED = (
    'SELECT a."key", a."skill", t."template", a."at", a."zone", '
    '(SELECT sum(n."ms") FROM "answer" n WHERE n."asking" = a."key") FROM "asking" a '
    f'JOIN "template_version" t ON t."key" = a."template_version" WHERE {_COUNTS}'
)
_LAST_OF_EACH = (
    'SELECT (SELECT a."key" FROM "asking" a '
    f'WHERE {_COUNTS} AND a."template_version" = t."key" {_LATEST} LIMIT 1) '
    'FROM "template_version" t'
)


def save_memory(
    db: Database, learner: Learner, weights: str, last: bytes | None, state: str
) -> None:
    """Keep the state beside the weights and the last verdict it was made with."""
    key = db.key("learner", learner.id)
    sum = row_sum(
        "memory_state", {"learner": key, "weights": weights, "last": last, "state": state}
    )
    db.rows(
        'INSERT OR REPLACE INTO "memory_state" ("learner", "weights", "last", "state", "sum") '
        "VALUES (?, ?, ?, ?, ?)",
        key,
        weights,
        last,
        state,
        sum,
    )


def load_memory(db: Database, learner: Learner) -> MemoryRow | None:
    """The cached state; None when there is none or it is not what was written."""
    key = db.key("learner", learner.id)
    found = db.row(
        'SELECT "weights", "last", "state", "sum" FROM "memory_state" WHERE "learner" = ?', key
    )
    if found is None:
        return None
    weights, last, state, sum = found
    sound = row_sum(
        "memory_state", {"learner": key, "weights": weights, "last": last, "state": state}
    )
    return MemoryRow(weights, last, state) if sound == sum else None


def last_verdict(db: Database, learner: Learner) -> bytes | None:
    """The id of the verdict stored last for this learner, whoever gave it."""
    key = db.key("learner", learner.id)
    if db.row('SELECT 1 FROM "asking" WHERE "learner" = ? LIMIT 1', key) is None:
        return None
    # from the newest backwards: on a computer shared by a few the first look nearly always fits
    found = db.row(
        'SELECT v."id" FROM "verdict" v CROSS JOIN "answer" n ON n."key" = v."answer" '
        'CROSS JOIN "asking" a ON a."key" = n."asking" '
        'WHERE a."learner" = ? ORDER BY v."key" DESC LIMIT 1',
        key,
    )
    return bytes(found[0]) if found else None


def used_seeds(db: Database, learner: Learner, template: str) -> set[int]:
    """Every seed this learner has seen of a template, in any of its versions."""
    found = db.rows(
        # versions first: a learner has many more askings than there are versions
        'SELECT DISTINCT a."seed" FROM "template_version" t CROSS JOIN "asking" a '
        'ON t."key" = a."template_version" WHERE a."learner" = ? AND t."template" = ?',
        db.key("learner", learner.id),
        template,
    )
    return {seed for (seed,) in found}


def asked(
    db: Database, learner: Learner, recent: int = RECENT
) -> list[tuple[str, str, datetime, float]]:
    """(skill, template, when, seconds) of questions asked, by time, as a planner wants it.

    The last `recent` of them, and of every template not among those the last asking: what is read
    does not grow with what was answered. A worked answer shown is not an asking, nor is a question
    left before anything was answered.
    """
    key = db.key("learner", learner.id)
    found = {row[0]: row for row in db.rows(f"{_ASKED} {_LATEST} LIMIT ?", key, recent)}
    if len(found) == recent:
        lasts = db.rows(_LAST_OF_EACH, key)
        missing = (last for (last,) in lasts if last is not None and last not in found)
        found |= {last: db.rows(f'{_ASKED} AND a."key" = ?', key, last)[0] for last in missing}
    rows = sorted(found.values(), key=lambda row: (row[3], row[0]))
    return [
        (skill, template, moment(at, zone), (ms or 0) / 1000)
        for _, skill, template, at, zone, ms in rows
    ]


def seconds_of(db: Database, asking: bytes) -> float:
    """Seconds spent on a question, all its texts together."""
    key = db.key("asking", asking)
    found = db.row('SELECT sum("ms") FROM "answer" WHERE "asking" = ?', key)
    return ((found and found[0]) or 0) / 1000
