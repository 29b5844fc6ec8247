"""What an answer earned."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class PointMark:
    """What one marking point earned; `because`: the words that earned it, or what is missing."""

    id: str
    marks: int
    of: int
    because: str = ""
    unsure: bool = False


@dataclass(frozen=True)
class Mark:
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
