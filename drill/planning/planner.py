"""Which question next: the one that raises expected exam-day marks most per second."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta

from drill.memory import Memory, Outlook
from drill.planning.forecast import forecast
from drill.planning.lookahead import Stake, gain
from drill.planning.past import OTHERS_BETWEEN, Past
from drill.planning.plan import Choice, Forecast, SkillPlan

HORIZON = timedelta(days=28)
"""Without an exam ahead the planner looks this far, from whatever day it is."""
WORTH_ASKING = 0.001
"""The least rise of a skill's exam-day share that an asking is worth a learner's time for."""
_DAY = 86400.0
_SHOWN_LATELY = 1800.0
_CERTAIN_BACK = (20 * 3600.0, 4 * _DAY)
"""A certain but wrong answer comes back between these, first of all."""
_LOOKED_AT_AGAIN = 12
"""How many of the best are worked out afresh after each answer."""


class Planner:
    """Plans one learner's practice. Deterministic: the same calls give the same choices."""

    def __init__(
        self,
        skills: Mapping[str, SkillPlan],
        exam: datetime | None = None,
        minutes_per_day: float = 15.0,
        memory: Memory | None = None,
        asked: Iterable[tuple[str, str, datetime, float]] = (),
    ) -> None:
        """See `SkillPlan`; `asked`: past (skill, template, when, seconds), oldest first."""
        self.skills = dict(skills)
        self.exam = exam
        self.minutes_per_day = minutes_per_day
        self.memory = memory if memory is not None else Memory()
        self.past = Past()
        for skill, template, when, seconds in asked:
            self.past.asked(skill, template, when, seconds, self._planned_seconds(skill))
        self._gains: dict[str, float] = {}
        self._gains_day: date | None = None
        self._again = 0.0
        self._shown: tuple[str, float] | None = None
        self._certain: dict[str, float] = {}

    # ---------------------------------------------------------------- which question

    def choose(self, now: datetime, extra: bool = False) -> Choice | None:
        """The question to put now; None when nothing is worth asking or the minutes are spent.

        `extra` ignores the minutes, nothing else. Asking about a later `now` changes nothing.
        """
        if not extra and self.past.spent(now) >= self.minutes_per_day * 60.0:
            return None
        at = now.timestamp()
        playing = [skill for skill, plan in self.skills.items() if self._in_play(plan, now)]
        small = self._few_templates(playing)
        if self._shown and self._shown[0] in playing and 0 <= at - self._shown[1] < _SHOWN_LATELY:
            template = self._template(self._shown[0], at, small)
            if template is not None:
                return Choice(self._shown[0], template)
        repeated: Choice | None = None
        for skill in self._ranked(playing, now):
            template = self._template(skill, at, small)
            if template is None:
                continue
            if skill != self.past.last_skill:
                return self._choice(skill, template, at)
            repeated = self._choice(skill, template, at)
        return repeated

    def _in_play(self, plan: SkillPlan, now: datetime) -> bool:
        """Taught, and its exam still ahead."""
        taught = plan.taught_from is None or plan.taught_from <= now
        return taught and bool(plan.templates) and self.exam_of(plan, now) > now

    def exam_of(self, plan: SkillPlan, now: datetime) -> datetime:
        """The exam a skill is practised for; when all exams are over, `HORIZON` from now."""
        exam = plan.exam or self.exam
        if exam is None or (exam <= now and self._all_over(now)):
            return now + HORIZON
        return exam

    def _all_over(self, now: datetime) -> bool:
        exams = [plan.exam or self.exam for plan in self.skills.values()]
        return all(exam is not None and exam <= now for exam in exams)

    def _few_templates(self, playing: Iterable[str]) -> bool:
        names: set[str] = set()
        for skill in playing:
            names.update(self.skills[skill].templates)
            if len(names) > OTHERS_BETWEEN:
                return False
        return True

    def _template(self, skill: str, at: float, small: bool) -> str | None:
        return self.past.template(skill, self.skills[skill].templates, at, small)

    def _choice(self, skill: str, template: str, at: float) -> Choice:
        """The choice, as a worked answer where one should come first."""
        templates = self.skills[skill].templates
        if self._needs_showing(skill, at):
            drawn = [template, *templates]
            shown = next((name for name in drawn if templates[name]), None)
            if shown is not None:
                return Choice(skill, shown, show=True)
        return Choice(skill, template)

    def _needs_showing(self, skill: str, at: float) -> bool:
        """A worked answer before the first asking, another after two failures; then no more."""
        if not self.skills[skill].worked_first:
            return False
        track = self.memory.track(skill)
        if track is None:
            return True
        failed = track.fails >= 2.0 and track.wins < 0.5 and at - track.time >= _SHOWN_LATELY
        return (track.shown < 1.0 and not track.met) or (track.shown < 2.0 and failed)

    # ---------------------------------------------------------------- how much it gains

    def _ranked(self, playing: list[str], now: datetime) -> list[str]:
        """The skills worth asking, most marks per second first; certain errors before all."""
        at = now.timestamp()
        if self._gains_day != now.date():
            self._gains, self._gains_day = {}, now.date()
            self._again = self._asked_again(now)
        for skill in playing:
            if skill not in self._gains:
                self._gains[skill] = self._gain(skill, now)
        order = sorted(playing, key=lambda skill: (-self._per_second(skill), skill))
        for skill in order[:_LOOKED_AT_AGAIN]:
            self._gains[skill] = self._gain(skill, now)
        order = [skill for skill in order if self._gains[skill] >= WORTH_ASKING]
        order.sort(key=lambda skill: (not self._owed(skill, at), -self._per_second(skill), skill))
        return order

    def _gain(self, skill: str, now: datetime) -> float:
        """The rise of the skill's exam-day share by an asking now."""
        exam = self.exam_of(self.skills[skill], now).timestamp()
        return gain(Outlook(self.memory, skill), now.timestamp(), exam, self._again)

    def _per_second(self, skill: str) -> float:
        plan = self.skills[skill]
        seconds = max(1.0, self.past.seconds(skill, plan.seconds))
        return self._gains[skill] * plan.marks / seconds

    def _asked_again(self, now: datetime) -> float:
        """How likely a skill comes round once more: minutes left over what a round takes."""
        last = max((self.exam_of(plan, now) for plan in self.skills.values()), default=now)
        left = (last - now).total_seconds() / _DAY * self.minutes_per_day * 60.0
        around = sum(plan.seconds for plan in self.skills.values())
        return min(1.0, left / around) if around > 0.0 else 0.0

    def _owed(self, skill: str, at: float) -> bool:
        """Whether a certain but wrong answer waits to be put right."""
        then = self._certain.get(skill)
        return then is not None and _CERTAIN_BACK[0] <= at - then <= _CERTAIN_BACK[1]

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
        """An answer: updates memory, template rules and today's minutes.

        `sure`: "guess", "fairly" or "certain" if the learner said so; a certain but wrong answer
        comes back within days (Butler, Fazio & Marsh 2011, Psychonomic Bulletin & Review 18,
        1238-1244: such an error returns when its correction is forgotten).
        """
        self.memory.observe(skill, template, when, score, floor)
        self.past.asked(skill, template, when, seconds, self._planned_seconds(skill))
        self._gains.pop(skill, None)
        self._shown = None
        if sure == "certain" and score < 0.5:
            self._certain[skill] = when.timestamp()
        else:
            self._certain.pop(skill, None)

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer was shown: no asking, nothing marked."""
        self.memory.expose(skill, template, when)
        self._gains.pop(skill, None)
        self._shown = (skill, when.timestamp())

    def _planned_seconds(self, skill: str) -> float:
        return self.skills[skill].seconds if skill in self.skills else 0.0

    # ---------------------------------------------------------------- the exam

    def forecast(self, now: datetime, minutes_per_day: float | None = None) -> Forecast:
        """Shares to expect on exam day, with an 80 % range, if practised as planned from now.

        `minutes_per_day` 0 means nothing more; None the planner's own.
        """
        minutes = self.minutes_per_day if minutes_per_day is None else minutes_per_day
        stakes = {skill: self._stake(skill, plan, now) for skill, plan in self.skills.items()}
        return forecast(self.memory, stakes, now.timestamp(), minutes)

    def _stake(self, skill: str, plan: SkillPlan, now: datetime) -> Stake:
        start = max(now, plan.taught_from) if plan.taught_from else now
        return Stake(
            marks=plan.marks,
            seconds=max(1.0, self.past.seconds(skill, plan.seconds)),
            start=start.timestamp(),
            exam=self.exam_of(plan, now).timestamp(),
        )
