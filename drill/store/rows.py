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


class NewAsking(NamedTuple):
    """A question about to be put; `shown`: its worked answer is presented and nothing asked."""

    sitting: bytes
    learner: Learner
    version: str
    template: str
    seed: int
    skill: str
    shown: bool


class InForce(NamedTuple):
    """The verdict that counts for an answer, after weighing everybody's.

    `by` is who has the last word on it: engine, learner, teacher or paper. `decided` are the
    points the learner decided where the engine was not sure. `place` and `first` are the places
    (see `order`) of this verdict and of the first of all, which tells whether a later text was
    typed with it in view. `note` is what a person in charge says to it, `before` the marks that
    stood until then.
    """

    id: bytes
    by: str
    marker: str
    mark: Mark
    when: datetime
    place: int
    first: int
    decided: tuple[str, ...] = ()
    note: str | None = None
    before: int | None = None

    @property
    def who(self) -> str:
        """Who judged, a tutor told from a teacher: both have the same authority."""
        return "tutor" if self.by == "teacher" and self.marker.endswith("tutor") else self.by

    @property
    def settled(self) -> bool:
        """Whether a person in charge has judged."""
        return self.by in ("teacher", "paper")


class AnswerRow(NamedTuple):
    """One thing typed: kind is answer, pass, fix, hint or paper; `seconds` to the millisecond.

    `appeal` is why the learner contests the mark, None unless somebody still has to settle it.
    `place` is where it comes in order (see `order`); `offered` a verdict that somebody in charge
    gave on another machine and nobody has accepted here, so that it does not count.
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
    place: int = 0
    offered: InForce | None = None

    @property
    def mark(self) -> Mark | None:
        """The mark in force, None while nothing has judged the answer."""
        return self.verdict.mark if self.verdict else None


class AskingRow(NamedTuple):
    """A question put before a learner, with everything typed in the order it was typed.

    `shown` means its worked answer was presented and nothing was asked. `readings` are (name,
    text) of what the learner read off and gave for it.
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
    readings: tuple[tuple[str, str], ...] = ()


class SittingRow(NamedTuple):
    """A sitting with its askings in order."""

    id: bytes
    deck: str
    when: datetime
    goal: Mapping[str, object]
    askings: tuple[AskingRow, ...] = ()


class MemoryRow(NamedTuple):
    """A cached memory: usable only with the `weights` the caller would write.

    `seen` is how far the store had been read when it was made (see `memory.seen`).
    """

    weights: str
    seen: str
    state: str


class OpenMark(NamedTuple):
    """A mark that waits for a teacher or tutor: contested, or the marker was not sure of it."""

    learner: Learner
    asking: AskingRow
    answer: AnswerRow
