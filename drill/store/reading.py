"""Askings with their answers and the verdicts in force, in four statements however many."""

from __future__ import annotations

import json
from datetime import datetime
from typing import Any, NamedTuple

from drill.store.authority import StoredVerdict, in_force, offered
from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.limits import sound_goal
from drill.store.marks import COLUMNS, mark_of
from drill.store.order import ordered, place
from drill.store.rows import AnswerRow, AskingRow, InForce, Learner, OpenMark, SittingRow
from drill.store.values import milliseconds, moment

# conditions are on askings: a cross join keeps the database from beginning anywhere else
_ASKING = """
    SELECT a."key", a."id", s."id", t."template", t."hash", a."seed", w."text", a."shown",
        a."at", a."zone", EXISTS (SELECT 1 FROM "faulty" f WHERE f."asking" = a."key")
    FROM "asking" a
    JOIN "sitting" s ON s."key" = a."sitting"
    JOIN "word" w ON w."key" = a."skill"
    JOIN "template_version" t ON t."key" = a."template_version"
"""
_ANSWER = f"""
    SELECT n."key", a."key", n."id", a."id", n."part", n."text", n."kind", n."sure", n."ms",
        n."at", n."zone", {place("n")}
    FROM "asking" a CROSS JOIN "answer" n ON n."asking" = a."key"
"""
_APPEAL = f"""
    SELECT p."answer", {place("p")}, p."reason" FROM "asking" a CROSS JOIN "answer" n
    ON n."asking" = a."key" CROSS JOIN "appeal" p ON p."answer" = n."key"
"""
_VERDICT = f"""
    SELECT v."answer", v."id", v."judge", w."text", v."at", v."zone", {place("v")}, v."note",
        v."key", {", ".join(f'v."{column}"' for column in COLUMNS)}
    FROM "asking" a CROSS JOIN "answer" n ON n."asking" = a."key"
    CROSS JOIN "verdict" v ON v."answer" = n."key" JOIN "word" w ON w."key" = v."marker"
"""
_ACCEPTED = """
    SELECT c."verdict" FROM "asking" a CROSS JOIN "answer" n ON n."asking" = a."key"
    CROSS JOIN "verdict" v ON v."answer" = n."key"
    CROSS JOIN "acceptance" c ON c."verdict" = v."key"
"""
_SETTLED = """
    SELECT n."asking", v."key", v."id" FROM "verdict" v JOIN "answer" n ON n."key" = v."answer"
    JOIN "asking" a ON a."key" = n."asking"
    WHERE v."key" > ? AND v."judge" = 'teacher' AND +a."learner" = ?
"""
_READING = 'SELECT r."asking", r."name", r."text" FROM "asking" a JOIN "reading" r ON '
_READING += 'r."asking" = a."key"'

_LATEST_SITTINGS = 50
"""One broken off further back is not looked for: a start must not read all there were."""
_OPEN = """
    SELECT s."key", s."id", d."name", s."goal", s."at", s."zone" FROM
    (SELECT * FROM "sitting" WHERE "learner" = ?1 ORDER BY "key" DESC LIMIT ?2) s
    JOIN "deck" d ON d."key" = s."deck" WHERE NOT EXISTS
    (SELECT 1 FROM "sitting_end" e WHERE e."sitting" = s."key") ORDER BY s."key" DESC
"""
_LATEST_ASKINGS = 10_000
"""Of all learners together: so far back a sitting that is not ended is looked for."""
_LATELY = f'a."key" > (SELECT max("key") - {_LATEST_ASKINGS} FROM "asking")'
# the sign keeps the database from beginning with all of the learner's askings
_LAST_ASKED = f"""
    SELECT o."id", t."template" FROM ({_OPEN}) o JOIN "asking" a ON a."key" =
    (SELECT max(a."key") FROM "asking" a
    WHERE +a."learner" = ?1 AND a."sitting" = o."key" AND {_LATELY})
    JOIN "template_version" t ON t."key" = a."template_version"
"""
_IN_SITTING = f'+a."learner" = ? AND a."sitting" = ? AND {_LATELY}'


class Which(NamedTuple):
    """A condition on askings, for all four statements alike."""

    condition: str
    values: tuple[Cell, ...]


