"""The share of marks a learner is expected to earn on a skill, now and at any later time.

A logistic model over difficulty, the learner's ability, wins, fails and a smoothly fading trace,
for the skill and for the very template. It is updated answer by answer; nothing of the past is
read again, so an update costs the same after ten answers as after a hundred thousand.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from datetime import datetime
from typing import Any

from drill.memory.activation import Activations, ends, logit
from drill.memory.belief import Belief
from drill.memory.last_answers import LastAnswers, from_rows
from drill.memory.learner_effects import LearnerEffects, share_of
from drill.memory.practice_counts import Track, Tracks
from drill.memory.shipped import SHIPPED
from drill.memory.weights import Weights

STATE_FORM = 4
"""One more whenever `to_state` gives other keys, so that a kept state of old is not read."""


class Memory:
    """One learner's memory. Times are aware datetimes; a lag below 0 counts as 0.

    Args:
        lessons: {skill: when it was, or will be, taught in class}, as far as known. A skill begins
            with what its lesson left, so they have to be known before its first answer.
    """

    def __init__(
        self, weights: Weights = SHIPPED, lessons: Mapping[str, datetime] | None = None
    ) -> None:
        self.weights = weights
        self.tracks = Tracks(weights.shape)
        self.belief = Belief(weights.spread)
        self.lessons = dict(lessons or {})
        taught = {skill: when.timestamp() for skill, when in self.lessons.items()}
        self.activations = Activations(weights.mechanism, taught)
        self.learner = LearnerEffects(weights.ways)
        self.last: dict[str, LastAnswers] = {}
        self._vector = weights.vector()
        self._floors: dict[str, float] = {}
        self._floors_told: dict[str, float] = {}

    # ---------------------------------------------------------------- what happened

    def observe(
        self,
        skill: str,
        template: str,
        when: datetime,
        score: float,
        floor: float = 0.0,
        certain_error: bool = False,
    ) -> None:
        """An answer: `score` is the share of marks 0..1, `floor` the share guessing earns.

        `certain_error`: the learner was certain, and wrong.
        """
        at = when.timestamp()
        score, floor = min(1.0, max(0.0, score)), min(0.95, max(0.0, floor))
        first = self._logit(skill, template, at)
        self.belief.learn(first, skill, template, score, floor)
        mechanism, seen = self.weights.mechanism, self.activations.features(skill, at)
        second = logit(mechanism, seen) + self._easy(skill, template)
        self.learner.learn(second, seen, skill, score, *ends(mechanism, floor))
        self.tracks.happened(skill, template, at, score)
        self.activations.practised(skill, at, score)
        self.last[skill] = self.last_answers(skill).answered(at, score, certain_error)
        if floor > 0.0:
            self._floors[template] = max(floor, self._floors.get(template, 0.0))
            self._floors_told[skill] = self._floors_told.get(skill, 0.0) + floor

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer seen, nothing answered."""
        at = when.timestamp()
        self.tracks.happened(skill, template, at, None)
        self.activations.practised(skill, at, None)
        self.last[skill] = self.last_answers(skill).exposed(at)

    # ---------------------------------------------------------------- what to expect

    def chance(self, skill: str, template: str | None, when: datetime) -> float:
        """The expected share of marks at `when`; template None is one never asked.

        For a template that can be guessed, guessing is counted in; for None it is not.
        """
        share = self.belief.share(self._logit(skill, template, when.timestamp()), skill, template)
        floor = self._floors.get(template, 0.0) if template is not None else 0.0
        return floor + (1.0 - floor) * share

    def held(self, skill: str, when: datetime) -> float:
        """The share held at `when`, for a template never asked, guessing included.

        It comes from the activation model (`activation.py`), which planning uses.
        """
        mechanism, seen = self.weights.mechanism, self.activations.features(skill, when.timestamp())
        mean, variance = self.learner.offset(seen, skill)
        whole = logit(mechanism, seen) + self._easy(skill, None) + mean
        return share_of(whole, variance, *ends(mechanism, self.guessing(skill)))

    def last_answers(self, skill: str) -> LastAnswers:
        """How the last answers to a skill went."""
        return self.last.get(skill, LastAnswers())

    def bounded(self) -> Memory:
        """A copy for planning, in which practice always helps: see `LearnerEffects.bounded`.

        It shares everything but the belief with this one, so it must not be changed.
        """
        other = copy(self)
        other.learner = self.learner.bounded(self.weights.mechanism)
        return other

    def guessing(self, skill: str) -> float:
        """The share that guessing earned on the skill's questions so far, on average."""
        track = self.tracks.skills.get(skill)
        answers = track.wins + track.fails if track else 0.0
        return self._floors_told.get(skill, 0.0) / answers if answers else 0.0

    def _logit(self, skill: str, template: str | None, at: float) -> float:
        features = self.tracks.features(skill, template, at)
        logit = self._easy(skill, template)
        for weight, feature in zip(self._vector, features, strict=True):
            logit += weight * feature
        return logit

    def _easy(self, skill: str, template: str | None) -> float:
        easy = self.weights.skills.get(skill, 0.0)
        if template is not None:
            easy += self.weights.templates.get(template, 0.0)
        return easy

    def track(self, skill: str) -> Track | None:
        """What is kept of a skill; None when it was never met or shown."""
        return self.tracks.skills.get(skill)

    def answers(self) -> int:
        """How many answers this rests on, one for each skill of a question."""
        return round(sum(track.wins + track.fails for track in self.tracks.skills.values()))

    # ---------------------------------------------------------------- keeping it

    def to_state(self) -> dict[str, Any]:
        """Everything as plain values, for JSON."""
        return {
            "skills": {name: track.to_row() for name, track in self.tracks.skills.items()},
            "templates": {name: track.to_row() for name, track in self.tracks.templates.items()},
            "belief": self.belief.to_state(),
            "activations": self.activations.to_state(),
            "learner": self.learner.to_state(),
            "last": {skill: list(row) for skill, row in self.last.items()},
            "floors": dict(self._floors),
            "floors_told": dict(self._floors_told),
        }

    @classmethod
    def from_state(
        cls,
        state: Mapping[str, Any],
        weights: Weights = SHIPPED,
        lessons: Mapping[str, datetime] | None = None,
    ) -> Memory:
        """The memory that `to_state` wrote down; `lessons` as they were then."""
        memory = cls(weights, lessons)
        for kind in ("skills", "templates"):
            rows = {name: Track.from_row(row) for name, row in state[kind].items()}
            setattr(memory.tracks, kind, rows)
        memory.belief = Belief.from_state(weights.spread, state["belief"])
        memory.activations.restore(state["activations"])
        memory.learner = LearnerEffects.from_state(weights.ways, state["learner"])
        memory.last = from_rows(state["last"])
        memory._floors = {name: float(floor) for name, floor in state["floors"].items()}
        memory._floors_told = {name: float(sum_) for name, sum_ in state["floors_told"].items()}
        return memory
