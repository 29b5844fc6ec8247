"""What comes out of the store: frozen rows with aware datetimes, never a database's own types."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from drill.model import Mark


class Learner(NamedTuple):
    """Somebody who practises here; `code` is the short code in force now."""

    id: bytes
    code: str
    when: datetime


class InForce(NamedTuple):
    """The verdict that counts for an answer, after weighing everybody's.

    `by` is who has the last word on it: engine, learner, teacher or paper. `decided` are the
    points the learner decided where the engine was not sure; `first` is when the first verdict of
    all came, which tells whether a later text was typed with it in view.
    """

    id: bytes
    by: str
    marker: str
    mark: Mark
    when: datetime
    first: datetime
    decided: tuple[str, ...] = ()

    @property
    def settled(self) -> bool:
        """Whether a person in charge has judged."""
        return self.by in ("teacher", "paper")


class AnswerRow(NamedTuple):
    """One thing typed: kind is answer, pass, fix or hint; `seconds` are kept to the millisecond.

    `appeal` is why the learner contests the mark, None unless somebody still has to settle it.
    """

    id: bytes
    asking: bytes
    part: str
    text: str
    kind: str
    sure: str | None
    seconds: float
    when: datetime
    verdict: InForce | None = None
    appeal: str | None = None

    @property
    def mark(self) -> Mark | None:
        """The mark in force, None while nothing has judged the answer."""
        return self.verdict.mark if self.verdict else None


class AskingRow(NamedTuple):
    """A question put before a learner, with everything typed in the order it was typed.

    `shown` means its worked answer was presented and nothing was asked.
    """

    id: bytes
    sitting: bytes
    template: str
    version: str
    seed: int
    skill: str
    shown: bool
    when: datetime
    answers: tuple[AnswerRow, ...] = ()
    faulty: bool = False


class SittingRow(NamedTuple):
    """A sitting with its askings in order."""

    id: bytes
    deck: str
    when: datetime
    goal: Mapping[str, object]
    askings: tuple[AskingRow, ...] = ()


class MemoryRow(NamedTuple):
    """A cached memory: usable only while `weights` and `last` are what the caller would write."""

    weights: str
    last: bytes | None
    state: str


class OpenMark(NamedTuple):
    """A mark that waits for a teacher or tutor: contested, or the marker was not sure of it."""

    learner: Learner
    asking: AskingRow
    answer: AnswerRow
