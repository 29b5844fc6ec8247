"""The next question at one moment: the plan, and the rules that keep asking weak skills.

The plan asks what brings most marks per second on exam day. Around it stand a few rules: what was
certain and wrong comes back first; what was missed comes back softly; every skill is met in good
time (`coverage.py`); when the plan finds nothing, what is not held is asked all the same, assuming
that practice helps; and a learner who misses again and again is shown the answer, gets another
question, and is sent to a teacher once. So an estimate that practice does not help somebody is
tested repeatedly. Alternatives that were tried, and their cost, are in tests/bench/README.md.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime
from functools import cached_property
from math import inf
from typing import TYPE_CHECKING

from drill.memory import LastAnswers
from drill.memory.activation import DAY
from drill.planning.coverage import Unmet, affordable, pressing
from drill.planning.mixing import Evening, Strictness
from drill.planning.plan_values import Choice, Reason

if TYPE_CHECKING:
    from drill.memory import Memory
    from drill.planning.planner import Planner
    from drill.planning.ranking import Ranking

HELD, ANSWERS = 0.85, 2
"""A skill held by so much and answered so often may be let alone."""
WORTH_ASKING = 0.001
"""The least rise of a skill's exam-day share for which the plan asks."""
_RETURN_AFTER, _RETURN_BY, _RETURN_WORTH, _RETURNS = 1.5 * DAY, 4 * DAY, 0.6, 3
"""A skill missed the day before yesterday or earlier comes back when it is worth this share of the
best, those first that can still be back in four days, for at most so many of ten questions."""
_SCARCE_WORTH = 0.9
"""The same while there is not time enough to meet every skill."""
_OVERDUE = 6 * DAY
"""So long after the miss it comes back whatever it is worth, where time is enough."""
_COVERED = 5
"""At most so many of the last ten questions are put only to meet a skill."""
_SHOWN_AFTER, _TEACHERS = 3, 4 * DAY
"""Misses in a row before the worked answer is shown; rest after a teacher was named."""
_NEARLY, _NEAR = 0.8, 12
"""A question of another practical comes first when it is worth this share of the best; so many of
the next best are looked at. Mixed practice: Rohrer, Dedrick, Hartwig & Cheung (2020), Journal of
Educational Psychology 112(1), 40-52."""

Found = tuple[str, str]
"""A skill and the template to ask of it."""


