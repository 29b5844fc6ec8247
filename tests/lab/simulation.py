"""One learner, one policy, one scenario: from the first lesson to the exam."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from random import Random
from typing import Protocol, TypeVar

from drill.errors import DrillError
from drill.planning import Choice, SkillPlan
from tests.lab.learner import LEARNERS, Learner
from tests.lab.policies import POLICIES
from tests.lab.scenarios import SCENARIOS, Scenario

LogRow = tuple[str, str, datetime, float | None]
_T = TypeVar("_T")
_BETWEEN = timedelta(seconds=5)
_MOST = 400
"""Questions in one session, whatever a policy wants: a policy that only shows ends here too."""


class Practice(Protocol):
    """What a policy makes: the side of `Planner` that the lab uses."""

    def choose(self, now: datetime) -> Choice | None: ...

    def record(
        self, skill: str, template: str, when: datetime, score: float, seconds: float
    ) -> None: ...

    def expose(self, skill: str, template: str, when: datetime) -> None: ...


Policy = Callable[[Mapping[str, SkillPlan], datetime, float], Practice]
"""(skills, exam, minutes a day) to something that chooses."""


@dataclass(frozen=True)
class Outcome:
    """`exam_share`: marks to expect on exam day over marks at stake, templates never asked.

    `seconds`: time used; `log`: (skill, template, when, score), score None for a worked answer.
    """

    exam_share: float
    seconds: float
    log: tuple[LogRow, ...]


def run(
    policy: str | Policy,
    learner: Learner | Callable[[int], Learner] | str,
    scenario: Scenario | str,
    seed: int,
) -> Outcome:
    """Let `policy` drive the practice of `learner` up to the exam.

    Args:
        policy: a name in `POLICIES`, or a function like those in it.
        learner: a learner who has not practised yet, a function from a seed to one, or a name in
            `LEARNERS`.
        seed: of answers and missed days: the same call gives the same outcome.

    Raises:
        DrillError: there is no policy, learner or scenario of that name.
    """
    place = _named(SCENARIOS, scenario, "scenario") if isinstance(scenario, str) else scenario
    make = _named(POLICIES, policy, "policy") if isinstance(policy, str) else policy
    return _Run(make, _person(learner, seed), place, seed).outcome()


def _person(learner: Learner | Callable[[int], Learner] | str, seed: int) -> Learner:
    if isinstance(learner, str):
        learner = _named(LEARNERS, learner, "simulated learner")
    return learner(seed) if callable(learner) else learner


def _named(known: Mapping[str, _T], name: str, what: str) -> _T:
    if name not in known:
        raise DrillError(f'no {what} "{name}". There are: {", ".join(known)}.')
    return known[name]


class _Run:
    """One run as it goes on."""

    def __init__(self, policy: Policy, learner: Learner, scenario: Scenario, seed: int) -> None:
        self.learner, self.scenario, self.rng = learner, scenario, Random(seed)
        self.sessions = scenario.sessions(seed)
        self.practice = policy(scenario.skills, scenario.exam, scenario.minutes_per_day)
        self.lessons = sorted((when, skill) for skill, when in scenario.lessons.items())
        self.log: list[LogRow] = []
        self.seconds = self.over = 0.0

    def outcome(self) -> Outcome:
        """All lessons and sessions, then the exam."""
        for session in self.sessions:
            self._teach(session)
            self._sit(session)
        exam = self.scenario.exam
        self._teach(exam)
        skills = self.scenario.skills
        total = sum(plan.marks for plan in skills.values())
        share = sum(p.marks * self.learner.chance(skill, exam) for skill, p in skills.items())
        return Outcome(share / total, self.seconds, tuple(self.log))

    def _teach(self, now: datetime) -> None:
        while self.lessons and self.lessons[0][0] <= now:
            when, skill = self.lessons.pop(0)
            self.learner.expose(skill, f"{skill}/lesson", when)

    def _sit(self, now: datetime) -> None:
        """One session: a question may be begun while minutes are left.

        What it runs over comes off the next session, so that nobody gains by long last questions.
        """
        spent, minutes = 0.0, 60.0 * self.scenario.minutes_per_day - self.over
        for _ in range(_MOST):
            choice = self.practice.choose(now) if spent < minutes else None
            if choice is None:
                break
            took = self._ask(choice, now)
            spent += took
            now += timedelta(seconds=took) + _BETWEEN
        self.seconds += spent
        self.over = max(0.0, spent - minutes)

    def _ask(self, choice: Choice, now: datetime) -> float:
        """Ask or show what was chosen; the seconds it took."""
        skill, template = choice.skill, choice.template
        plan = self.scenario.skills[skill]
        if plan.taught_from is not None and plan.taught_from > now:
            raise DrillError(f"the policy asks {skill} on {now:%d %B}, before it is taught.")
        score: float | None = None
        if choice.show:
            took = plan.seconds
            self.learner.expose(skill, template, now)
            self.practice.expose(skill, template, now)
        else:
            score, took = self.learner.practise(skill, template, now, self.rng)
            self.practice.record(skill, template, now, score, took)
        self.log.append((skill, template, now, score))
        return took
