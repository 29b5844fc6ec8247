"""Which question comes next in a sitting: planned, made, and put on record as asked."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING, Any

from drill.sitting.current_question import CurrentQuestion
from drill.sitting.learner_planner import learners_planner
from drill.sitting.question_supply import QuestionSupply, keep
from drill.store import NewAsking

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck, Question, Template
    from drill.planning import Planner
    from drill.store import Learner, Store


class Choosing:
    """Plans for one learner and one deck from a moment on.

    `left_out`: {template: why} of those that cannot be used; `before`: what was remembered when
    the sitting began, as `Memory.to_state` gives it, None until the planner was needed.
    """

    def __init__(
        self,
        store: Store,
        bank: Bank,
        deck: Deck,
        learner: Learner,
        began: datetime,
        seed: int | None = None,
    ) -> None:
        self.store, self.bank, self.deck, self.learner = store, bank, deck, learner
        self._began = began
        self._supply = QuestionSupply(store, bank, learner, seed)
        self.left_out: dict[str, str] = {}
        self.before: dict[str, Any] | None = None
        self.seen = ""
        self._faulty: set[str] = set()
        self._elsewhere: set[str] = set()
        self._planner: Planner | None = None
        self._example: Question | None = None

    @property
    def planner(self) -> Planner:
        """The planner, made when it is first needed."""
        if self._planner is None:
            without = {*self.left_out, *self._faulty, *self._elsewhere}
            self.seen = self.store.seen()  # first: what comes meanwhile is looked at again
            self._planner = learners_planner(
                self.store, self.bank, self.deck, self.learner, self._began, without=without
            )
            if self.before is None:
                self.before = self._planner.memory.to_state()
        return self._planner

    def ask(
        self, sitting: bytes, now: datetime, extra: bool = False, wanted: bool = False
    ) -> CurrentQuestion | None:
        """The question to ask now, on record as asked; None when nothing is left to ask.

        A template that cannot be used is left out, never a reason to stop: see `left_out`.
        """
        self._look_around(sitting)
        while (choice := self.planner.choose(now, extra, wanted)) is not None:
            made = self._supply.make(choice.template, now, self._example)
            if isinstance(made, str):
                self._leave_out(choice.template, made)
                continue
            self._example = made if choice.show else None
            put = (sitting, self.learner, made.version, made.template, made.seed)
            asking = self.store.ask(NewAsking(*put, choice.skill, choice.show), now)
            asked = CurrentQuestion(made, asking, choice.skill, choice.show, now, {}, {}, set())
            asked.why = choice.why
            return asked
        return None

    def put(
        self, sitting: bytes, question: Question, skill: str, now: datetime
    ) -> CurrentQuestion | None:
        """A question chosen elsewhere, on record as asked; None when its template has gone."""
        if not self._supply.kept(question.template):
            return None
        made = NewAsking(
            sitting, self.learner, question.version, question.template, question.seed, skill, False
        )
        asking = self.store.ask(made, now)
        return CurrentQuestion(question, asking, skill, False, now, {}, {}, set())

    def put_own(
        self,
        sitting: bytes,
        template: Template,
        question: Question,
        readings: Mapping[str, str],
        now: datetime,
    ) -> CurrentQuestion:
        """A question on a learner's own readings: its text and they are kept with it."""
        keep(self.store, template)
        skill = template.skills[0]
        asking = self.store.ask(
            NewAsking(
                sitting, self.learner, template.version, template.id, question.seed, skill, False
            ),
            now,
        )
        for name, value in readings.items():
            self.store.give_reading(asking, name, value, now)
        return CurrentQuestion(question, asking, skill, False, now, {}, {}, set())

    def _look_around(self, sitting: bytes) -> None:
        """Plan again when another window has added answers, or has a question open."""
        others = self.store.asked_elsewhere(self.learner, sitting)
        known = self._planner is None or self.store.changed_since(self.learner, self.seen) == {}
        if not known or others != self._elsewhere:
            self._elsewhere = others
            self.plan_anew()

    def told(self, asking: bytes) -> bool:
        """Whether the planner must be made anew, as this question is not all that is new to it.

        Else `seen` moves on, and the caller tells the planner of this one question.
        """
        seen, planner = self.store.seen(), self._planner
        changed = self.store.changed_since(self.learner, self.seen) if planner else None
        if changed is None or not changed.get(asking, False) or len(changed) > 1:
            self.plan_anew()
            return True
        if not self.store.is_latest(asking):
            self.plan_anew()
            return True
        self.seen = seen
        return False

    def _leave_out(self, template_id: str, why: str) -> None:
        self.left_out[template_id] = why
        self.plan_anew()

    def without(self, template_id: str) -> None:
        """Ask no more of a template that the learner said is faulty."""
        self._faulty.add(template_id)
        self.plan_anew()

    def plan_anew(self) -> None:
        """Plan with what is left and what is stored; what was remembered before stays noted."""
        self._planner = None
