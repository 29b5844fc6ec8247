"""What is particular to one learner: how able, and how well practice and rest work for them.

The fitted weights describe an average learner. How much more or less activation, right answers,
wrong answers and days of rest count for this learner is estimated from every answer: a normal
distribution over five correlated numbers, and one more number for each skill.
Each answer moves them by its surprise (an extended Kalman step, the online form of a logistic
model with random slopes), each by its share of the uncertainty.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import pi, sqrt
from typing import Any

from drill.memory.activation import Features
from drill.memory.belief import evidence, shrink, sigmoid
from drill.memory.weights import Mechanism, Ways

SIZE = 5
Offset = tuple[float, float]
"""Mean and variance of what is added to a logit."""
_MARKS = 2.0
"""An answer tells as much as so many marks that fall by themselves."""
_DRIFT = 0.001
"""The share of the variance beforehand that comes back with each answer."""
_LEAST_GAIN, _PASSES = 0.3, 4
"""The least part of the usual gain by activation that is planned with when nobody is given up."""


class LearnerEffects:
    """Five numbers of one learner (logit, per ln(activation), right, wrong, rest), and skills."""

    def __init__(self, spread: Ways) -> None:
        self.spread = spread
        self.mean = [0.0] * SIZE
        self.cov = [
            [spread[row] if row == column else 0.0 for column in range(SIZE)] for row in range(SIZE)
        ]
        self.skills: dict[str, list[float]] = {}

    def skill(self, name: str) -> tuple[float, float]:
        """Mean and variance of how much easier the skill is to this learner than others."""
        mean, variance = self.skills.get(name, (0.0, self.spread.skill))
        return mean, variance

    def offset(self, seen: Features, skill: str) -> tuple[float, float]:
        """Mean and variance of what is added to the logit."""
        row = (1.0, *seen)
        return self._offset(row, _times(self.cov, row), skill)

    def _offset(self, row: Sequence[float], along: Sequence[float], skill: str) -> Offset:
        """The same; `along`: the covariance times the row."""
        mean, variance = self.skill(skill)
        return mean + _dot(self.mean, row), variance + _dot(along, row)

    def learn(
        self, logit: float, seen: Features, skill: str, score: float, low: float, careless: float
    ) -> None:
        """Move by the surprise of `score` (0..1).

        Args:
            logit: of an average learner.
            low: the share earned not knowing; `careless`: the share lost knowing.
        """
        row = (1.0, *seen)
        along = _times(self.cov, row)
        mean, variance = self._offset(row, along, skill)
        pull, sureness = evidence(shrink(variance) * (logit + mean), score, low, careless)
        pull, sureness = _MARKS * pull, _MARKS * sureness
        whole = 1.0 + sureness * variance
        of_skill, spread = self.skill(skill)
        narrower = spread - spread**2 * sureness / whole
        self.skills[skill] = [of_skill + spread * pull / whole, narrower]
        for place, one in enumerate(along):
            self.mean[place] += one * pull / whole
            line = self.cov[place]
            for column, two in enumerate(along):
                line[column] -= one * two * sureness / whole
            most = self.spread[place]
            line[place] = min(most, line[place] + _DRIFT * most)

    def bounded(self, middle: Mechanism) -> LearnerEffects:
        """A copy in which practice helps, to go on planning when the answers do not show this yet.

        Activation counts at least `_LEAST_GAIN` of what it does on average, right answers never
        harm, rest never helps. Where a limit changes a number, the others are changed along the
        covariance, so that predictions for answers like those seen stay much the same.
        """
        other = LearnerEffects(self.spread)
        other.mean, other.cov, other.skills = list(self.mean), self.cov, self.skills
        least = (
            (1, (_LEAST_GAIN - 1.0) * middle.gain, 1.0),
            (2, -middle.wins, 1.0),
            (4, 0.0, -1.0),
        )
        for _ in range(_PASSES):  # one shift may undo another a little
            for place, bound, sign in least:
                other._shift(place, sign * max(sign * other.mean[place], sign * bound))
        for place, bound, sign in least:
            other.mean[place] = sign * max(sign * other.mean[place], sign * bound)
        return other

    def _shift(self, place: int, to: float) -> None:
        """Change one number, and the others according to their covariance with it."""
        along, by = self.cov[place], to - self.mean[place]
        if by and along[place] > 0.0:
            pull = by / along[place]
            self.mean = [mean + pull * share for mean, share in zip(self.mean, along, strict=True)]

    def to_state(self) -> dict[str, Any]:
        """Plain values for JSON."""
        return {
            "mean": list(self.mean),
            "cov": [list(line) for line in self.cov],
            "skills": {name: list(row) for name, row in self.skills.items()},
        }

    @classmethod
    def from_state(cls, spread: Ways, state: Mapping[str, Any]) -> LearnerEffects:
        """The reverse of `to_state`."""
        learner = cls(spread)
        learner.mean = [float(number) for number in state["mean"]]
        learner.cov = [[float(number) for number in line] for line in state["cov"]]
        learner.skills = {name: [float(x) for x in row] for name, row in state["skills"].items()}
        return learner


def share_of(logit: float, variance: float, low: float, careless: float) -> float:
    """The expected share at a logit with this variance."""
    return low + (1.0 - low - careless) * known(logit, variance)


def known(logit: float, variance: float) -> float:
    """The same, guessing and careless mistakes left out."""
    return sigmoid(logit / sqrt(1.0 + pi / 8.0 * variance))


def _dot(one: Sequence[float], two: Sequence[float]) -> float:
    return sum([a * b for a, b in zip(one, two, strict=True)])


def _times(matrix: Sequence[Sequence[float]], row: Sequence[float]) -> list[float]:
    return [_dot(line, row) for line in matrix]
