"""Estimates for one learner beyond counts: how able, and which skills come easier.

Three normal beliefs (learner, skill, template) are added up; each answer moves them by its
surprise, each by its share of the uncertainty, and narrows them. This is the online form of a
logistic model with random effects. It acts like a rating that moves less the more is known, but
the size of a step follows from the variance between learners instead of being chosen.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, pi, sqrt
from typing import Any

from drill.memory.weights import Spread


def sigmoid(logit: float) -> float:
    """1 / (1 + e^-logit), safe for any logit."""
    return 1.0 / (1.0 + exp(-logit)) if logit > -700.0 else 0.0


def shrink(variance: float) -> float:
    """The factor on a logit that averages over its uncertainty (probit approximation)."""
    return 1.0 / sqrt(1.0 + pi / 8.0 * variance)


class Belief:
    """The three beliefs of one learner: [mean, variance] each, in logits."""

    def __init__(self, spread: Spread) -> None:
        self.spread = spread
        self.person = [0.0, spread.person]
        self.skills: dict[str, list[float]] = {}
        self.templates: dict[str, list[float]] = {}

    def offset(self, skill: str, template: str | None) -> tuple[float, float]:
        """Mean and variance of the sum; for a template never asked its spread still counts."""
        mean, variance = self.person
        of_skill = self.skills.get(skill)
        mean += of_skill[0] if of_skill else 0.0
        variance += of_skill[1] if of_skill else self.spread.skill
        of_template = self.templates.get(template) if template is not None else None
        mean += of_template[0] if of_template else 0.0
        return mean, variance + (of_template[1] if of_template else self.spread.template)

    def share(self, logit: float, skill: str, template: str | None) -> float:
        """The expected share at `logit` plus these beliefs, guessing left out."""
        mean, variance = self.offset(skill, template)
        return sigmoid((logit + mean) * shrink(variance))

    def learn(self, logit: float, skill: str, template: str, score: float, floor: float) -> None:
        """Move by the surprise of `score` (0..1), where guessing alone earns `floor`."""
        spread = self.spread
        parts = (
            (self.person, spread.person),
            (self.skills.setdefault(skill, [0.0, spread.skill]), spread.skill),
            (self.templates.setdefault(template, [0.0, spread.template]), spread.template),
        )
        mean, variance = self.offset(skill, template)
        pull, sureness = evidence((logit + mean) * shrink(variance), score, floor)
        whole = 1.0 + sureness * variance
        for part, most in parts:
            part[0] += part[1] / whole * pull
            part[1] -= part[1] * part[1] * sureness / whole
            part[1] = min(most, part[1] + spread.drift * most)

    def to_state(self) -> dict[str, Any]:
        """Plain values for JSON."""
        return {
            "person": list(self.person),
            "skills": {name: list(row) for name, row in self.skills.items()},
            "templates": {name: list(row) for name, row in self.templates.items()},
        }

    @classmethod
    def from_state(cls, spread: Spread, state: Mapping[str, Any]) -> Belief:
        """The reverse of `to_state`."""
        belief = cls(spread)
        belief.person = [float(number) for number in state["person"]]
        for kind in ("skills", "templates"):
            rows = {name: [float(x) for x in row] for name, row in state[kind].items()}
            setattr(belief, kind, rows)
        return belief


def evidence(
    logit: float, score: float, floor: float, careless: float = 0.0
) -> tuple[float, float]:
    """Slope and curvature of the log-likelihood of `score` in the logit.

    `floor`: the share earned not knowing; `careless`: the share lost knowing.
    """
    share = min(1.0 - 1e-6, max(1e-6, sigmoid(logit)))
    reach = 1.0 - floor - careless
    expected = floor + reach * share
    slope = reach * share * (1.0 - share)
    noise = expected * (1.0 - expected)
    return (score - expected) * slope / noise, slope * slope / noise
