"""The question being answered, either new or resumed from the store."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import TYPE_CHECKING

from drill.errors import Problem
from drill.generate import generate

if TYPE_CHECKING:
    from fractions import Fraction

    from drill.bank import Bank
    from drill.model import Mark, Part, Question, Shares
    from drill.planning import Reason
    from drill.store import AskingRow


@dataclass
class CurrentQuestion:
    """The question being answered, and the answers given so far.

    `left`: it counts for nothing; `over`: what was answered counts, the rest is not asked; `why`:
    why it was chosen, not known of one taken up again.
    """

    question: Question
    asking: bytes
    skill: str
    shown: bool
    when: datetime
    typed: dict[str, tuple[bytes, str]]
    marks: dict[str, Mark]
    hinted: set[str]
    left: bool = False
    over: bool = False
    decided: dict[str, tuple[str, ...]] = field(default_factory=dict)
    why: Reason | None = None

    def waiting(self) -> tuple[Part, ...]:
        """The parts still to be answered, in order."""
        if self.left or self.over:
            return ()
        return tuple(part for part in self.question.parts if part.id not in self.marks)

    def missed(self) -> list[str]:
        """The letters of the parts that did not earn every mark."""
        return [letter for letter, mark in self.marks.items() if mark.marks < mark.of]

    def shares(self, part: str) -> Shares:
        """A part's mark in two shares: what the marker gave, and what the learner decided."""
        return self.marks[part].shares(self.decided.get(part, ()))

    def earlier(self) -> dict[str, Fraction]:
        """The learner's own values of the parts already marked, for carrying forward."""
        return {letter: mark.value for letter, mark in self.marks.items() if mark.value is not None}


def rebuilt(bank: Bank, asking: AskingRow) -> CurrentQuestion | None:
    """A stored asking as it was left; None when its template has changed since."""
    template = bank.template(asking.template)
    if isinstance(template, tuple) or template.version != asking.version:
        return None
    question = generate(template, asking.seed)
    if isinstance(question, Problem) or asking.faulty:
        return None
    asked = CurrentQuestion(
        question, asking.id, asking.skill, asking.shown, asking.when, {}, {}, set()
    )
    for answer in asking.answers:
        if answer.kind == "hint":
            asked.hinted.add(answer.part)
        elif answer.kind in ("answer", "pass") and answer.mark and answer.mark.readable:
            asked.typed[answer.part] = (answer.id, answer.text)
            asked.marks[answer.part] = answer.mark
            asked.decided[answer.part] = answer.verdict.decided if answer.verdict else ()
    return asked
