"""Which question next: the one that raises expected exam-day marks most per second."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING

from drill.memory import Memory
from drill.memory.activation import DAY
from drill.planning.coverage import Unmet, deadline
from drill.planning.lookahead import Stake
from drill.planning.next_question import NextQuestion
from drill.planning.plan_values import Choice, Forecast, Reason, SkillPlan, lessons
from drill.planning.ranking import Ranking
from drill.planning.recent_askings import OTHERS_BETWEEN, Past
from drill.planning.time_prices import DayPrices, stretches

if TYPE_CHECKING:
    from drill.planning.nothing_to_ask import NothingToAsk

HORIZON = timedelta(days=28)
"""Without an exam ahead the planner looks this far, from whatever day it is."""
_SHOWN_LATELY = 1800.0
_LATELY = 10


class Planner:
    """Plans one learner's practice. Deterministic: the same calls give the same choices."""

    def __init__(
        self,
        skills: Mapping[str, SkillPlan],
        exam: datetime | None = None,
        minutes_per_day: float = 15.0,
        memory: Memory | None = None,
        asked: Iterable[tuple[str, str, datetime, float]] = (),
        mixed: bool = True,
    ) -> None:
        """See `SkillPlan`; `asked`: past (skill, template, when, seconds), oldest first.

        `mixed` false, for a topic chosen by name: questions of one kind may follow each other.
        """
        self.skills = dict(skills)
        self.exam = exam
        self.minutes_per_day = minutes_per_day
        self.memory = memory if memory is not None else Memory(lessons=lessons(skills))
        self.past = Past()
        self.mixed = mixed
        self.lately: deque[Reason] = deque(maxlen=_LATELY)
        """Why the last ten questions were put."""
        self._offered: dict[tuple[str, date], Reason] = {}
        self._days: dict[date, Ranking] = {}
        self._fallbacks: dict[date, Ranking] = {}
        self._shown: tuple[str, str, float] | None = None
        exams = [plan.exam or exam for plan in self.skills.values()]
        self._last_exam = None if None in exams else max(filter(None, exams), default=None)
        for skill, template, when, seconds in asked:
            self._tell(skill, template, when, seconds)

    # ---------------------------------------------------------------- which question

    def choose(self, now: datetime, extra: bool = False, wanted: bool = False) -> Choice | None:
        """The question to put now; None when nothing is left or the minutes are spent.

        `extra` ignores the minutes; `wanted`, for a learner who asked for so many questions or
        minutes, also asks what is held. Asking about a later `now` changes nothing. Why there is
        none, `nothing` tells.
        """
        if not (extra or wanted) and self._spent(now):
            return None
        question = NextQuestion(self, now)
        if self._shown and 0 <= question.at - self._shown[2] < _SHOWN_LATELY:
            choice = question.shown_lately(*self._shown[:2])
            if choice is not None:
                return choice
        choice = question.choose(wanted)
        if choice is not None:
            self._offered[choice.skill, now.date()] = choice.why
        return choice

    def nothing(self, now: datetime, extra: bool = False) -> NothingToAsk | None:
        """Why `choose` gives None; None while there is something to ask."""
        if self.choose(now, extra) is not None:
            return None
        from drill.planning.nothing_to_ask import why_nothing

        return why_nothing(self, now, self._spent(now) and not extra)

    def for_teacher(self, skill: str) -> bool:
        """Whether the answer just given was the miss after which a teacher should show the skill.

        So that it is said once of a skill, and then never again.
        """
        answers = self.memory.last_answers(skill)
        return answers.told > 0.0 and answers.told == answers.last

    def _spent(self, now: datetime) -> bool:
        return self.past.spent(now) >= self.minutes_per_day * 60.0

    def in_play(self, now: datetime) -> list[str]:
        """The skills that were taught and have templates, their exam still ahead."""
        return [skill for skill, plan in self.skills.items() if self._in_play(plan, now)]

    def _in_play(self, plan: SkillPlan, now: datetime) -> bool:
        taught = plan.taught_from is None or plan.taught_from <= now
        return taught and bool(plan.templates) and self.exam_of(plan, now) > now

    def exam_of(self, plan: SkillPlan, now: datetime) -> datetime:
        """The exam a skill is practised for; when all exams are over, `HORIZON` from now."""
        exam = plan.exam or self.exam
        all_over = self._last_exam is not None and self._last_exam <= now
        return now + HORIZON if exam is None or all_over else exam

    def few_templates(self, playing: Iterable[str]) -> bool:
        """Whether there are too few to put five others between."""
        names: set[str] = set()
        for skill in playing:
            names.update(self.skills[skill].templates)
            if len(names) > OTHERS_BETWEEN:
                return False
        return True

    def unmet(self, now: datetime) -> dict[str, Unmet]:
        """The skills never asked whose exam is ahead, taught or not."""
        at, found = now.timestamp(), {}
        began, answers = self.past.began(at), self.memory.last
        for skill, plan in self.skills.items():
            if (skill in answers and answers[skill].answers) or self.past.askings(skill):
                continue
            exam = self.exam_of(plan, now).timestamp()
            if plan.templates and exam > at:
                lesson = plan.taught_from.timestamp() if plan.taught_from else began
                due = deadline(max(began, lesson), exam)
                found[skill] = Unmet(due, self.past.seconds(skill, plan.seconds), exam)
        return found

    def pace(self, at: float) -> float:
        """Seconds of practice in each second to come."""
        return 60.0 * self.minutes_per_day * self.past.attended(at) / DAY

    # ---------------------------------------------------------------- how much it gains

    def ranking(self, now: datetime) -> Ranking:
        """The prices of the day of `now`, found when it is first asked about."""
        return self._ranking(self._days, self.memory, now)

    def fallback(self, now: datetime) -> Ranking:
        """The same, by a belief in which practice helps."""
        return self._ranking(self._fallbacks, self.memory.bounded(), now)

    def _ranking(self, days: dict[date, Ranking], memory: Memory, now: datetime) -> Ranking:
        day = now.date()
        if day not in days:
            at = now.timestamp()
            stakes = {skill: self.stake(skill, now) for skill in self.skills}
            stakes = {skill: stake for skill, stake in stakes.items() if stake.exam > at}
            a_day = 60.0 * self.minutes_per_day
            ahead = stretches(
                at,
                {stake.exam for stake in stakes.values()},
                a_day - self.past.spent(now),
                a_day,
                self.past.attended(at),
            )
            days[day] = Ranking(DayPrices(memory, stakes, at, ahead))
        return days[day]

    # ---------------------------------------------------------------- what happened

    def record(
        self,
        skill: str,
        template: str,
        when: datetime,
        score: float,
        seconds: float,
        floor: float = 0.0,
        certain_error: bool = False,
    ) -> None:
        """An answer: updates memory, template rules and today's minutes.

        `certain_error`: the learner was certain, and wrong; it comes back within days (Butler,
        Fazio & Marsh 2011, Psychonomic Bulletin & Review 18, 1238-1244: such an error returns
        when its correction is forgotten).
        """
        if seconds > 0.0:
            self.lately.append(self._offered.get((skill, when.date()), Reason.PLAN))
            self._offered.clear()
        self.memory.observe(skill, template, when, score, floor, certain_error)
        self._tell(skill, template, when, seconds)
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
        self._tell(skill, template, when, seconds)
        self._changed(skill, when)
        self._shown = None

    def _tell(self, skill: str, template: str, when: datetime, seconds: float) -> None:
        """Note an asking for the rules."""
        planned = self.skills[skill].seconds if skill in self.skills else 0.0
        self.past.asked(skill, template, when, seconds, planned)

    def _changed(self, skill: str, when: datetime) -> None:
        """Drop the cached results of other days; weigh this skill again."""
        for days in (self._days, self._fallbacks):
            today = days.get(when.date())
            days.clear()
            if today:
                days[when.date()] = today
                today.changed(skill)

    def expose(self, skill: str, template: str, when: datetime) -> None:
        """A worked answer was shown: no asking, nothing marked.

        A skill never answered is asked at once; one that was missed, on another day.
        """
        self.memory.expose(skill, template, when)
        self._changed(skill, when)
        met = bool(self.memory.last_answers(skill).answers)
        self._shown = None if met else (skill, template, when.timestamp())

    # ---------------------------------------------------------------- the exam

    def forecast(self, now: datetime, minutes_per_day: float | None = None) -> Forecast:
        """Shares to expect on exam day, with an 80 % range, if practised as planned from now.

        `minutes_per_day` 0 means nothing more; None the planner's own.
        """
        minutes = self.minutes_per_day if minutes_per_day is None else minutes_per_day
        return self.forecasts(now, [minutes])[minutes]

    def forecasts(self, now: datetime, minutes_per_day: Iterable[float]) -> dict[float, Forecast]:
        """The same for several minutes a day: what practice does is tried once for all of them."""
        from drill.planning.forecast import forecast, outlooks_of

        stakes = {skill: self.stake(skill, now) for skill in self.skills}
        outlooks, at = outlooks_of(self.memory, stakes), now.timestamp()
        return {one: forecast(self.memory, outlooks, stakes, at, one) for one in minutes_per_day}

    def stake(self, skill: str, now: datetime) -> Stake:
        """The skill as planning weighs it at `now`."""
        plan = self.skills[skill]
        start = max(now, plan.taught_from) if plan.taught_from else now
        return Stake(
            marks=plan.marks,
            seconds=max(1.0, self.past.seconds(skill, plan.seconds)),
            start=start.timestamp(),
            exam=self.exam_of(plan, now).timestamp(),
        )