def by_learner(db: Database, learner: Learner, since: datetime | None) -> list[AskingRow]:
    """All of a learner's askings by time, from `since` on."""
    key = db.key("learner", learner.id)
    if since is None:
        return askings(db, Which('a."learner" = ?', (key,)))
    start = milliseconds(since)
    return askings(db, Which('a."learner" = ? AND a."at" >= ?', (key, start)))


def by_id(db: Database, asking: bytes) -> AskingRow:
    """One asking."""
    return askings(db, Which('a."key" = ?', (db.key("asking", asking),)))[0]


def askings(db: Database, which: Which) -> list[AskingRow]:
    """The askings that meet a condition, by time; their answers as they were typed.

    Raises:
        DrillError: a row is so damaged that nothing can be made of it.
    """
    try:
        return _askings(db, which)
    except (ValueError, TypeError, KeyError, OverflowError, AttributeError) as error:
        raise db.damaged() from error


def _askings(db: Database, which: Which) -> list[AskingRow]:
    answers, readings = _answers(db, which), _readings(db, which)
    found = db.rows(f'{_ASKING} WHERE {which.condition} ORDER BY a."at", a."id"', *which.values)
    return [
        AskingRow(
            id=id,
            sitting=sitting,
            template=template,
            version=version,
            seed=seed,
            skill=skill,
            shown=bool(shown),
            when=moment(at, zone),
            answers=tuple(answers.get(key, ())),
            faulty=bool(faulty),
            readings=tuple(readings.get(key, ())),
        )
        for key, id, sitting, template, version, seed, skill, shown, at, zone, faulty in found
    ]


def _readings(db: Database, which: Which) -> dict[int, list[tuple[str, str]]]:
    grouped: dict[int, list[tuple[str, str]]] = {}
    for key, name, text in db.rows(
        f'{_READING} WHERE {which.condition} ORDER BY r."id"', *which.values
    ):
        grouped.setdefault(key, []).append((name, text))
    return grouped


def _answers(db: Database, which: Which) -> dict[int, list[AnswerRow]]:
    verdicts, appeals = _verdicts(db, which), _appeals(db, which)
    found = db.rows(f"{_ANSWER} WHERE {which.condition} ORDER BY {ordered('n')}", *which.values)
    grouped: dict[int, list[AnswerRow]] = {}
    for key, asking_key, id, asking, part, text, kind, sure, ms, at, zone, its_place in found:
        given = verdicts.get(key, [])
        counts = in_force(given)
        row = AnswerRow(
            id=id,
            asking=asking,
            part=part,
            text=text,
            kind=kind,
            sure=sure,
            seconds=ms / 1000,
            when=moment(at, zone),
            verdict=counts,
            appeal=_unsettled(appeals.get(key), counts),
            place=its_place,
            offered=offered(given),
        )
        grouped.setdefault(asking_key, []).append(row)
    return grouped


def _verdicts(db: Database, which: Which) -> dict[int, list[StoredVerdict]]:
    found = db.rows(f"{_VERDICT} WHERE {which.condition} ORDER BY {ordered('v')}", *which.values)
    trusted = _Trusted(db, which)
    grouped: dict[int, list[StoredVerdict]] = {}
    for row in found:
        grouped.setdefault(row[0], []).append(_judged(row, trusted))
    return grouped


class _Trusted:
    """Which verdicts of people in charge count here: those given here, and those accepted."""

    def __init__(self, db: Database, which: Which) -> None:
        self._db, self._which = db, which
        self._arrived: list[tuple[int, int]] | None = None
        self._accepted: set[int] = set()

    def counts(self, key: int, judge: str) -> bool:
        if judge not in ("teacher", "paper"):
            return True
        if self._arrived is None:
            self._look()
        assert self._arrived is not None
        arrived = any(first <= key <= last for first, last in self._arrived)
        return not arrived or key in self._accepted

    def _look(self) -> None:
        self._arrived = arrived_keys(self._db, "verdict")
        rows = self._db.rows(f"{_ACCEPTED} WHERE {self._which.condition}", *self._which.values)
        self._accepted = {key for (key,) in rows}


