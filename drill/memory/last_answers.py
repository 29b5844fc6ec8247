"""How the last answers to each skill went, for the rules on repeating, showing and teacher help.

Probabilities say what to expect; these few values say what happened last. They are stored too, so
that the rules of planning work in the same way after the program is started again.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

MISSED = 0.5
"""An answer that earns less than this share of its marks was missed."""
TEACHER_AFTER = 4
"""So many misses in a row, and a teacher should show it; said once of a skill."""

CERTAIN_BACK = 20 * 3600.0
"""Seconds until a certain but wrong answer comes back; what is answered before does not settle it,
since such an error returns when its correction is forgotten."""


class LastAnswers(NamedTuple):
    """One skill. Moments are POSIX seconds, 0: never.

    `answers`: how many; `missed`: misses in a row, 0 after any better answer; `last`: the latest
    answer; `shown`: a worked answer seen since then; `told`: when the run of misses first grew
    to `TEACHER_AFTER`; `certain`: an answer that was certain and wrong and waits to come back.
    """

    answers: float = 0.0
    missed: float = 0.0
    last: float = 0.0
    shown: float = 0.0
    told: float = 0.0
    certain: float = 0.0

    def answered(self, at: float, score: float, certain_error: bool) -> LastAnswers:
        """As they are after one more answer."""
        missed = self.missed + 1.0 if score < MISSED else 0.0
        told = self.told or (at if missed >= TEACHER_AFTER else 0.0)
        waits = 0.0 < at - self.certain < CERTAIN_BACK
        certain = at if certain_error else self.certain if waits else 0.0
        return LastAnswers(self.answers + 1.0, missed, at, 0.0, told, certain)

    def owed(self, at: float) -> bool:
        """Whether a certain but wrong answer is due."""
        return 0.0 < self.certain <= at - CERTAIN_BACK

    def missed_before(self, at: float) -> bool:
        """Whether the last answer was a miss, and before `at`."""
        return self.missed > 0.0 and self.last <= at

    def exposed(self, at: float) -> LastAnswers:
        """As they are after a worked answer."""
        return self._replace(shown=at)


def from_rows(rows: Mapping[str, Sequence[float]]) -> dict[str, LastAnswers]:
    """The reverse of writing each down as a list, for JSON."""
    return {skill: LastAnswers(*map(float, row)) for skill, row in rows.items()}
