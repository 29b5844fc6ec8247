"""What is kept of one skill or one template for one learner: counts and fading traces."""

from __future__ import annotations

from dataclasses import dataclass, field

from drill.memory.traces import TIME_CONSTANTS, faded


def _empty() -> list[float]:
    return [0.0] * len(TIME_CONSTANTS)


@dataclass(slots=True)
class Track:
    """`time`: POSIX seconds of the last event; `cells`: the traces as they stood then."""

    wins: float = 0.0
    fails: float = 0.0
    shown: int = 0
    time: float = 0.0
    cells: list[float] = field(default_factory=_empty)

    @property
    def met(self) -> bool:
        """Whether it was ever answered (a worked answer alone does not count)."""
        return self.wins + self.fails > 0.0

    def fresh(self, when: float) -> float:
        """The trace at `when`, 0..1."""
        if when <= self.time:
            return sum(self.cells)
        return sum(
            cell * left for cell, left in zip(self.cells, faded(when - self.time), strict=True)
        )

    def add(self, when: float, amount: float, shares: tuple[float, ...]) -> None:
        """Lay down `amount` of what is missing from the trace: little right after the last time.

        This delta rule is what makes spread-out practice worth more than the same crammed.
        """
        left = faded(when - self.time) if self.time else faded(0.0)
        cells = [cell * keep for cell, keep in zip(self.cells, left, strict=True)]
        gain = amount * max(0.0, 1.0 - sum(cells))
        self.cells = [cell + gain * share for cell, share in zip(cells, shares, strict=True)]
        self.time = max(self.time, when)

    def copy(self) -> Track:
        """A track that can be tried on."""
        return Track(self.wins, self.fails, self.shown, self.time, list(self.cells))

    def to_list(self) -> list[object]:
        """Plain values for JSON."""
        return [self.wins, self.fails, self.shown, self.time, *self.cells]

    @classmethod
    def from_list(cls, row: list[float]) -> Track:
        """The reverse of `to_list`."""
        wins, fails, shown, time, *cells = row
        return cls(wins, fails, int(shown), time, [float(cell) for cell in cells])
