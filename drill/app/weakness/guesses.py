"""Whether a learner guesses when unsure, told from what was said and how fast it was typed.

Guesses are told from answers by their speed: S. L. Wise & X. Kong (2005), Response time effort,
Applied Measurement in Education 18(2), 163-183 (from memory).
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from drill.app.chance import by_chance

if TYPE_CHECKING:
    from drill.app.weakness.part_answers import PartAnswer

_FAST, _KNOWN = 1.0 / 3.0, 5
"""An answer is fast that took less than this part of what right answers of its kind usually take
this learner; so many right ones are needed to know that."""
_LEAST, _DAYS = 6, 2


@dataclass(frozen=True)
class Guesses:
    """`times` of the `lost` answers that lost marks, of all `answers`, were guesses.

    `said` of them were called guesses, the others were only typed too fast; `right` were called
    guesses and earned every mark. `latest`: the last one whose question is known. `passes` beside
    them; `skills`: guessed most often first.
    """

    times: int
    lost: int
    passes: int
    latest: PartAnswer
    skills: tuple[str, ...]
    said: int
    right: int
    answers: int


def guesses(rows: Sequence[PartAnswer]) -> Guesses | None:
    """The guesses of a learner who guesses more often than not when unsure, else None.

    More often than not by more than chance: 25 of 45 may be as many as any other way.

    A guess is an answer that lost marks and was called a guess, or typed too fast to be anything
    else.
    """
    lost = [row for row in rows if row.of and row.typed and not (row.is_right or row.passed)]
    usual = _usual(rows)
    found = [row for row in lost if row.sure == "guess" or _fast(row, usual)]
    days = len({row.when.date() for row in found})
    if len(found) < _LEAST or days < _DAYS or by_chance(len(found), len(lost), 0.5, 1):
        return None
    often = Counter(row.skill for row in found)
    return Guesses(
        times=len(found),
        lost=len(lost),
        passes=sum(row.passed for row in rows),
        latest=max(found, key=lambda row: (bool(row.ask), row.when)),
        skills=tuple(sorted(often, key=lambda skill: (-often[skill], skill))),
        said=sum(row.sure == "guess" for row in found),
        right=sum(row.sure == "guess" and row.is_right for row in rows),
        answers=sum(bool(row.of and row.typed) and not row.passed for row in rows),
    )


def _usual(rows: Sequence[PartAnswer]) -> dict[str, float]:
    """{kind of part: the seconds that right answers took, where there are enough}."""
    took: dict[str, list[float]] = defaultdict(list)
    for row in rows:
        if row.is_right and row.seconds > 0.0:
            took[row.kind].append(row.seconds)
    return {kind: median(some) for kind, some in took.items() if len(some) >= _KNOWN}


def _fast(row: PartAnswer, usual: dict[str, float]) -> bool:
    return 0.0 < row.seconds < _FAST * usual.get(row.kind, 0.0)
