"""The scenarios of the lab: which skills, taught when, for an exam when, in how many minutes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from random import Random
from types import MappingProxyType

from drill.planning import SkillPlan
from tests.lab.learner import seconds_of

START = datetime(2027, 1, 4, 17, 0, tzinfo=UTC)
_LESSON_HOUR = timedelta(hours=-6)


@dataclass(frozen=True)
class Scenario:
    """A class, an exam and little time.

    `skills` as a planner gets them; `lessons`: {skill: when it is taught in class}, which the
    planner knows only by `taught_from`; `days` from `start` to the exam, one session each at the
    hour of `start`; `missed`: the share of days on which nobody practises, drawn by seed.
    """

    name: str
    skills: Mapping[str, SkillPlan]
    lessons: Mapping[str, datetime]
    start: datetime
    days: int
    minutes_per_day: float
    missed: float = 0.2

    @property
    def exam(self) -> datetime:
        """The exam, in the morning of the day after the last session."""
        return self.start + timedelta(days=self.days, hours=-8)

    def sessions(self, seed: int) -> list[datetime]:
        """The moments at which practice begins: every day but the missed ones."""
        rng = Random(f"missed days {seed}")
        days = [self.start + timedelta(days=day) for day in range(self.days)]
        return [day for day in days if rng.random() >= self.missed]


def scenario(
    name: str, skills: int, days: int, minutes: float, taught: tuple[int, int], weeks: int = 1
) -> Scenario:
    """A scenario of this many skills, a lesson for each on a day of `taught` (from, to).

    Days count from the first session, those before it below 0; lessons fall on every `weeks`-th
    week's first day, so that skills come in blocks as a course teaches them.
    """
    rng = Random(f"scenario {name}")
    plans, lessons = {}, {}
    for number in range(skills):
        skill = f"skill-{number:03d}"
        day = taught[0] + (taught[1] - taught[0]) * number // skills
        day -= day % (7 * weeks)
        lessons[skill] = START + timedelta(days=day) + _LESSON_HOUR
        plans[skill] = SkillPlan(
            marks=float(rng.choice((1, 2, 3, 4))),
            seconds=seconds_of(skill),
            taught_from=lessons[skill],
            templates={f"{skill}/{letter}": True for letter in "abcd"[: rng.randint(2, 4)]},
        )
    return Scenario(name, plans, lessons, START, days, minutes)


SCENARIOS: Mapping[str, Scenario] = MappingProxyType(
    {
        "four-weeks": scenario("four-weeks", 100, 28, 10.0, (-42, 0)),
        "ten-weeks": scenario("ten-weeks", 160, 70, 9.0, (-14, 56)),
        "one-week": scenario("one-week", 55, 7, 12.0, (-70, 0)),
    }
)
"""Four weeks and 100 skills taught before; ten weeks and 160 skills taught along the way; the
last week before the exam."""
DECK = scenario("deck", 40, 28, 12.0, (-42, 0))
TOPIC = scenario("topic", 14, 28, 8.0, (-42, 0))
"""Near a real deck of several topics, and one topic of it. They stand apart, so that figures over
all `SCENARIOS` stay comparable."""
