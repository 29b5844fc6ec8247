"""Which question next: the one that raises expected exam-day marks most per second."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta
from heapq import nsmallest
from math import inf
from typing import Any

from drill.memory import Memory
from drill.planning.lookahead import Stake
from drill.planning.plan_values import Choice, Forecast, SkillPlan, lessons
from drill.planning.recent_askings import OTHERS_BETWEEN, Past
from drill.planning.time_prices import DayPrices, stretches

HORIZON = timedelta(days=28)
"""Without an exam ahead the planner looks this far, from whatever day it is."""
WORTH_ASKING = 0.001
"""The least rise of a skill's exam-day share that an asking is worth a learner's time for."""
_DAY = 86400.0
_SHOWN_LATELY = 1800.0
_CERTAIN_BACK = (20 * 3600.0, 4 * _DAY)
"""A certain but wrong answer comes back between these, first of all."""
_NEARLY, _NEAR = 0.8, 12
"""A question of another practical comes first when it is worth this share of the best; so many of
the next best are looked at. Mixed practice: Rohrer, Dedrick, Hartwig & Cheung (2020), Journal of
Educational Psychology 112(1), 40-52."""
_LOOKED_AT_AGAIN = 4
"""How many of the best are worked out afresh after each answer."""


class Planner:
    """Plans one learner's practice. Deterministic: the same calls give the same choices."""

    def __init__(
        self,
        skills: Mapping[str, SkillPlan],
        exam: datetime | None = None,
        minutes_per_day: float = 15.0,
        memory: Memory | None = None,
        asked: Iterable[Sequence[Any]] = (),
    ) -> None:
        """See `SkillPlan`; `asked`: past (skill, template, when, seconds), oldest first.

        A fifth value, true for an answer that was certain and wrong, is optional.
        """
        self.skills = dict(skills)
        self.exam = exam
        self.minutes_per_day = minutes_per_day
        self.memory = memory if memory is not None else Memory(lessons=lessons(skills))
        self.past = Past()
        self._days: dict[date, DayPrices] = {}
        self._again: set[str] = set()
        """Skills to be weighed anew, since something happened to them."""
        self._shown: tuple[str, float] | None = None
        self._certain: dict[str, float] = {}
        exams = [plan.exam or exam for plan in self.skills.values()]
        self._last_exam = None if None in exams else max(filter(None, exams), default=None)
        for skill, template, when, seconds, *certain in asked:
            self._tell(skill, template, when, seconds, bool(certain and certain[0]))

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
        return self._best(playing, now, small)

    def _best(self, playing: list[str], now: datetime, small: bool) -> Choice | None:
        """The first of the ranked skills that may be asked; the last one's skill only alone.

        One of another practical goes before it when it is worth nearly as much.
        """
        at, day = now.timestamp(), self._day(now)
        first: tuple[str, str] | None = None
        other: tuple[str, str] | None = None
        same: tuple[str, str] | None = None
        near = 0
        for skill in self._ranked(playing, day, now):
            template = self._template(skill, at, small)
            if template is None:
                continue
            worth = day.rise(skill) >= WORTH_ASKING
            if skill == self.past.last_skill:
                same = (skill, template) if worth else None
            elif not worth:
                other = other or (skill, template)
            elif first is None:
                if self._owed(skill, at) or self._mixes(template):
                    return self._choice(skill, template, at)
                first, least = (skill, template), _NEARLY * day.worth[skill]
            else:
                near += 1
                if near > _NEAR or day.worth[skill] < least:
                    break
                if self._mixes(template):
                    return self._choice(skill, template, at)
        if first is not None:
            return self._choice(*first, at)
        if same is None:
            return None
        return self._choice(*(other or same), at)

    def _mixes(self, template: str) -> bool:
        """Whether it is of another practical (`practical/question`) than the last one asked."""
        last = self.past.last_template
        return last is None or last.partition("/")[0] != template.partition("/")[0]

    def _in_play(self, plan: SkillPlan, now: datetime) -> bool:
        """Taught, and its exam still ahead."""
        taught = plan.taught_from is None or plan.taught_from <= now
        return taught and bool(plan.templates) and self.exam_of(plan, now) > now

    def exam_of(self, plan: SkillPlan, now: datetime) -> datetime:
        """The exam a skill is practised for; when all exams are over, `HORIZON` from now."""
        exam = plan.exam or self.exam
        all_over = self._last_exam is not None and self._last_exam <= now
        return now + HORIZON if exam is None or all_over else exam

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

    def _day(self, now: datetime) -> DayPrices:
        """The prices of the day of `now`, found when it is first asked about."""
        day = now.date()
        if day not in self._days:
            at = now.timestamp()
            stakes = {skill: self._stake(skill, plan, now) for skill, plan in self.skills.items()}
            stakes = {skill: stake for skill, stake in stakes.items() if stake.exam > at}
            a_day = 60.0 * self.minutes_per_day
            ahead = stretches(
                at,
                {stake.exam for stake in stakes.values()},
                a_day - self.past.spent(now),
                a_day,
                self.past.attended(at),
            )
            self._days[day] = DayPrices(self.memory, stakes, at, ahead)
        return self._days[day]

    def _ranked(self, playing: list[str], day: DayPrices, now: datetime) -> list[str]:
        """The skills in play, most marks per second first; certain errors before all."""
        at, worth = now.timestamp(), day.worth
        names = sorted(playing)
        stale = [skill for skill in names if worth.get(skill, -inf) == -inf]
        best = nsmallest(_LOOKED_AT_AGAIN, names, key=lambda skill: -worth.get(skill, -inf))
        again = self._again.intersection(names)
        for skill in dict.fromkeys((*stale, *best, *again)):
            day.refresh(skill, self._stake(skill, self.skills[skill], now), at)
        self._again.clear()
        names.sort(key=worth.__getitem__, reverse=True)  # stable: ties stay in the order of names
        if self._certain:
            names.sort(key=lambda skill: not self._owed(skill, at))
        return names

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
        self._tell(skill, template, when, seconds, sure == "certain" and score < 0.5)
        self._changed(skill, when)
        self._shown = None

    def attempt(
        self, skill: str, template: str, when: datetime, seconds: float, seen: bool = False
    ) -> None:
        """An asking that no mark of ours came from: marked by the learner, or after a hint.

        It counts for the template rules and today's minutes; `seen`: memory takes it as a worked
        answer looked at.
        """
        if seen:
            self.memory.expose(skill, template, when)
        planned = self.skills[skill].seconds if skill in self.skills else 0.0
        self.past.asked(skill, template, when, seconds, planned)
        self._changed(skill, when)
        self._shown = None

    def _tell(
        self, skill: str, template: str, when: datetime, seconds: float, certain: bool
    ) -> None:
        """Note an asking for the rules, and whether its error has to come back soon."""
        planned = self.skills[skill].seconds if skill in self.skills else 0.0
        self.past.asked(skill, template, when, seconds, planned)
        if certain:
            self._certain[skill] = when.timestamp()
        else:
            self._certain.pop(skill, None)

    def _changed(self, skill: str, when: datetime) -> None:
        """Forget what was worked out for other days; weigh this skill anew."""
        today = self._days.get(when.date())
        self._days = {when.date(): today} if today else {}
        self._again.add(skill)

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer was shown: no asking, nothing marked."""
        self.memory.expose(skill, template, when)
        self._changed(skill, when)
        self._shown = (skill, when.timestamp())

    # ---------------------------------------------------------------- the exam

    def forecast(self, now: datetime, minutes_per_day: float | None = None) -> Forecast:
        """Shares to expect on exam day, with an 80 % range, if practised as planned from now.

        `minutes_per_day` 0 means nothing more; None the planner's own.
        """
        from drill.planning.forecast import forecast

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
