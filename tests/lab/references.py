"""Policies that know what no policy can know: how far the rest could still be from the best."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from drill.errors import DrillError
from drill.planning import SkillPlan
from tests.lab.learner import Learner, Simulated
from tests.lab.models import Knowing, KnowingFamily
from tests.lab.priced_planner import LookAhead
from tests.lab.scenarios import Scenario
from tests.lab.simulation import Policy, Practice

KNOWING: tuple[str, str] = ("knowing, greedy", "knowing, look-ahead")
"""They know this very learner."""
FAMILY: tuple[str, str] = ("family, greedy", "family, look-ahead")
"""They know the family and when lessons were, but neither person nor skill."""
REFERENCES: tuple[str, ...] = (*KNOWING, *FAMILY)


class GreedyKnowing(LookAhead):
    """The largest true rise of exam-day marks per second by one asking now."""

    def _plan(self, now: float) -> None:
        self.plans, self.moments, self._later = [(), (0,)], [now], [0.0]
        self.worth = {skill: self._worth(skill, self._values(skill, now)) for skill in self.skills}


def reference(name: str, learner: Learner, scenario: Scenario) -> Policy:
    """The reference of that name for this learner in this scenario, as a policy.

    Raises:
        DrillError: there is no such reference, or the learner cannot be looked into.
    """
    if name not in REFERENCES:
        raise DrillError(f'no reference "{name}". There are: {"; ".join(REFERENCES)}.')
    if not isinstance(learner, Simulated):
        raise DrillError("references need a simulated learner of the lab: it is looked into.")
    person = learner

    def make(skills: Mapping[str, SkillPlan], exam: datetime, minutes: float) -> Practice:
        lessons = scenario.lessons
        model = (
            KnowingFamily(person.family, lessons, exam)
            if name in FAMILY
            else Knowing(person, lessons, exam)
        )
        kind = GreedyKnowing if name in (KNOWING[0], FAMILY[0]) else LookAhead
        return kind(model, skills, exam, minutes, lessons, 1.0 - scenario.missed)

    return make
