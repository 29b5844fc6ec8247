"""Fitting the weights to logs of many learners: penalised, the same logs give the same weights.

The linear weights come from `fitting.py`; the shape of forgetting, which is not linear, is walked
downhill one number at a time. `fit_weights.py` of the benches ships what this finds on simulated
learners; a school may run it on its own logs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from math import log as log_of
from math import log2
from typing import TYPE_CHECKING, Any

from drill.memory.activation import Activations, ends, logit
from drill.memory.learner_effects import LearnerEffects, share_of
from drill.memory.shipped import SHIPPED
from drill.memory.weights import Level, Weights
from tests.lab.fitting import FEW_ROUNDS, ROUNDS, Answers, Log, fit, gather

if TYPE_CHECKING:
    from tests.lab.fitting import Array

Move = tuple[str, str, float, float, float]
Fit = Callable[[Sequence[Log], Weights], tuple[Weights, float]]

_TOWARDS_START = 2.0
"""Pull towards the start, as if that many answers of even chance had been seen."""
_SEARCH_LEARNERS = 60
_DECAY_HELD, _DECAY_HELD_SHORT = 0.001, 0.004
"""What twice or half the start's decay must gain per answer; more where the logs are short, as a
log of minutes says little about weeks, which is what the decay is for."""
_LONG, _ENOUGH_LONG = 86400.0, 0.05
"""Logs are short where fewer than this share of answers came so many seconds or more after the
skill was last met."""
SHAPE_MOVES: tuple[Move, ...] = (
    ("shape", "onset", 3.0, 10.0, 20000.0),
    ("shape", "decay", 1.4, 0.03, 0.9),
    ("shape", "wrong", 1.15, 0.3, 1.0),
    ("shape", "shown", 1.25, 0.1, 1.0),
)
SPREAD_MOVES: tuple[Move, ...] = (
    ("spread", "person", 1.6, 0.2, 3.0),
    ("spread", "skill", 1.6, 0.1, 3.0),
    ("spread", "template", 1.6, 0.05, 1.0),
)
"""What the walk tries: group, name, factor of a step, lowest and highest value."""
MECHANISM_MOVES: tuple[Move, ...] = (
    ("mechanism", "base", 1.5, -8.0, 8.0),
    ("mechanism", "gain", 1.3, 0.5, 60.0),
    ("mechanism", "least", 1.25, 0.02, 0.6),
    ("mechanism", "steep", 1.5, 0.02, 2.0),
    ("mechanism", "onset", 2.0, 10.0, 20000.0),
    ("mechanism", "floor", 2.0, 0.002, 0.3),
    ("mechanism", "firm", 1.6, 0.02, 2.0),
    ("mechanism", "shown", 1.2, 0.2, 1.5),
    ("mechanism", "wrong", 1.2, 0.2, 1.0),
    ("ways", "able", 1.6, 0.1, 4.0),
    ("ways", "gain", 1.8, 0.1, 10.0),
    ("ways", "skill", 1.6, 0.1, 4.0),
)
"""The same for the activation model. Guesses and carelessness are left as set, and so is how far
learners lie apart in what right and wrong answers and rest do: half a squared logit each, wider
than the simulated families are."""


def calibrate(
    logs: Iterable[Iterable[Sequence[Any]]],
    start: Weights = SHIPPED,
    easiness: bool = True,
    moves: Sequence[Move] = (*SHAPE_MOVES, *SPREAD_MOVES),
) -> Weights:
    """Weights fitted to the logs, kept near `start` where the logs say little.

    Args:
        logs: per learner a list of (skill, template, when, score[, floor[, weight]]), oldest
            first; `when` is an aware datetime, `score` a share 0..1 or None for an exposure; a
            lesson in class has neither template nor score.
        start: what the fit begins at and is drawn towards.
        easiness: whether skills and templates get an easiness of their own.
        moves: which numbers of shape and spread are fitted too; none is much faster.
    """
    told: list[Log] = [list(log) for log in logs]
    if not any(row[3] is not None for log in told for row in log):
        return start

    held = _DECAY_HELD if _reach_days(told) else _DECAY_HELD_SHORT

    def first(some: Sequence[Log], weights: Weights) -> tuple[Weights, float]:
        found, loss = fit_first(some, weights, start, easiness, FEW_ROUNDS)
        doublings = log2(found.shape.decay / start.shape.decay)
        return found, loss + held * doublings**2

    some = told[:: max(1, len(told) // _SEARCH_LEARNERS)]
    weights = walk(some, start, moves, first) if moves else start
    weights, _ = fit_first(told, weights, start, easiness)
    return fit_second(some, weights)


def _reach_days(logs: Iterable[Log]) -> bool:
    """Whether enough answers came long after the skill was last met."""
    long = answers = 0
    for log in logs:
        last: dict[str, float] = {}
        for skill, _, when, score, *_ in log:
            at = when.timestamp()
            if score is not None:
                answers += 1
                long += at - last.get(skill, at) >= _LONG
            last[skill] = at
    return long >= _ENOUGH_LONG * answers


def walk(
    logs: Sequence[Log],
    weights: Weights,
    moves: Sequence[Move],
    fitted: Fit,
    paces: Sequence[float] = (1.0, 0.5),
) -> Weights:
    """Downhill one number at a time, once round for each pace: 1 is a whole step of the moves."""
    best, loss = fitted(logs, weights)
    for pace in paces:
        for move in moves:
            for factor in (move[2] ** pace, move[2] ** -pace):
                while True:
                    tried = _moved(best, move, factor)
                    found, new = fitted(logs, tried) if tried is not best else (best, loss)
                    if new >= loss - 1e-5:
                        break
                    best, loss = found, new
    return best


def _moved(weights: Weights, move: Move, factor: float) -> Weights:
    group_name, name, _, low, high = move
    group = getattr(weights, group_name)
    before = getattr(group, name)
    value = before + log2(factor) if name == "base" else before * factor  # a logit is added to
    value = min(high, max(low, value))
    if value == getattr(group, name):
        return weights
    return weights._replace(**{group_name: group._replace(**{name: value})})


def fit_first(
    logs: Sequence[Log],
    weights: Weights,
    start: Weights,
    easiness: bool,
    rounds: int = ROUNDS,
) -> tuple[Weights, float]:
    """The predictor's linear weights for the given shape, and the mean loss of an answer."""
    import numpy as np

    answers = gather(logs, weights.shape)
    skills = sorted({skill for skill, _ in answers.names}) if easiness else []
    templates = sorted({template for _, template in answers.names}) if easiness else []
    design = _design(answers, skills, templates)
    linear = answers.features.shape[1]
    penalty = np.r_[0.1, np.full(linear - 1, _TOWARDS_START), np.ones(design.shape[1] - linear)]
    positive = np.zeros(design.shape[1], dtype=bool)
    positive[1:linear] = True
    values, target = (_packed(known, skills, templates) for known in (weights, start))
    values, loss = fit(answers, design, values, target, penalty, positive, weights.spread, rounds)
    return _unpacked(weights, values.tolist(), skills, templates), loss