class NextQuestion:
    """What could be asked at `now`, and what should be."""

    def __init__(self, planner: Planner, now: datetime) -> None:
        self.planner, self.now, self.at = planner, now, now.timestamp()
        self.playing = planner.in_play(now)
        self._small = planner.few_templates(self.playing)
        self._last = planner.past.last_skill
        self._evening = Evening(planner.skills, planner.past.sitting(self.at))
        self._ready: dict[tuple[str, Strictness], str | None] = {}
        self._levels = sorted(Strictness, reverse=True) if planner.mixed else [Strictness.FREE]

    def choose(self, wanted: bool = False) -> Choice | None:
        """The question to put; None when nothing is left. `wanted`: also what is held."""
        if not self.playing:
            return None
        self._ranking = self.planner.ranking(self.now)
        self._ranked = self._in_order(self._ranking, self.planner.memory)
        for strict in self._levels:
            for rule, why in (
                (self._certain, Reason.CERTAIN),
                (self._missed, Reason.RETURN),
                (self._unmet, Reason.COVERAGE),
                (self._planned, Reason.PLAN),
                (self._not_held, Reason.FALLBACK),
            ):
                found = rule(strict)
                if found is not None:
                    return self._choice(*found, why)
        return self._anything() if wanted else None

    def shown_lately(self, skill: str, example: str) -> Choice | None:
        """The question that follows at once on the first worked answer of a skill.

        The same one with other numbers, where that can be: the example is then still in mind.
        """
        if skill not in self.playing:
            return None
        again = self.planner.skills[skill].templates.get(example, False)
        template = example if again else self._template(skill, Strictness.FREE)
        return Choice(skill, template) if template else None

    @cached_property
    def _never(self) -> dict[str, Unmet]:
        """The skills never asked, with when they should be met."""
        return self.planner.unmet(self.now)

    # ---------------------------------------------------------------- rules, first to last

    def _certain(self, strict: Strictness) -> Found | None:
        return self._first(self._where(lambda answers: answers.owed(self.at)), strict)

    def _missed(self, strict: Strictness) -> Found | None:
        worth = self._ranking.worth
        best = worth[self._ranked[0]]
        if best <= 0.0 or self.planner.lately.count(Reason.RETURN) >= _RETURNS:
            return None
        back = self._where(lambda answers: answers.missed_before(self.at - _RETURN_AFTER))
        enough = bool(back) and self._time_enough()
        least = best * (_RETURN_WORTH if enough else _SCARCE_WORTH)
        back = [s for s in back if worth[s] >= least or (enough and self._overdue(s))]
        return self._first(sorted(back, key=self._waits), strict)

    def _time_enough(self) -> bool:
        """Whether every skill can be met, and practised besides."""
        return affordable(self._never.values(), self.at, self.planner.pace(self.at))

    def _overdue(self, skill: str) -> bool:
        return self.at - self.planner.memory.last_answers(skill).last > _OVERDUE

    def _waits(self, skill: str) -> tuple[bool, float]:
        """The longest wait first, but what waited too long after what can still be in time."""
        last = self.planner.memory.last_answers(skill).last
        return self.at - last > _RETURN_BY, last

    def _unmet(self, strict: Strictness) -> Found | None:
        if self.planner.lately.count(Reason.COVERAGE) >= _COVERED:
            return None
        unmet = self._never
        due = pressing(unmet.values(), self.at, self.planner.pace(self.at))
        if due is None:
            return None
        waiting = [s for s in self._ranked if s in unmet and unmet[s].deadline <= due]
        return self._first(waiting, strict)

    def _planned(self, strict: Strictness) -> Found | None:
        """The plan: most worth first; the last one's skill only when nothing else is in play."""
        last = self._last
        worth = (s for s in self._ranked if s != last and self._brings(s))
        found = self._mixed(worth, self._ranking.worth, strict)
        if found or strict or last not in self._ranked or not self._brings(last):
            return found
        same = self._first([last], strict)
        return same and (self._first([s for s in self._ranked if s != last], strict) or same)

    def _brings(self, skill: str) -> bool:
        """Whether an asking now raises what there will be on exam day.

        Of a skill never asked nothing of its own is known, and what rest does to it counts from
        the first answer on: there it is enough that to ask it now is better than to wait.
        """
        if self._ranking.prices.rise(skill) >= WORTH_ASKING:
            return True
        return skill in self._never and self._ranking.worth[skill] > 0.0

    def _not_held(self, strict: Strictness) -> Found | None:
        """What is not held or was answered once, by prices for which practice helps."""
        ready = {s for s in self.playing if self._template(s, strict) and not self.done(s)}
        if not ready:
            return None
        ranking = self.planner.fallback(self.now)
        order = self._in_order(ranking, self.planner.memory.bounded())
        others = [skill for skill in order if skill != self._last]
        found = self._mixed([s for s in others if s in ready], ranking.worth, strict)
        return found if found or strict else self._first([*others, *ready], strict)

    def _anything(self) -> Choice | None:
        order = [*(s for s in self._ranked if s != self._last), *self._ranked]
        for resting in (False, True):
            for skill in order:
                template = self._template(skill, Strictness.FREE, resting)
                if template is not None:
                    return self._choice(skill, template, Reason.WANTED)
        return None

    # ---------------------------------------------------------------- what the rules go by

    def done(self, skill: str) -> bool:
        """Held and answered twice; or asked twice and marked by the learner alone."""
        planner = self.planner
        answers = int(planner.memory.last_answers(skill).answers)
        if not answers:
            return planner.past.askings(skill) >= ANSWERS
        return answers >= ANSWERS and planner.memory.held(skill, self.now) >= HELD

    def rests(self, skill: str) -> bool:
        """Whether it waits: for a teacher, or for another day after a worked answer."""
        answers = self.planner.memory.last.get(skill)
        if answers is None:
            return False
        if self.waits_for_teacher(skill):
            return True
        shown = bool(answers.answers and answers.shown)
        return shown and _date(answers.shown, self.now) == self.now.date()

    def waits_for_teacher(self, skill: str) -> bool:
        """Whether it was missed so often that a teacher should show it first."""
        answers = self.planner.memory.last_answers(skill)
        return bool(answers.missed and answers.told and self.at - answers.told < _TEACHERS)

    def _template(self, skill: str, strict: Strictness, resting: bool = False) -> str | None:
        key = (skill, strict)
        if resting or key not in self._ready:
            self._ready[key] = self._found(skill, strict, resting)
        return self._ready[key]

    def _found(self, skill: str, strict: Strictness, resting: bool) -> str | None:
        if self._evening.bars(skill, strict) or (not resting and self.rests(skill)):
            return None
        plan, answers = self.planner.skills[skill], self.planner.memory.last.get(skill)
        light = answers is not None and answers.missed >= _SHOWN_AFTER
        return self.planner.past.template(
            skill,
            plan.templates,
            self.at,
            self._small,
            self._evening.barred(skill, strict),
            plan.load if light else None,
        )

    # ---------------------------------------------------------------- picking

    def _in_order(self, ranking: Ranking, memory: Memory) -> list[str]:
        planner, now = self.planner, self.now
        return ranking.ranked(self.playing, memory, lambda s: planner.stake(s, now), self.at)

    def _where(self, told: Callable[[LastAnswers], bool]) -> list[str]:
        """The skills whose last answers are so, most worth first."""
        found = {skill for skill, answers in self.planner.memory.last.items() if told(answers)}
        return [skill for skill in self._ranked if skill in found] if found else []

    def _first(self, skills: Iterable[str], strict: Strictness) -> Found | None:
        for skill in skills:
            template = self._template(skill, strict)
            if template is not None:
                return skill, template
        return None

    def _mixed(
        self, skills: Iterable[str], worth: dict[str, float], strict: Strictness
    ) -> Found | None:
        """The first that may be asked; one of another practical, if it is worth nearly as much."""
        first: Found | None = None
        near, least = 0, -inf
        for skill in skills:
            template = self._template(skill, strict)
            if template is None:
                continue
            if first is not None:
                near += 1
                if near > _NEAR or worth[skill] < least:
                    break
            if self._other_practical(template):
                return skill, template
            if first is None:
                first, least = (skill, template), _NEARLY * worth[skill]
        return first

    def _other_practical(self, template: str) -> bool:
        """Whether it is of another practical (`practical/question`) than the last one asked."""
        last = self.planner.past.last_template
        return last is None or last.partition("/")[0] != template.partition("/")[0]

    # ---------------------------------------------------------------- asked, or shown

    def _choice(self, skill: str, template: str, why: Reason) -> Choice:
        """The choice, as a worked answer where one should come first."""
        plan, answers = self.planner.skills[skill], self.planner.memory.last_answers(skill)
        laddered = answers.missed == _SHOWN_AFTER and not answers.shown
        first = plan.worked_first and not answers.answers and not answers.shown
        lately = why is Reason.FALLBACK and answers.missed and not answers.shown
        if laddered or first or lately:
            drawn = [template, *plan.templates]
            shown = next((name for name in drawn if plan.templates[name]), None)
            if shown is not None:
                return Choice(skill, shown, True, Reason.LADDER if laddered else why)
        return Choice(skill, template, False, why)


def _date(at: float, like: datetime) -> object:
    return datetime.fromtimestamp(at, like.tzinfo).date()
