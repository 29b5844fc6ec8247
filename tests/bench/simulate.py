"""Simulated learners of six families, and the logs of varied practice they leave.

They stand in for people where shipped weights are fitted: nobody's real log is in them. Each
family's middle values are least-squares fits to the recall table of Cepeda, Vul, Rohrer, Wixted &
Pashler (2008), Psychological Science 19(11), 1095-1102; forms and sources:

    activation   Pavlik & Anderson (2005), Cognitive Science 29, 559-586
    multiscale   Mozer, Pashler, Cepeda, Lindsey & Vul (2009), NeurIPS 22
    delta        a power-law trace with a delta rule on its strength
    predictive   Walsh et al. (2018), Cognitive Science 42(S3), 644-691
    half-life    after Settles & Meeder (2016), ACL, P16-1174
    procedure    practice gain and forgetting without any benefit of spacing, as in
                 Ebersbach & Barzagar Nazari (2020), Frontiers in Psychology 11:811
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol

DAY = 86400.0
ANSWER_SHOWN = 60.0
"""Activation and predictive learners were fitted with two events a session: here the try and,
a minute later, the answer shown."""


class Process(Protocol):
    """How one skill's strength comes and goes: its logit at a time, and what practice does."""

    def logit(self, at: float) -> float: ...

    def practise(self, at: float, right: float, amount: float) -> None: ...


class Activation:
    """ACT-R: each trace keeps the decay it was laid down with, steeper the more active it was."""

    def __init__(self, rng: random.Random) -> None:
        self.a, self.c = 0.01845 * vary(rng), 0.24221 * vary(rng)
        self.s, self.h = 0.02499 * 1.3 * vary(rng), 7.4018
        self.tau = -0.26819
        self.traces: list[tuple[float, float, float]] = []

    def strength(self, at: float) -> float:
        return sum(b * max(1.0, self.h * (at - then)) ** -decay for then, decay, b in self.traces)

    def logit(self, at: float) -> float:
        total = self.strength(at)
        return (math.log(total) - self.tau) / self.s if total > 0.0 else -math.inf

    def practise(self, at: float, right: float, amount: float) -> None:
        share = 0.95 + 0.05 * amount * (1.0 if right > 0.5 else 0.9)
        for moment in (at, at + ANSWER_SHOWN):
            self.traces.append((moment, self.c * self.strength(moment) + self.a, share))


class Multiscale:
    """MCM: leaky integrators of many time scales that learn from each other's error."""

    N = 40

    def __init__(self, rng: random.Random) -> None:
        spread = 1.0447 ** (100 / self.N)
        self.tau = [10.186 * vary(rng) * DAY * spread**i for i in range(self.N)]
        weights = [0.9806 ** (i * 100 / self.N) for i in range(self.N)]
        self.gamma = [weight / sum(weights) for weight in weights]
        self.omega = 0.8811
        self.x = [0.0] * self.N
        self.time = 0.0

    def _faded(self, at: float) -> list[float]:
        lag = max(0.0, at - self.time)
        return [x * math.exp(-lag / tau) for x, tau in zip(self.x, self.tau, strict=True)]

    def logit(self, at: float) -> float:
        s = sum(g * x for g, x in zip(self.gamma, self._faded(at), strict=True))
        return logit(min(0.98, max(1e-4, s)))

    def practise(self, at: float, right: float, amount: float) -> None:
        eps = (9.0 if right > 0.5 else 1.0) * self.omega * amount
        x, total, weight = self._faded(at), 0.0, 0.0
        for i, gamma in enumerate(self.gamma):
            total, weight = total + gamma * x[i], weight + gamma
            x[i] += eps * max(0.0, 1.0 - total / weight)
        self.x, self.time = x, max(self.time, at)


class Delta:
    """A power-law trace; each practice adds a share of what is missing."""

    def __init__(self, rng: random.Random) -> None:
        self.delta, self.d = 0.49308 * vary(rng), 0.18529 * vary(rng)
        self.onset, self.theta, self.sigma = 0.00038 * DAY, 0.14088, 0.02242 * 1.4
        self.traces: list[tuple[float, float]] = []

    def strength(self, at: float) -> float:
        return sum(u * (1.0 + max(0.0, at - t) / self.onset) ** -self.d for t, u in self.traces)

    def logit(self, at: float) -> float:
        return (self.strength(at) - self.theta) / self.sigma if self.traces else -math.inf

    def practise(self, at: float, right: float, amount: float) -> None:
        size = 1.0 if not self.traces else self.delta * max(0.0, 1.0 - self.strength(at))
        self.traces.append((at, size * amount * (1.0 if right > 0.5 else 0.9)))


class Predictive:
    """PPE: odds from number of practices, a weighted age and a decay that spacing lowers."""

    def __init__(self, rng: random.Random) -> None:
        self.b, self.m = 0.05419 * vary(rng), 0.11916 * vary(rng)
        self.tau, self.s = 0.37293, 0.02399 * 1.3
        self.times: list[float] = []
        self.n = 0.0
        self.stability = 0.0

    def logit(self, at: float) -> float:
        if not self.times:
            return -math.inf
        ages = [max(1.0, at - then) for then in self.times]
        weights = [age**-0.6 for age in ages]
        mean = sum(w * age for w, age in zip(weights, ages, strict=True)) / sum(weights)
        gaps = len(self.times) - 1
        decay = self.b + self.m * (self.stability / gaps if gaps else 0.0)
        return (self.n**0.1 * mean**-decay - self.tau) / self.s

    def practise(self, at: float, right: float, amount: float) -> None:
        for moment in (at, at + ANSWER_SHOWN):
            if self.times:
                self.stability += 1.0 / math.log(max(0.0, moment - self.times[-1]) + math.e)
            self.times.append(moment)
            self.n += amount * (1.0 if right > 0.5 else 0.8)