def _design(answers: Answers, skills: list[str], templates: list[str]) -> Array:
    """The features, then a column per skill and per template."""
    import numpy as np

    blocks = [answers.features]
    for column, names in enumerate((skills, templates)):
        place = {name: number for number, name in enumerate(names)}
        block = np.zeros((len(answers.names), len(names)))
        if names:
            block[np.arange(len(block)), [place[pair[column]] for pair in answers.names]] = 1.0
        blocks.append(block)
    return np.hstack(blocks)


def _packed(weights: Weights, skills: list[str], templates: list[str]) -> Array:
    import numpy as np

    easy = [weights.skills.get(name, 0.0) for name in skills]
    easy += [weights.templates.get(name, 0.0) for name in templates]
    return np.array([*weights.vector(), *easy])


def _unpacked(
    weights: Weights, values: list[float], skills: list[str], templates: list[str]
) -> Weights:
    linear, cut = 9, 9 + len(skills)
    return weights._replace(
        base=values[0],
        skill=Level(*values[1:5]),
        template=Level(*values[5:linear]),
        skills={**weights.skills, **dict(zip(skills, values[linear:cut], strict=True))},
        templates={**weights.templates, **dict(zip(templates, values[cut:], strict=True))},
    )


def fit_second(
    logs: Sequence[Log], weights: Weights, paces: Sequence[float] = (1.0, 0.5)
) -> Weights:
    """The second opinion's numbers, walked downhill from where they are (see `walk`)."""
    return walk(logs, weights, MECHANISM_MOVES, lambda told, w: (w, loss(told, w)), paces)


def loss(logs: Sequence[Log], weights: Weights) -> float:
    """The second opinion's mean loss of an answer, each told before the learner is learned from.

    A row with a seventh value that is true is a probe: it is predicted and never told.
    """
    total = whole = 0.0
    for log in logs:
        lessons = {row[0]: row[2].timestamp() for row in log if row[1] is None}
        activations = Activations(weights.mechanism, lessons)
        learner = LearnerEffects(weights.ways)
        for skill, template, when, score, *rest in log:
            if template is None:
                continue
            at = when.timestamp()
            if score is not None:
                seen = activations.features(skill, at)
                low, careless = ends(weights.mechanism, rest[0] if rest else 0.0)
                middle = logit(weights.mechanism, seen) + _easy(weights, skill, template)
                mean, variance = learner.offset(seen, skill)
                share = min(1.0 - 1e-4, max(1e-4, share_of(middle + mean, variance, low, careless)))
                weight = rest[1] if len(rest) > 1 else 1.0
                total -= weight * (score * log_of(share) + (1.0 - score) * log_of(1.0 - share))
                whole += weight
                if len(rest) > 2 and rest[2]:
                    continue
                learner.learn(middle, seen, skill, score, low, careless)
            activations.practised(skill, at, score)
    return total / max(1e-9, whole)


def _easy(weights: Weights, skill: str, template: str) -> float:
    return weights.skills.get(skill, 0.0) + weights.templates.get(template, 0.0)
