"""The cached memory of a learner, and the few totals planning asks for.

The only row that is ever replaced: everything in it can be rebuilt from the answers.
"""

from __future__ import annotations

from datetime import datetime
from zlib import compress, decompress

from drill.store.checksum import Cell, row_sum
from drill.store.database import Database
from drill.store.rows import Learner, MemoryRow
from drill.store.values import moment

RECENT = 500
"""So many askings tell a planner how long a learner takes, and what was asked lately."""
_COUNTS = (
    'a."learner" = ? AND NOT a."shown" AND EXISTS (SELECT 1 FROM "answer" n '
    "WHERE n.\"asking\" = a.\"key\" AND n.\"kind\" IN ('answer', 'pass', 'paper'))"
)
_LATEST = 'ORDER BY a."at" DESC, a."key" DESC'
_ASKED = (
    'SELECT a."key", w."text", t."template", a."at", a."zone", '
    '(SELECT sum(n."ms") FROM "answer" n WHERE n."asking" = a."key") FROM "asking" a '
    'JOIN "word" w ON w."key" = a."skill" '
    f'JOIN "template_version" t ON t."key" = a."template_version" WHERE {_COUNTS}'
)
_LAST_OF_EACH = (
    'SELECT (SELECT a."key" FROM "asking" a '
    f'WHERE {_COUNTS} AND a."template_version" = t."key" {_LATEST} LIMIT 1) '
    'FROM "template_version" t'
)


_TOLD = {
    "verdict": 'JOIN "answer" n ON n."key" = t."answer" JOIN "asking" a ON a."key" = n."asking"',
    "answer": 'JOIN "asking" a ON a."key" = t."asking"',
    "asking": 'JOIN "asking" a ON a."key" = t."key" AND t."shown"',
    "faulty": 'JOIN "asking" a ON a."key" = t."asking"',
    "acceptance": 'JOIN "verdict" v ON v."key" = t."verdict" '
    'JOIN "answer" n ON n."key" = v."answer" JOIN "asking" a ON a."key" = n."asking"',
}
"""{table: how its rows lead to their asking}: whatever can change what is remembered."""
_SEEN = "SELECT " + ", ".join(f'(SELECT max("key") FROM "{table}")' for table in _TOLD)
_SEEN += ', (SELECT count(*) FROM "arrival")'
# the sign keeps the database from beginning with all of the learner's askings
_CHANGED = " UNION ".join(
    f'SELECT a."id", a."key" FROM "{table}" t {leads} WHERE t."key" > ? AND +a."learner" = ?'
    for table, leads in _TOLD.items()
)


def seen(db: Database) -> str:
    """The current end of the store: the last key of each table that memory depends on."""
    found = db.row(_SEEN)
    assert found is not None
    return " ".join(str(key or 0) for key in found)


def changed_since(db: Database, learner: Learner, seen: str) -> dict[bytes, bool] | None:
    """{asking: whether it was put since} of what changed since; None: all of it may have.

    Keys only grow, so this looks at the rows that came later and at no others.
    """
    *keys, arrivals = (int(word) for word in seen.split())
    if len(keys) != len(_TOLD) or db.row('SELECT count(*) FROM "arrival"') != (arrivals,):
        return None  # an import was put in or taken back
    learner_key = db.key("learner", learner.id)
    values = [value for key in keys for value in (key, learner_key)]
    asked = keys[list(_TOLD).index("asking")]
    return {id: key > asked for id, key in db.rows(_CHANGED, *values)}


def is_latest(db: Database, asking: bytes) -> bool:
    """Whether none of the learner's questions has a later time than this one."""
    found = db.row(
        'SELECT 1 FROM "asking" a JOIN "asking" b ON b."learner" = a."learner" '
        'WHERE a."id" = ? AND b."at" >= a."at" AND b."key" != a."key" LIMIT 1',
        asking,
    )
    return found is None


def save_memory(db: Database, learner: Learner, memory: MemoryRow) -> None:
    """Keep a memory, packed, beside the weights and how far the store had been read."""
    values: dict[str, Cell] = {
        "learner": db.key("learner", learner.id),
        "weights": memory.weights,
        "seen": memory.seen,
        "state": compress(memory.state.encode()),
    }
    names = ", ".join(f'"{name}"' for name in (*values, "sum"))
    db.rows(
        f'INSERT OR REPLACE INTO "memory_state" ({names}) VALUES (?, ?, ?, ?, ?)',
        *values.values(),
        row_sum("memory_state", values),
    )


def load_memory(db: Database, learner: Learner) -> MemoryRow | None:
    """The cached memory; None when there is none or it is not what was written."""
    key = db.key("learner", learner.id)
    found = db.row(
        'SELECT "weights", "seen", "state", "sum" FROM "memory_state" WHERE "learner" = ?', key
    )
    if found is None:
        return None
    weights, told, state, sum = found
    values = {"learner": key, "weights": weights, "seen": told, "state": state}
    if row_sum("memory_state", values) != sum:
        return None
    return MemoryRow(weights, told, decompress(state).decode())


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
