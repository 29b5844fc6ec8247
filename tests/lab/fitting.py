"""The numerical half of `calibrate`: a bounded, penalised logistic fit with believed offsets.

numpy is imported inside the functions: a sitting never comes here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from drill.memory.belief import Belief, shrink
from drill.memory.practice_counts import Tracks
from drill.memory.weights import Shape, Spread

if TYPE_CHECKING:
    import numpy as np

    Array = np.ndarray[Any, np.dtype[np.float64]]
    Mask = np.ndarray[Any, np.dtype[np.bool_]]

Log = Sequence[Sequence[Any]]
"""One learner: rows (skill, template, when, score[, floor[, weight[, probe]]]), oldest first."""

ROUNDS, FEW_ROUNDS = 4, 2
"""How often beliefs and weights take turns; few will do while the shape is still walked."""


@dataclass
class Answers:
    """All answers of all learners, learner after learner; `starts`: where each learner begins."""

    names: list[tuple[str, str]]
    starts: set[int]
    features: Array
    scores: Array
    floors: Array
    weights: Array


def gather(logs: Sequence[Log], shape: Shape) -> Answers:
    """Every answer with the features that the predictor met it with."""
    import numpy as np

    names: list[tuple[str, str]] = []
    starts, features, numbers = set(), [], []
    for log in logs:
        tracks = Tracks(shape)
        starts.add(len(names))
        for skill, template, when, score, *rest in log:
            if template is None:
                continue  # lessons are the second opinion's alone
            at = when.timestamp()
            if score is not None:
                names.append((skill, template))
                features.append(tracks.features(skill, template, at))
                floor = rest[0] if rest else 0.0
                weight = rest[1] if len(rest) > 1 else 1.0
                numbers.append((min(1.0, max(0.0, score)), floor, weight))
            tracks.happened(skill, template, at, score)
    scores, floors, weights = np.array(numbers, dtype=float).T
    return Answers(names, starts, np.array(features), scores, floors, weights)


def fit(
    answers: Answers,
    design: Array,
    start: Array,
    target: Array,
    penalty: Array,
    positive: Mask,
    spread: Spread,
    rounds: int = ROUNDS,
) -> tuple[Array, float]:
    """Weights of the design's columns and the mean penalised loss of an answer.

    Beliefs and weights take turns: beliefs are what would have been thought of the learner before
    each answer, run through the log in order, never looking ahead.
    """
    values, loss = start, 0.0
    for _ in range(rounds):
        offsets, factors = _beliefs(answers, design @ values, spread)
        scaled = design * factors[:, None]
        problem = _Problem(answers, scaled, offsets * factors, target, penalty)
        values, loss = _descend(problem, values, positive)
    return values, loss


def _beliefs(answers: Answers, logits: Array, spread: Spread) -> tuple[Array, Array]:
    """What each answer met: the believed offset, and the factor its uncertainty shrinks by."""
    import numpy as np

    offsets, factors = np.zeros(len(logits)), np.ones(len(logits))
    belief = Belief(spread)
    rows = (answers.names, logits.tolist(), answers.scores.tolist(), answers.floors.tolist())
    for place, ((skill, template), logit, score, floor) in enumerate(zip(*rows, strict=True)):
        if place in answers.starts:
            belief = Belief(spread)
        mean, variance = belief.offset(skill, template)
        offsets[place], factors[place] = mean, shrink(variance)
        belief.learn(logit, skill, template, score, floor)
    return offsets, factors


@dataclass
class _Problem:
    answers: Answers
    design: Array
    offsets: Array
    target: Array
    penalty: Array

    def at(self, values: Array) -> tuple[float, Array, Array]:
        """Mean penalised loss, its downhill slope and its curvature, for all answers together."""
        import numpy as np

        told = self.answers
        logits = np.clip(self.design @ values + self.offsets, -30.0, 30.0)
        share = np.clip(1.0 / (1.0 + np.exp(-logits)), 1e-6, 1.0 - 1e-6)
        expected = told.floors + (1.0 - told.floors) * share
        rise, noise = (1.0 - told.floors) * share * (1.0 - share), expected * (1.0 - expected)
        wrong = told.scores * np.log(expected) + (1.0 - told.scores) * np.log(1.0 - expected)
        away = values - self.target
        loss = float(-told.weights @ wrong + 0.5 * self.penalty @ (away * away))
        slope = self.design.T @ (told.weights * (told.scores - expected) * rise / noise)
        curve = (self.design * (told.weights * rise * rise / noise)[:, None]).T @ self.design
        return (
            loss / float(told.weights.sum()),
            slope - self.penalty * away,
            curve + np.diag(self.penalty),
        )


def _descend(problem: _Problem, values: Array, positive: Mask) -> tuple[Array, float]:
    """Scoring steps, halved until they help; `positive` weights stay at 0 or above."""
    import numpy as np

    loss, slope, curve = problem.at(values)
    for _ in range(40):
        free = np.flatnonzero(~(positive & (values <= 1e-9) & (slope <= 0.0)))
        step = np.zeros_like(values)
        step[free] = np.linalg.solve(curve[np.ix_(free, free)], slope[free])
        for halving in range(12):
            tried = values + step * 0.5**halving
            tried[positive] = np.maximum(tried[positive], 0.0)
            new = problem.at(tried)
            if new[0] <= loss:
                break
        else:
            break
        moved = float(np.abs(tried - values).max())
        values, (loss, slope, curve) = tried, new
        if moved < 1e-5:
            break
    return values, loss
