"""What is kept of each skill and each template: counts and a fading trace, never the answers."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log1p

from drill.memory.power_law import CELLS, TIME_CONSTANTS, faded, power_shares
from drill.memory.weights import Shape

CountsRow = list[float]
DIGITS = 8
"""Cells are kept to so many places: enough by far, and a state half as long when written down."""


class Track:
    """`time`: POSIX seconds of the last event; `cells`: the trace as it stood just after it."""

    __slots__ = ("cells", "fails", "shown", "time", "wins")

    def __init__(
        self,
        wins: float = 0.0,
        fails: float = 0.0,
        shown: float = 0.0,
        time: float = 0.0,
        cells: Sequence[float] = (0.0,) * CELLS,
    ) -> None:
        self.wins, self.fails, self.shown, self.time = wins, fails, shown, time
        self.cells = list(cells)

    @property
    def met(self) -> bool:
        """Whether it was ever answered; a worked answer alone does not count."""
        return self.wins + self.fails > 0.0

    def fresh(self, at: float) -> float:
        """The trace at `at`, 0..1."""
        lag = at - self.time
        if lag <= 0.0:
            return sum(self.cells)
        return sum([cell * exp(-lag / tau) for cell, tau in zip(self.cells, TIME_CONSTANTS)])  # noqa: B905  (half the time of strict)

    def lay(self, at: float, amount: float, shares: tuple[float, ...]) -> None:
        """Add `amount` of what the trace lacks: little right after the last time, more later.

        This delta rule makes spread-out practice worth more than the same practice crammed.
        """
        cells = faded(self.cells, at - self.time) if self.time else self.cells
        gain = amount * max(0.0, 1.0 - sum(cells))
        self.cells = [
            round(cell + gain * share, DIGITS) for cell, share in zip(cells, shares, strict=True)
        ]
        self.time = max(self.time, at)

    def features(self, at: float) -> tuple[float, float, float, float]:
        """What `Level` weighs: ln(1 + answers), ln(1 + right), ln(1 + shown), trace."""
        return (
            log1p(self.wins + self.fails),
            log1p(self.wins),
            log1p(self.shown),
            self.fresh(at),
        )

    def to_row(self) -> CountsRow:
        """Plain numbers for JSON."""
        return [self.wins, self.fails, self.shown, self.time, *self.cells]

    @classmethod
    def from_row(cls, row: CountsRow) -> Track:
        """The reverse of `to_row`."""
        wins, fails, shown, time, *cells = (float(number) for number in row)
        return cls(wins, fails, shown, time, cells)


_NOTHING = Track()
_NO_TEMPLATE = (0.0, 0.0, 0.0, 0.0)


class Tracks:
    """The tracks of one learner. The weights of the predictor play no part here."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        self.skills: dict[str, Track] = {}
        self.templates: dict[str, Track] = {}
        self.shares = power_shares(shape.onset, shape.decay)

    def features(self, skill: str, template: str | None, at: float) -> tuple[float, ...]:
        """1, four features of the skill, four of the template (zeros for one never asked)."""
        of_skill = self.skills.get(skill, _NOTHING).features(at)
        if template is None or template not in self.templates:
            return (1.0, *of_skill, *_NO_TEMPLATE)
        return (1.0, *of_skill, *self.templates[template].features(at))

    def happened(self, skill: str, template: str, at: float, score: float | None) -> None:
        """An answer that earned the share `score`, or (None) a worked answer that was seen."""
        shape = self.shape
        amount = shape.shown if score is None else score + (1.0 - score) * shape.wrong
        for track in (
            self.skills.setdefault(skill, Track()),
            self.templates.setdefault(template, Track()),
        ):
            track.lay(at, amount, self.shares)
            if score is None:
                track.shown += 1.0
            else:
                track.wins += score
                track.fails += 1.0 - score