def arrived_keys(db: Database, table: str) -> list[tuple[int, int]]:
    """The first and last key of what each import brought into a table."""
    found = []
    for (keys,) in db.rows('SELECT "keys" FROM "arrival"'):
        span = json.loads(keys).get(table)
        if span:
            found.append((int(span[0]), int(span[1])))
    return found


def _appeals(db: Database, which: Which) -> dict[int, tuple[int, str]]:
    """The last appeal against each answer, with its place."""
    found = db.rows(f"{_APPEAL} WHERE {which.condition} ORDER BY {ordered('p')}", *which.values)
    return {key: (its_place, reason) for key, its_place, reason in found}


def _unsettled(appeal: tuple[int, str] | None, verdict: InForce | None) -> str | None:
    """The reason of an appeal, None when a person in charge has judged since."""
    if appeal is None or (verdict is not None and verdict.settled and verdict.place > appeal[0]):
        return None
    return appeal[1]


def _judged(row: tuple[Any, ...], trusted: _Trusted) -> StoredVerdict:
    _, id, by, marker, at, zone, its_place, note, key, *columns = row
    mark = mark_of(dict(zip(COLUMNS, columns, strict=True)))
    when = moment(at, zone)
    return StoredVerdict(id, by, marker, mark, when, its_place, note, trusted.counts(key, by))


def open_sittings(db: Database, learner: Learner) -> list[SittingRow]:
    """Those of the learner's latest sittings that were begun here and not ended, latest first."""
    arrived: list[tuple[int, int]] | None = None
    rows = []
    whose = db.key("learner", learner.id)
    for key, id, deck, goal, at, zone in db.rows(_OPEN, whose, _LATEST_SITTINGS):
        arrived = arrived_keys(db, "sitting") if arrived is None else arrived
        if not any(first <= key <= last for first, last in arrived):
            asked = tuple(askings(db, Which(_IN_SITTING, (whose, key))))
            goals = _goal(db, goal)
            rows.append(SittingRow(id, deck, moment(at, zone), goals, asked))
    return rows


def _goal(db: Database, text: str) -> dict[str, object]:
    try:
        return sound_goal(json.loads(text))
    except (ValueError, TypeError, AttributeError) as error:
        raise db.damaged() from error


def last_asked(db: Database, learner: Learner) -> list[tuple[bytes, str]]:
    """(sitting, template) of the question put last in each of the sittings not ended."""
    return db.rows(_LAST_ASKED, db.key("learner", learner.id), _LATEST_SITTINGS)


def open_marks(db: Database, learner: Learner) -> list[OpenMark]:
    """Marks that wait for somebody in charge: contested ones, and those not sure of."""
    return [
        OpenMark(learner, row, answer)
        for row in by_learner(db, learner, None)
        for answer in row.answers
        if answer.appeal is not None or _unsure(answer)
    ]


def marked(db: Database, learner: Learner) -> list[OpenMark]:
    """Every answer that has a mark."""
    return [
        OpenMark(learner, row, answer)
        for row in by_learner(db, learner, None)
        for answer in row.answers
        if answer.verdict is not None
    ]


def settled_since(db: Database, learner: Learner, place: int) -> tuple[list[OpenMark], int]:
    """Answers that a teacher or tutor judged since a place in the store; and the place now."""
    found = db.rows(_SETTLED, place, db.key("learner", learner.id))
    if not found:
        return [], place
    keys = tuple(sorted({asking for asking, _, _ in found}))
    rows = askings(db, Which(f'a."key" IN ({",".join("?" * len(keys))})', keys))
    given = {id for _, _, id in found}
    marks = [
        OpenMark(learner, row, answer)
        for row in rows
        for answer in row.answers
        if answer.verdict is not None and answer.verdict.id in given
    ]
    return marks, max(key for _, key, _ in found)


def offered_marks(db: Database, learner: Learner) -> list[OpenMark]:
    """Answers with a verdict from elsewhere that waits to be accepted; quick where none came."""
    if not arrived_keys(db, "verdict"):
        return []
    return [
        OpenMark(learner, row, answer)
        for row in by_learner(db, learner, None)
        for answer in row.answers
        if answer.offered is not None
    ]


def _unsure(answer: AnswerRow) -> bool:
    verdict = answer.verdict
    return verdict is not None and not verdict.settled and bool(verdict.mark.unsure)
