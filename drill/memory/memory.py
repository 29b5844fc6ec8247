"""What a learner is expected to earn on a skill, now and later: the predictor.

A logistic model over ability, difficulty, wins, fails and a smoothly fading trace, for the skill
and for the very template. It is updated answer by answer; nothing of the past is read again.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from math import exp, log1p
from typing import Any

from drill.memory.shipped import SHIPPED
from drill.memory.traces import power_shares
from drill.memory.track import Track
from drill.memory.weights import Level, Weights

_NOTHING = Track()


class Memory:
    """One learner's memory. Times are aware datetimes; a lag below 0 counts as 0."""

    def __init__(self, weights: Weights = SHIPPED) -> None:
        self.weights = weights
        self.ability = 0.0
        self.answers = 0
        self._shares = power_shares(weights.onset, weights.decay)
        self._skills: dict[str, Track] = {}
        self._templates: dict[str, Track] = {}

    # ---------------------------------------------------------------- what happened

    def observe(
        self, skill: str, template: str, when: datetime, score: float, floor: float = 0.0
    ) -> None:
        """An answer: `score` is the share of marks 0..1, `floor` the share guessing earns."""
        score = min(1.0, max(0.0, score))
        at = when.timestamp()
        self._learn_ability(score - self._chance(skill, template, at, floor))
        amount = score + (1.0 - score) * self.weights.after_fail
        for track in self._tracks(skill, template):
            track.add(at, amount, self._shares)
            track.wins += score
            track.fails += 1.0 - score

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer seen, nothing answered."""
        for track in self._tracks(skill, template):
            track.add(when.timestamp(), self.weights.after_shown, self._shares)
            track.shown += 1

    def _learn_ability(self, surprise: float) -> None:
        step = self.weights.step / (1.0 + self.weights.settle * self.answers)
        self.ability += step * surprise
        self.answers += 1

    def _tracks(self, skill: str, template: str) -> tuple[Track, Track]:
        return (
            self._skills.setdefault(skill, Track()),
            self._templates.setdefault(template, Track()),
        )

    # ---------------------------------------------------------------- what to expect

    def chance(self, skill: str, template: str | None, when: datetime) -> float:
        """The expected share of marks at `when`; template None is one never asked."""
        return self._chance(skill, template, when.timestamp())

    def _chance(self, skill: str, template: str | None, at: float, floor: float = 0.0) -> float:
        weights = self.weights
        logit = weights.base + self.ability + weights.skills.get(skill, 0.0)
        logit += _level(weights.skill, self._skills.get(skill, _NOTHING), at)
        if template is not None:
            logit += weights.templates.get(template, 0.0)
            logit += _level(weights.template, self._templates.get(template, _NOTHING), at)
        return floor + (1.0 - floor) / (1.0 + exp(-max(-30.0, min(30.0, logit))))

    def gain(self, skill: str, now: datetime, exam: datetime) -> float:
        """By how much one asking now is expected to raise the chance at `exam`."""
        return self.chance_after(skill, now, exam, 1) - self.chance(skill, None, exam)

    def chance_after(self, skill: str, now: datetime, exam: datetime, times: int) -> float:
        """The chance at `exam` after `times` askings spread evenly from now, as they may turn out.

        Each asking is taken to earn its expected share.
        """
        track = self._skills.get(skill, _NOTHING).copy()
        start, end = now.timestamp(), exam.timestamp()
        for turn in range(times):
            at = start + (end - start) * turn / times
            share = self._share_of(skill, track, at)
            track.add(at, share + (1.0 - share) * self.weights.after_fail, self._shares)
            track.wins += share
            track.fails += 1.0 - share
        return self._share_of(skill, track, end)

    def _share_of(self, skill: str, track: Track, at: float) -> float:
        logit = self.weights.base + self.ability + self.weights.skills.get(skill, 0.0)
        logit += _level(self.weights.skill, track, at)
        return 1.0 / (1.0 + exp(-max(-30.0, min(30.0, logit))))

    def track(self, skill: str) -> Track | None:
        """What is kept of a skill; None when it was never met or shown."""
        return self._skills.get(skill)

    # ---------------------------------------------------------------- keeping it

    def to_state(self) -> dict[str, Any]:
        """Everything as plain values, for JSON."""
        return {
            "ability": self.ability,
            "answers": self.answers,
            "skills": {name: track.to_list() for name, track in self._skills.items()},
            "templates": {name: track.to_list() for name, track in self._templates.items()},
        }

    @classmethod
    def from_state(cls, state: Mapping[str, Any], weights: Weights = SHIPPED) -> Memory:
        """The memory that `to_state` wrote down."""
        memory = cls(weights)
        memory.ability = float(state["ability"])
        memory.answers = int(state["answers"])
        memory._skills = {name: Track.from_list(row) for name, row in state["skills"].items()}
        memory._templates = {name: Track.from_list(row) for name, row in state["templates"].items()}
        return memory


def _level(weight: Level, track: Track, at: float) -> float:
    return (
        weight.wins * log1p(track.wins)
        + weight.fails * log1p(track.fails)
        + weight.shown * log1p(track.shown)
        + weight.fresh * track.fresh(at)
    )
