"""One sitting, made of its four parts: choosing, answering, appealing, ending.

The order is the promise: an answer is stored before it is marked, its verdict is stored before the
caller can show it. Nothing here prints or asks the time; `now` comes with every call.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from drill.sitting.answering import Answering
from drill.sitting.appealing import Appealing
from drill.sitting.choosing import Choosing
from drill.sitting.current_question import CurrentQuestion, rebuilt
from drill.sitting.ending import Ending

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck, Question, Template
    from drill.planning import Planner
    from drill.store import AskingRow, Learner, SittingRow, Store

_RESUME_WITHIN = timedelta(hours=12)


class PaperGoal(Struct, frozen=True):
    """A paper against the clock: its marks, where its numbers start, extra time in percent."""

    marks: int
    seed: int
    extra: int = 0


@dataclass(frozen=True)
class Goal:
    """When a sitting ends: after a number of questions or minutes, or with a paper.

    None means no limit.
    """

    questions: int | None = None
    minutes: float | None = None
    paper: PaperGoal | None = None


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
        self.resumed = self.elsewhere = False
        self.ended_here = ""
        self.began = now
        self.paper_waits: PaperGoal | None = None
        self.taken_up: list[tuple[CurrentQuestion, dict[str, float]]] = []
        self._pending: CurrentQuestion | None = None
        self._choosing = Choosing(store, bank, deck, learner, now, seed)
        self._join()
        self.id = self._take_up(now) or self._begin(now)

    def _join(self) -> None:
        """Everything a caller may do; each is documented where it is defined."""
        answering = Answering(self.store, self.bank)
        self.answer, self.pass_part = answering.answer, answering.pass_part
        self.hint = answering.hint
        self.example = partial(answering.example, learner=self.learner)
        self.would_be, self.guessed = answering.marked, answering.guessed
        appealing = Appealing(self.store, answering, self._choosing)
        self.decide, self.set_level = appealing.decide, appealing.set_level
        self.fix, self.appeal, self.faulty = appealing.fix, appealing.appeal, appealing.faulty
        ending = Ending(self._choosing)
        self.finish, self.done = ending.finish, ending.done
        self.marks, self.own_marks, self.seconds = ending.marks, ending.own_marks, ending.seconds
        self.forecasts, self.states = ending.forecasts, ending.states
        self.figures = ending.figures
        self.left_out = self._choosing.left_out

    def _begin(self, now: datetime) -> bytes:
        goal: dict[str, object] = {"questions": self.goal.questions, "minutes": self.goal.minutes}
        if (paper := self.goal.paper) is not None:
            goal |= {"paper": paper.marks, "seed": paper.seed, "extra": paper.extra}
        id = self.store.start_sitting(self.learner, self.deck.id, now, goal)
        self.store.hold_sitting(id)
        return id

    def _take_up(self, now: datetime) -> bytes | None:
        """The sitting broken off last, if it is this deck's and not too old.

        One that goes on in another window is left alone: `elsewhere` says that there is one. A
        paper is taken up by whoever asks for a paper, and waits for them until then. `ended_here`
        is the deck of a young one that is closed because another is begun.
        """
        for row in self.store.open_sittings(self.learner):
            paper, young = _paper(row.goal), timedelta() <= now - row.when <= _RESUME_WITHIN
            if young and (paper is None) != (self.goal.paper is None):
                self.paper_waits = paper or self.paper_waits
            elif not self.store.hold_sitting(row.id):
                self.elsewhere = True
            elif row.deck != self.deck.id or not young:
                self.ended_here = row.deck if young and row.askings else self.ended_here
                self.store.end_sitting(row.id, now, "left")
            else:
                self._go_on(row)
                return row.id
        return None

    def _go_on(self, row: SittingRow) -> None:
        self.resumed, self.began = True, row.when
        if self.goal.paper is not None:
            self.goal = Goal(paper=_paper(row.goal))
            self._lay_out(row.askings)
            return
        for asking in row.askings:
            asked = rebuilt(self.bank, asking)
            if asked is not None and not asked.waiting() and not asked.shown:
                self.done.append(asked)
            elif asked is not None and asking is row.askings[-1] and not asked.shown:
                self._pending = asked
        self.goal = _goal(row.goal, self.goal)

    def _lay_out(self, askings: Iterable[AskingRow]) -> None:
        """The questions of a paper so far, with the seconds spent on each part."""
        for asking in askings:
            asked = rebuilt(self.bank, asking)
            if asked is not None:
                spent = {answer.part: answer.seconds for answer in asking.answers}
                self.taken_up.append((asked, spent))

    @property
    def planner(self) -> Planner:
        """The planner, made when it is first needed."""
        return self._choosing.planner

    @property
    def minutes_a_day(self) -> float:
        """The minutes a day that are planned with."""
        return self.planner.minutes_per_day

    def next(self, now: datetime, extra: bool = False) -> CurrentQuestion | None:
        """The question to ask now: one broken off, else the best one.

        None when the goal is reached or nothing is left to ask. A goal the learner set is obeyed:
        neither today's minutes nor all being held ends the sitting before it.
        """
        if self._pending is not None:
            asked, self._pending = self._pending, None
            return asked
        wanted = self.goal != Goal()
        return None if self.reached(now) else self._choosing.ask(self.id, now, extra, wanted)

    def put(self, question: Question, skill: str, now: datetime) -> CurrentQuestion | None:
        """A question that was not left to the planner, as on a paper; None when it has gone."""
        return self._choosing.put(self.id, question, skill, now)

    def put_own(
        self,
        template: Template,
        question: Question,
        readings: Mapping[str, str],
        now: datetime,
    ) -> CurrentQuestion:
        """A question whose numbers are readings of the learner's own bench."""
        return self._choosing.put_own(self.id, template, question, readings, now)

    def reached(self, now: datetime) -> bool:
        """Whether the sitting's own goal is reached."""
        if self.goal.questions is not None and len(self.done) >= self.goal.questions:
            return True
        return self.goal.minutes is not None and self.seconds() >= self.goal.minutes * 60

    def end(self, now: datetime, how: str = "done") -> None:
        """Close the sitting; what was answered stays, and the figure shown is kept for the next."""
        if self.done:
            from drill.sitting.learner_figures import keep_figure

            keep_figure(self.store, self.deck, self.learner, self.figures(now).kept, now)
        self.store.end_sitting(self.id, now, how)


def _paper(stored: Mapping[str, object]) -> PaperGoal | None:
    marks, seed, extra = (stored.get(name) for name in ("paper", "seed", "extra"))
    if isinstance(marks, int) and isinstance(seed, int) and isinstance(extra, int):
        return PaperGoal(marks, seed, extra)
    return None


def _goal(stored: Mapping[str, object], asked_for: Goal) -> Goal:
    """A sitting taken up again keeps its goal unless another one is asked for now."""
    if asked_for.questions is not None or asked_for.minutes is not None:
        return asked_for
    questions, minutes = stored.get("questions"), stored.get("minutes")
    return Goal(
        questions if isinstance(questions, int) else None,
        float(minutes) if isinstance(minutes, int | float) else None,
    )
