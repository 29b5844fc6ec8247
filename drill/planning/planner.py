"""Which question next: the one that raises expected exam-day marks most per second."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta

from drill.memory import Memory
from drill.planning.past import OTHERS_BETWEEN, Past
from drill.planning.plan import Choice, Forecast, SkillPlan

HORIZON = timedelta(days=28)
"""Without an exam date the planner looks this far ahead."""
_SHOWN_LATELY = 1800.0


class Planner:
    """Plans one learner's practice. Deterministic: the same history gives the same choice."""

    def __init__(
        self,
        skills: Mapping[str, SkillPlan],
        exam: datetime | None = None,
        minutes_per_day: float = 15.0,
        memory: Memory | None = None,
        asked: Iterable[tuple[str, str, datetime, float]] = (),
    ) -> None:
        self.skills = dict(skills)
        self.exam = exam
        self.minutes_per_day = minutes_per_day
        self.memory = memory if memory is not None else Memory()
        self.past = Past()
        for row in asked:
            self.past.asked(*row)
        self._shown: tuple[str, float] | None = None

    # ---------------------------------------------------------------- which question

    def choose(self, now: datetime, extra: bool = False) -> Choice | None:
        """The question to put now; None when nothing is worth asking or the minutes are spent."""
        if not extra and self.past.spent(now) >= self.minutes_per_day * 60.0:
            return None
        at = now.timestamp()
        in_play = {skill: plan for skill, plan in self.skills.items() if self._in_play(plan, now)}
        small = (
            len({name for plan in in_play.values() for name in plan.templates}) <= OTHERS_BETWEEN
        )
        ready = {
            skill: template
            for skill, plan in in_play.items()
            if (template := self.past.template(skill, plan.templates, at, small))
        }
        if self._shown and self._shown[0] in ready and at - self._shown[1] < _SHOWN_LATELY:
            skill = self._shown[0]
            return Choice(skill, ready[skill])
        if len(ready) > 1 and self.past.last_skill in ready:
            del ready[self.past.last_skill]
        best = max(ready, key=lambda skill: self._gain(skill, now), default=None)
        if best is None or self._gain(best, now) <= 0.0:
            return None
        return Choice(best, ready[best], show=self._show(best))

    def _in_play(self, plan: SkillPlan, now: datetime) -> bool:
        taught = plan.taught_from is None or plan.taught_from <= now
        return taught and self._exam_of(plan, now) > now

    def _exam_of(self, plan: SkillPlan, now: datetime) -> datetime:
        return plan.exam or self.exam or now + HORIZON

    def _gain(self, skill: str, now: datetime) -> float:
        plan = self.skills[skill]
        rise = self.memory.gain(skill, now, self._exam_of(plan, now))
        return plan.marks * rise / plan.seconds

    def _show(self, skill: str) -> bool:
        track = self.memory.track(skill)
        return self.skills[skill].worked_first and (track is None or not (track.met or track.shown))

    # ---------------------------------------------------------------- what happened

    def record(
        self,
        skill: str,
        template: str,
        when: datetime,
        score: float,
        seconds: float,
        floor: float = 0.0,
        sure: str | None = None,
    ) -> None:
        """An answer: updates memory, template rules and today's minutes."""
        self.memory.observe(skill, template, when, score, floor)
        self.past.asked(skill, template, when, seconds)
        self._shown = None

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer was shown: no asking, nothing marked."""
        self.memory.expose(skill, template, when)
        self._shown = (skill, when.timestamp())

    # ---------------------------------------------------------------- the exam

    def forecast(self, now: datetime, minutes_per_day: float | None = None) -> Forecast:
        """Shares to expect on exam day, with an 80 % range, if practised as planned from now."""
        minutes = self.minutes_per_day if minutes_per_day is None else minutes_per_day
        per_skill = {
            skill: self._share(skill, plan, now, minutes) for skill, plan in self.skills.items()
        }
        total = sum(plan.marks for plan in self.skills.values()) or 1.0
        shares = [
            sum(per_skill[skill][place] * plan.marks for skill, plan in self.skills.items()) / total
            for place in range(3)
        ]
        return Forecast(shares[0], shares[1], shares[2], per_skill)

    def _share(
        self, skill: str, plan: SkillPlan, now: datetime, minutes: float
    ) -> tuple[float, float, float]:
        exam = self._exam_of(plan, now)
        days = max(0.0, (exam - now).total_seconds() / 86400.0)
        round_seconds = sum(other.seconds for other in self.skills.values())
        times = int(minutes * 60.0 * days / round_seconds) if round_seconds else 0
        expected = self.memory.chance_after(skill, now, exam, times)
        spread = 1.28 * (expected * (1.0 - expected) / 8.0) ** 0.5
        return expected, max(0.0, expected - spread), min(1.0, expected + spread)
