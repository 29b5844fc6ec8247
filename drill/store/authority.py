"""Which verdict counts, when several have judged the same answer.

Teacher and paper overrule the learner, the learner overrules the engine; of equals, the later
counts. The learner's decision counts only where the engine was not sure, and for self-marked
levels.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.frozen import replace
from drill.store.rows import InForce

if TYPE_CHECKING:
    from drill.model import Mark


@dataclass(frozen=True)
class StoredVerdict:
    """One stored verdict. `counts` is false for one that came from elsewhere unaccepted."""

    id: bytes
    by: str
    marker: str
    mark: Mark
    when: datetime
    place: int
    note: str | None = None
    counts: bool = True


def offered(verdicts: Sequence[StoredVerdict]) -> InForce | None:
    """The last verdict of a teacher, tutor or paper that waits to be accepted here."""
    last = _last(verdicts, "teacher", "paper")
    return None if last is None or last.counts else _alone(last, last.place)


def in_force(verdicts: Sequence[StoredVerdict]) -> InForce | None:
    """The verdict that counts, None without any; `verdicts` in the order they were given."""
    verdicts = [one for one in verdicts if one.counts]
    if not verdicts:
        return None
    first = verdicts[0].place
    charge = _last(verdicts, "teacher", "paper")
    if charge is not None:
        earlier = in_force(verdicts[: verdicts.index(charge)])
        return _alone(charge, first)._replace(before=earlier.mark.marks if earlier else None)
    engine, learner = _last(verdicts, "engine"), _last(verdicts, "learner")
    if engine is None:  # a learner has a say only in what an engine left open
        return None
    if learner is None:
        return _alone(engine, first)
    mark, decided = _together(engine.mark, learner.mark)
    if not decided and not engine.mark.self_marked:
        return _alone(engine, first)
    return _alone(learner, first)._replace(mark=mark, decided=decided)


def _last(verdicts: Sequence[StoredVerdict], *judges: str) -> StoredVerdict | None:
    return next((one for one in reversed(verdicts) if one.by in judges), None)


def _alone(one: StoredVerdict, first: int) -> InForce:
    return InForce(one.id, one.by, one.marker, one.mark, one.when, one.place, first, note=one.note)


def _together(engine: Mark, learner: Mark) -> tuple[Mark, tuple[str, ...]]:
    """The engine's mark with the learner's decisions put in, and which points those were."""
    if engine.self_marked:
        return replace(learner, self_marked=True), ()
    chosen = {point.id: point for point in learner.points}
    decided = tuple(id for id in engine.unsure if id in chosen and not chosen[id].unsure)
    points = tuple(
        replace(chosen[point.id], of=point.of) if point.id in decided else point
        for point in engine.points
    )
    # marks can be below the sum of the points: a maximum, or marks lost to the list principle
    lost = min(engine.of, sum(point.marks for point in engine.points)) - engine.marks
    marks = max(0, min(engine.of, sum(point.marks for point in points)) - lost)
    return replace(engine, points=points, marks=marks), decided
