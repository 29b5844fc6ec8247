"""Askings with their answers and the verdicts in force, in four statements however many."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import datetime
from typing import Any, NamedTuple

from drill.store.authority import StoredVerdict, in_force
from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.marks import COLUMNS, mark_of
from drill.store.rows import AnswerRow, AskingRow, InForce, Learner, OpenMark, SittingRow
from drill.store.values import milliseconds, moment

_ASKING = """
    SELECT a."key", a."id", s."id", t."template", t."hash", a."seed", a."skill", a."shown",
        a."at", a."zone", EXISTS (SELECT 1 FROM "faulty" f WHERE f."asking" = a."key")
    FROM "asking" a
    JOIN "sitting" s ON s."key" = a."sitting"
    JOIN "template_version" t ON t."key" = a."template_version"
"""
_ANSWER = """
    SELECT n."key", a."key", n."id", a."id", n."part", n."text", n."kind", n."sure", n."ms",
        n."at", n."zone"
    FROM "asking" a JOIN "answer" n ON n."asking" = a."key"
"""
_APPEAL = """
    SELECT p."answer", p."id", p."reason" FROM "asking" a
    JOIN "answer" n ON n."asking" = a."key" JOIN "appeal" p ON p."answer" = n."key"
"""
_VERDICT = f"""
    SELECT v."answer", v."id", v."judge", v."marker", v."at", v."zone",
        {", ".join(f'v."{column}"' for column in COLUMNS)}
    FROM "asking" a JOIN "answer" n ON n."asking" = a."key" JOIN "verdict" v ON v."answer" = n."key"
"""

_LATEST_SITTINGS = 50
"""One broken off further back is not looked for: a start must not read all there were."""


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
    """The askings that meet a condition, by time; their answers as they were typed."""
    answers = _answers(db, which)
    found = db.rows(f'{_ASKING} WHERE {which.condition} ORDER BY a."at", a."key"', *which.values)
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
        )
        for key, id, sitting, template, version, seed, skill, shown, at, zone, faulty in found
    ]


def _answers(db: Database, which: Which) -> dict[int, list[AnswerRow]]:
    verdicts, appeals = _verdicts(db, which), _appeals(db, which)
    found = db.rows(f'{_ANSWER} WHERE {which.condition} ORDER BY n."key"', *which.values)
    grouped: dict[int, list[AnswerRow]] = {}
    for key, asking_key, id, asking, part, text, kind, sure, ms, at, zone in found:
        row = AnswerRow(
            id=id,
            asking=asking,
            part=part,
            text=text,
            kind=kind,
            sure=sure,
            seconds=ms / 1000,
            when=moment(at, zone),
            verdict=verdicts.get(key),
            appeal=_unsettled(appeals.get(key), verdicts.get(key)),
        )
        grouped.setdefault(asking_key, []).append(row)
    return grouped


def _verdicts(db: Database, which: Which) -> dict[int, InForce | None]:
    found = db.rows(f'{_VERDICT} WHERE {which.condition} ORDER BY v."at", v."key"', *which.values)
    grouped: dict[int, list[StoredVerdict]] = {}
    for row in found:
        grouped.setdefault(row[0], []).append(_judged(row))
    return {key: in_force(verdicts) for key, verdicts in grouped.items()}


def _appeals(db: Database, which: Which) -> dict[int, tuple[bytes, str]]:
    """The last appeal against each answer."""
    found = db.rows(f'{_APPEAL} WHERE {which.condition} ORDER BY p."id"', *which.values)
    return {key: (id, reason) for key, id, reason in found}


def _unsettled(appeal: tuple[bytes, str] | None, verdict: InForce | None) -> str | None:
    """The reason of an appeal, None when a person in charge has judged since."""
    if appeal is None or (verdict is not None and verdict.settled and verdict.id > appeal[0]):
        return None
    return appeal[1]


def _judged(row: tuple[Any, ...]) -> StoredVerdict:
    _, id, by, marker, at, zone, *columns = row
    return StoredVerdict(
        id, by, marker, mark_of(dict(zip(COLUMNS, columns, strict=True))), moment(at, zone)
    )


def open_sitting(db: Database, learner: Learner) -> SittingRow | None:
    """The last of the learner's latest sittings that was not ended."""
    found = db.row(
        'SELECT s."key", s."id", d."name", s."goal", s."at", s."zone" FROM '
        '(SELECT * FROM "sitting" WHERE "learner" = ? ORDER BY "key" DESC LIMIT ?) s '
        'JOIN "deck" d ON d."key" = s."deck" WHERE NOT EXISTS '
        '(SELECT 1 FROM "sitting_end" e WHERE e."sitting" = s."key") ORDER BY s."key" DESC LIMIT 1',
        db.key("learner", learner.id),
        _LATEST_SITTINGS,
    )
    if found is None:
        return None
    key, id, deck, goal, at, zone = found
    asked = tuple(askings(db, Which('a."sitting" = ?', (key,))))
    return SittingRow(id, deck, moment(at, zone), json.loads(goal), asked)


def open_marks(db: Database, learner: Learner) -> list[OpenMark]:
    """Marks that wait for somebody in charge: contested ones, and those not sure of."""
    return [
        OpenMark(learner, row, answer)
        for row in by_learner(db, learner, None)
        for answer in row.answers
        if answer.appeal is not None or _unsure(answer)
    ]


def _unsure(answer: AnswerRow) -> bool:
    verdict = answer.verdict
    return verdict is not None and not verdict.settled and bool(verdict.mark.unsure)


def unmarked(db: Database, learner: Learner) -> tuple[AnswerRow, ...]:
    """Answers and passes nothing has judged, as after a crash between answer and verdict."""
    rows: Iterable[AskingRow] = askings(
        db,
        Which(
            'a."learner" = ? AND a."key" IN (SELECT n."asking" FROM "answer" n WHERE NOT EXISTS '
            '(SELECT 1 FROM "verdict" v WHERE v."answer" = n."key"))',
            (db.key("learner", learner.id),),
        ),
    )
    return tuple(
        answer
        for row in rows
        for answer in row.answers
        if answer.kind in ("answer", "pass") and answer.verdict is None
    )
