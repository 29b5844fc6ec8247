"""What an answer earned."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct

LONGEST_REPLY = 400
"""Characters of the line that a teacher or tutor writes to a learner about a mark."""


class PointMark(Struct, frozen=True):
    """What one marking point earned; `because`: the words that earned it, or what is missing."""

    id: str
    marks: int
    of: int
    because: str = ""
    unsure: bool = False


class Shares(NamedTuple):
    """A mark taken apart: what was marked, and what learners decided themselves; never added."""

    marks: int
    of: int
    own: int
    own_of: int


class Mark(Struct, frozen=True):
    """The verdict on one part.

    `value` is what was read, in the part's unit, for carrying forward; `carried` says that the key
    was worked again from the learner's own earlier value; `readable` False means "type it again";
    `self_marked` True keeps it out of every automatic figure.
    """

    marks: int
    of: int
    points: tuple[PointMark, ...]
    says: str
    slip: str | None = None
    readable: bool = True
    value: Fraction | None = None
    carried: bool = False
    self_marked: bool = False

    @property
    def unsure(self) -> tuple[str, ...]:
        return tuple(point.id for point in self.points if point.unsure)

    def shares(self, decided: Collection[str] = ()) -> Shares:
        """The mark without the points the learner decided, and those alone.

        An extended answer is all the learner's, and nothing until they have set its mark.
        """
        if self.self_marked:
            return Shares(0, 0, 0, 0) if self.unsure else Shares(0, 0, self.marks, self.of)
        theirs = [point for point in self.points if point.id in decided]
        of = max(0, self.of - sum(point.of for point in theirs))
        marks = max(0, min(of, self.marks - sum(point.marks for point in theirs)))
        return Shares(marks, of, self.marks - marks, self.of - of)