class HalfLife:
    """An exponential whose half-life grows with each right answer, whatever the lag was."""

    def __init__(self, rng: random.Random) -> None:
        self.half, self.first = 0.0, 2.5 * DAY * vary(rng)
        self.grow, self.shrink = 2.0 * vary(rng), 0.7
        self.time = 0.0

    def logit(self, at: float) -> float:
        if self.half == 0.0:
            return -math.inf
        share = 2.0 ** (-max(0.0, at - self.time) / self.half)
        return logit(min(0.98, max(0.005, share)))

    def practise(self, at: float, right: float, amount: float) -> None:
        if self.half == 0.0:
            self.half = self.first * amount
        else:
            self.half *= (self.grow if right > 0.5 else self.shrink) ** amount
        self.half = min(self.half, 400 * DAY)
        self.half, self.time = max(0.3 * DAY, self.half), max(self.time, at)


class Procedure:
    """A way of working: better with each practice, slowly rusting, spacing of no use."""

    def __init__(self, rng: random.Random) -> None:
        self.gain, self.rust = 1.2 * vary(rng), 0.35 * vary(rng)
        self.n, self.time = 0.0, 0.0

    def logit(self, at: float) -> float:
        if self.n == 0.0:
            return -math.inf
        lag = max(0.0, at - self.time)
        return -0.6 + self.gain * math.log1p(self.n) - self.rust * math.log1p(lag / (0.2 * DAY))

    def practise(self, at: float, right: float, amount: float) -> None:
        self.n += amount * (1.0 if right > 0.5 else 0.7)
        self.time = max(self.time, at)


FAMILIES: dict[str, Callable[[random.Random], Process]] = {
    "activation": Activation,
    "multiscale": Multiscale,
    "delta": Delta,
    "predictive": Predictive,
    "half-life": HalfLife,
    "procedure": Procedure,
}
PERSON_SD, SKILL_SD, TEMPLATE_SD = 0.7, 1.0, 0.4


def vary(rng: random.Random) -> float:
    """A factor near 1: every learner and skill is a little different."""
    return math.exp(rng.gauss(0.0, 0.15))


def logit(p: float) -> float:
    return math.log(p / (1.0 - p))


def sigmoid(z: float) -> float:
    return 1.0 / (1.0 + math.exp(-max(-30.0, min(30.0, z))))


@dataclass
class SkillMind:
    """One skill in a learner's head: the family's process, how easy it is, its templates."""

    process: Process
    offset: float
    tries: dict[str, float] = field(default_factory=dict)
    easiness: dict[str, float] = field(default_factory=dict)


class Learner:
    """One simulated learner. Times are seconds; answers are shares of a few marks.

    `transfer` below 1 makes a template never asked harder than one practised, by up to 2 logits;
    `steep` flattens the family's curve, since it was fitted to group means of easy facts.
    """

    def __init__(self, family: str, seed: int) -> None:
        self.rng = random.Random(f"{family} {seed}")
        self.family, self.seed = family, seed
        self.person = self.rng.gauss(0.0, PERSON_SD) - self.rng.uniform(0.0, 1.5)
        self.transfer = self.rng.uniform(0.55, 0.95)
        self.careless = self.rng.uniform(0.02, 0.1)
        self.guess = self.rng.uniform(0.0, 0.1)
        self.lesson = self.rng.uniform(0.4, 1.0)
        self.steep = self.rng.uniform(0.4, 1.0)
        self.skills: dict[str, SkillMind] = {}

    def teach(self, skill: str, at: float) -> None:
        """A lesson in class: a practice of the skill that nobody sees."""
        process = FAMILIES[self.family](random.Random(f"{self.seed} {skill}"))
        self.skills[skill] = SkillMind(process, self.rng.gauss(0.0, SKILL_SD))
        process.practise(at, 0.0, self.lesson)

    def chance(self, skill: str, template: str | None, at: float, floor: float = 0.0) -> float:
        """The true expected share; template None: one never asked."""
        mind = self.skills[skill]
        z = self.steep * mind.process.logit(at) + self.person + mind.offset
        tries = mind.tries.get(template, 0.0) if template else 0.0
        z -= 2.0 * (1.0 - self.transfer) * 0.5**tries
        z += mind.easiness.get(template, 0.0) if template else 0.0
        low = max(floor, self.guess)
        return low + (1.0 - low - self.careless) * sigmoid(z)

    def answer(self, skill: str, template: str, at: float, marks: int, floor: float) -> float:
        """Try a question; its answer is then shown, so a failure teaches too."""
        mind = self.skills[skill]
        if template not in mind.easiness:
            mind.easiness[template] = self.rng.gauss(0.0, TEMPLATE_SD)
        p = self.chance(skill, template, at, floor)
        share = sum(self.rng.random() < p for _ in range(marks)) / marks
        mind.process.practise(at, share, 1.0)
        self._familiar(mind, template, 1.0)
        return share

    def see(self, skill: str, template: str, at: float) -> None:
        """A worked answer: as good as a failed try with its correction, a little less taken in."""
        mind = self.skills[skill]
        mind.process.practise(at, 0.0, self.lesson)
        self._familiar(mind, template, 0.5)

    def _familiar(self, mind: SkillMind, template: str, amount: float) -> None:
        mind.tries[template] = mind.tries.get(template, 0.0) + amount
