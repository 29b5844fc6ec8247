"""One sitting: which question next, what becomes of each answer, and in which order it is kept.

The order is the promise: an answer is stored before it is marked, its verdict is stored before the
caller can show it. Nothing here prints or asks the time; `now` comes with every call.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from drill.sitting import history
from drill.sitting.current_question import CurrentQuestion, rebuilt
from drill.sitting.learner_planner import learners_planner
from drill.sitting.question_supply import QuestionSupply

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck, Mark, Part, Question, Shares
    from drill.planning import Forecast, Planner
    from drill.store import AskingRow, Learner, Store

_RESUME_WITHIN = timedelta(hours=12)


@dataclass(frozen=True)
class Goal:
    """When a sitting ends: after so many questions or minutes; None means no such end."""

    questions: int | None = None
    minutes: float | None = None


class Sitting:
    """One learner, one topic deck, one sitting; a sitting broken off is taken up again."""

    def __init__(
        self,
        store: Store,
        bank: Bank,
        deck: Deck,
        learner: Learner,
        now: datetime,
        goal: Goal,
        seed: int | None = None,
    ) -> None:
        self.store, self.bank, self.deck, self.learner = store, bank, deck, learner
        self.goal = goal
        self._maker = QuestionSupply(store, bank, learner, seed)
        self._began = now
        self.done: list[CurrentQuestion] = []
        self.resumed = False
        self.left_out: dict[str, str] = {}
        self._faulty: set[str] = set()
        self._planner: Planner | None = None
        self._before: dict[str, Any] | None = None
        self._pending: AskingRow | None = None
        self._taken_up: bytes | None = None
        self._example: Question | None = None
        self.id = self._take_up(now) or store.start_sitting(
            learner, deck.id, now, {"questions": goal.questions, "minutes": goal.minutes}
        )

    # ---------------------------------------------------------------- beginning

    def _take_up(self, now: datetime) -> bytes | None:
        """The sitting broken off last, if it is this deck's and not too old."""
        row = self.store.open_sitting(self.learner)
        if row is None:
            return None
        if row.deck != self.deck.id or now - row.when > _RESUME_WITHIN or now < row.when:
            self.store.end_sitting(row.id, now, "left")
            return None
        self.resumed = True
        for asking in row.askings:
            asked = rebuilt(self.bank, asking)
            if asked is not None and not asked.waiting() and not asked.shown:
                self.done.append(asked)
            elif asked is not None and asking is row.askings[-1] and not asked.shown:
                self._pending = asking
        self.goal = _goal(row.goal, self.goal)
        return row.id

    @property
    def planner(self) -> Planner:
        """The planner, made when it is first needed."""
        if self._planner is None:
            self._planner = learners_planner(
                self.store,
                self.bank,
                self.deck,
                self.learner,
                self._began,
                without={*self.left_out, *self._faulty},
            )
            self._before = self._planner.memory.to_state()
        return self._planner

    @property
    def minutes_a_day(self) -> float:
        """The minutes a day that are planned with."""
        return self.planner.minutes_per_day

    # ---------------------------------------------------------------- which question

    def next(self, now: datetime, extra: bool = False) -> CurrentQuestion | None:
        """The question to ask now; None when the goal is reached or nothing is worth asking.

        A template that cannot be used is left out, never a reason to stop: see `left_out`.
        """
        if self._pending is not None:
            asked, self._pending = rebuilt(self.bank, self._pending), None
            if asked is not None:
                self._taken_up = asked.asking
                return asked
        if self.reached(now):
            return None
        while True:
            choice = self.planner.choose(now, extra=extra)
            if choice is None:
                return None
            made = self._maker.make(choice.template, now, self._example)
            if not isinstance(made, str):
                break
            self._leave_out(choice.template, made)
        asking = self.store.ask(
            self.id,
            self.learner,
            made.version,
            made.template,
            made.seed,
            choice.skill,
            choice.show,
            now,
        )
        self._example = made if choice.show else None
        return CurrentQuestion(made, asking, choice.skill, choice.show, now, {}, {}, set())

    def reached(self, now: datetime) -> bool:
        """Whether the sitting's own goal is reached."""
        if self.goal.questions is not None and len(self.done) >= self.goal.questions:
            return True
        return self.goal.minutes is not None and self.seconds() >= self.goal.minutes * 60

    def marks(self) -> tuple[int, int]:
        """Marks earned so far in this sitting, and the marks of the parts answered."""
        shares = self._shares()
        return sum(one.marks for one in shares), sum(one.of for one in shares)

    def own_marks(self) -> tuple[int, int]:
        """The same of what the learner decided or set; never added to the others."""
        shares = self._shares()
        return sum(one.own for one in shares), sum(one.own_of for one in shares)

    def _shares(self) -> list[Shares]:
        return [asked.shares(part) for asked in self.done for part in asked.marks]

    def seconds(self) -> float:
        """Seconds spent on the questions finished in this sitting."""
        return sum(self.store.seconds_of(asked.asking) for asked in self.done)

    def _leave_out(self, template_id: str, why: str) -> None:
        """Go on without a template that cannot be used; `left_out` says which and why."""
        self.left_out[template_id] = why
        self._plan_anew()

    def _plan_anew(self) -> None:
        """Plan with what is left; what was expected at the start stays as it was."""
        before = self._before
        self._planner = None
        _ = self.planner
        self._before = before

    # ---------------------------------------------------------------- answers

    def answer(
        self,
        asked: CurrentQuestion,
        part: Part,
        text: str,
        seconds: float,
        now: datetime,
        sure: str = "",
        again: bool = False,
    ) -> Mark:
        """Store what was typed, mark it, store the verdict, and only then hand the mark back.

        `again`: the first text could not be read; this one stands, readable or not.
        """
        answer = self.store.answer(
            asked.asking, part.id, text, "answer", sure or None, seconds, now
        )
        mark = self._marked(asked, part, text)
        if again:
            mark = replace(mark, readable=True)
        self.store.verdict(answer, "engine", self._marker(), mark, now)
        if mark.readable:
            asked.typed[part.id] = (answer, text)
            asked.marks[part.id] = mark
        return mark

    def pass_part(self, asked: CurrentQuestion, part: Part, seconds: float, now: datetime) -> Mark:
        """The learner passes: no marks, and the worked answer may be shown."""
        answer = self.store.answer(asked.asking, part.id, "", "pass", None, seconds, now)
        mark = self._marked(asked, part, "")
        mark = replace(mark, marks=0, readable=True, says="")
        self.store.verdict(answer, "engine", self._marker(), mark, now)
        asked.typed[part.id] = (answer, "")
        asked.marks[part.id] = mark
        return mark

    def hint(self, asked: CurrentQuestion, part: Part, now: datetime) -> str:
        """The part's hint, noted as asked for; "" when it has none."""
        if part.hint:
            self.store.answer(asked.asking, part.id, "", "hint", None, 0.0, now)
            asked.hinted.add(part.id)
        return part.hint

    def decide(
        self, asked: CurrentQuestion, part: Part, earned: Mapping[str, bool], now: datetime
    ) -> Mark:
        """The learner's own decision on points the marker was not sure of, kept beside it."""
        mark = asked.marks[part.id]
        points = tuple(
            replace(point, marks=point.of if earned[point.id] else 0, unsure=False)
            if point.id in earned
            else point
            for point in mark.points
        )
        total = min(mark.of, sum(point.marks for point in points))
        decided = replace(mark, points=points, marks=total)
        self.store.verdict(asked.typed[part.id][0], "learner", self._marker(), decided, now)
        asked.marks[part.id] = decided
        asked.decided[part.id] = tuple(earned)
        return decided

    def set_level(self, asked: CurrentQuestion, part: Part, marks: int, now: datetime) -> Mark:
        """The mark learners give their own extended answer, kept apart from every other figure."""
        mark = asked.marks[part.id]
        marks = max(0, min(marks, mark.of))
        points = tuple(
            replace(point, marks=marks if index == 0 else 0, because="set by you", unsure=False)
            for index, point in enumerate(mark.points)
        )
        own = replace(mark, marks=marks, points=points)
        self.store.verdict(asked.typed[part.id][0], "learner", self._marker(), own, now)
        asked.marks[part.id] = own
        return own

    def fix(self, asked: CurrentQuestion, part: Part, text: str, now: datetime) -> Mark:
        """A typing mistake put right after the verdict: for the eye only, the first text stands."""
        self.store.answer(asked.asking, part.id, text, "fix", None, 0.0, now)
        return self._marked(asked, part, text)

    def appeal(self, asked: CurrentQuestion, part: Part, reason: str, now: datetime) -> None:
        """The learner contests a mark; it stands until a teacher or tutor settles it."""
        self.store.appeal(asked.typed[part.id][0], reason, now)

    def faulty(self, asked: CurrentQuestion, note: str, now: datetime) -> None:
        """The question itself is said to be wrong: it is kept, and nothing is learned from it."""
        self.store.faulty(asked.asking, note, now)
        asked.left = True
        self._faulty.add(asked.question.template)
        self._plan_anew()

    def _marked(self, asked: CurrentQuestion, part: Part, text: str) -> Mark:
        from drill.marking import mark

        return mark(part, text, asked.earlier())

    def _marker(self) -> str:
        from drill.marking import MARKER

        return f"{MARKER}+{self.bank.lexicon_hash()}"

    # ---------------------------------------------------------------- after a question, and the end

    def finish(self, asked: CurrentQuestion, now: datetime) -> None:
        """Tell memory and planner what this question showed, and cache what is remembered."""
        row = self.store.asking(asked.asking)
        if asked.shown:
            self.planner.expose(asked.skill, asked.question.template, row.when)
        elif not asked.left and asked.marks:
            if asked.asking == self._taken_up:
                self._plan_anew()  # its first parts were remembered already: all from the store
            else:
                self._record(asked, row)
            self.done.append(asked)
        history.keep(self.store, self.learner, self.planner.memory)

    def _record(self, asked: CurrentQuestion, row: AskingRow) -> None:
        from drill.store import observations

        planner, told = self.planner, set()
        parts = history.info_from_text(self.store.template_text(row.version))
        for seen in observations(row, parts):
            told.add(seen.skill)
            seconds = seen.seconds if seen.skill == asked.skill else 0.0
            if seen.score is None:
                planner.attempt(seen.skill, seen.template, seen.when, seconds, seen=True)
            else:
                planner.record(
                    seen.skill, seen.template, seen.when, seen.score, seconds, seen.floor
                )
        if asked.skill not in told:  # marked by the learner: asked all the same
            seconds = self.store.seconds_of(asked.asking)
            planner.attempt(asked.skill, asked.question.template, row.when, seconds)

    def forecasts(self, now: datetime) -> tuple[Forecast, Forecast]:
        """What exam day was expected to bring before this sitting, and now."""
        after = self.planner.forecast(now)
        if self._before is None:
            return after, after
        from drill.memory import Memory

        then = learners_planner(
            self.store,
            self.bank,
            self.deck,
            self.learner,
            now,
            memory=Memory.from_state(self._before),
        )
        return then.forecast(now), after

    def states(self, now: datetime) -> dict[str, str]:
        """`{skill: word}`: how each skill stands now."""
        from drill.sitting.mastery import parts_of_versions, states

        askings = self.store.askings(self.learner)
        return states(askings, parts_of_versions(self.store, askings), self.planner, now)

    def end(self, now: datetime, how: str = "done") -> None:
        """Close the sitting; what was answered stays."""
        self.store.end_sitting(self.id, now, how)


def _goal(stored: Mapping[str, object], asked_for: Goal) -> Goal:
    """A sitting taken up again keeps its goal unless another one is asked for now."""
    if asked_for.questions is not None or asked_for.minutes is not None:
        return asked_for
    questions, minutes = stored.get("questions"), stored.get("minutes")
    return Goal(
        questions if isinstance(questions, int) else None,
        float(minutes) if isinstance(minutes, int | float) else None,
    )
