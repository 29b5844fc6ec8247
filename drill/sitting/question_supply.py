"""Turns a template into the question to ask: proved where necessary, with unseen numbers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from drill.errors import Problem
from drill.generate import choose, generate
from drill.model import ChoiceKey

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Part, Question, Template
    from drill.store import Learner, Store

_SEEDS = 1_000_000
_PROOFS = 20
_OTHERS = 30


@dataclass(frozen=True)
class QuestionSupply:
    """Makes one learner's questions. `seed` is where a sitting's numbers start from, if given."""

    store: Store
    bank: Bank
    learner: Learner
    seed: int | None = None

    def make(
        self, template_id: str, now: datetime, example: Question | None = None
    ) -> Question | str:
        """A question with unused numbers, its template kept in the store; or why there is none.

        `example`: the worked answer just shown, whose answers this question must not have.
        """
        template = self.bank.template(template_id)
        if isinstance(template, tuple):
            return str(template[0])
        if not (self.bank.passed(template) or self.store.passed(template.version)):
            fault = prove(self.store, self.bank, template, now)
            if fault:
                return fault
        question = self._unlike(template, example)
        if isinstance(question, Problem):
            return str(question)
        keep(self.store, template)
        return question

    def kept(self, template_id: str) -> bool:
        """Keep a template's text with the answers to come; False when it cannot be read."""
        template = self.bank.template(template_id)
        if isinstance(template, tuple):
            return False
        keep(self.store, template)
        return True

    def _unlike(self, template: Template, example: Question | None) -> Question | Problem:
        """New numbers; after an example of the same template, ones with a different answer."""
        seed = self._fresh_seed(template)
        question = generate(template, seed)
        if example is None or example.template != template.id or not template.has_draws:
            return question
        shown = [part.model_answer for part in example.parts]
        for turn in range(1, _OTHERS + 1):
            if isinstance(question, Problem):
                break
            if [part.model_answer for part in question.parts] != shown:
                break
            question = generate(template, (seed + turn) % _SEEDS)
        return question

    def _fresh_seed(self, template: Template) -> int:
        """A seed this learner has not had with this template."""
        if not template.has_draws:
            return 0
        used = self.store.used_seeds(self.learner, template.id)
        base = self.seed if self.seed is not None else int.from_bytes(self.learner.id[-6:], "big")
        for turn in range(len(used) + 1):
            seed = choose(base, f"{template.id} {turn}", _SEEDS)
            if seed not in used:
                return seed
        return max(used) + 1


def prove(store: Store, bank: Bank, template: Template, now: datetime) -> str:
    """A template from outside is proved here, whatever it claims; "" or its first fault."""
    from drill.checking import check

    report = check([Path(template.path)], bank.folder, seeds=_PROOFS, jobs=1)
    faults = [problem for problem in report.problems if problem.level == "error"]
    if not faults:
        store.keep_passed(template.version, now)
    return str(min(faults)) if faults else ""


def keep(store: Store, template: Template) -> None:
    """Keep a template, so that its question can be shown as it was asked, for ever."""
    from drill.bank import kept_rows

    rows = kept_rows(row for table in template.tables.values() for row in table)
    slips = dict(template.shared_slips)
    store.keep_template(template.version, template.id, template.text, rows, slips)


def another(bank: Bank, store: Store, learner: Learner, question: Question) -> Question | None:
    """The question with numbers the learner never had, and other answers; None without draws."""
    template = bank.template(question.template)
    if isinstance(template, tuple) or not template.has_draws:
        return None
    used = store.used_seeds(learner, template.id) | {question.seed}
    given = [_answer(part) for part in question.parts]
    for turn in range(_OTHERS):
        seed = choose(question.seed, f"{template.id} example {turn}", _SEEDS)
        found = generate(template, seed) if seed not in used else None
        if isinstance(found, Problem) or found is None:
            continue
        if all(a != _answer(b) for a, b in zip(given, found.parts, strict=False)):
            return found
    return None


def _answer(part: Part) -> str:
    """The correct answer, in words where it is chosen by a letter."""
    if isinstance(part.key, ChoiceKey):
        return "; ".join(sorted(option.text for option in part.key.options if option.right))
    return part.model_answer
