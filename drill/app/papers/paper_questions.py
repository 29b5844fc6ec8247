"""The questions of one version of a paper, each made once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from drill.app.papers.given_away import Printed, answered_by
from drill.errors import Problem
from drill.generate import choose, generate

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Question, Template

FIRST = "A"
"""The version whose numbers decide which questions go together."""
_SEEDS = 1_000_000
_TURNS = 20


def seed_of(paper: int, version: str, template: str, turn: int = 0) -> int:
    """The seed of one question on one version of a paper; `turn` counts further tries."""
    again = f" {turn}" if turn else ""
    return choose(paper, f"paper {version} {template}{again}", _SEEDS)


@dataclass
class PaperQuestions:
    """Makes a paper's questions from its seed, and tells which print what another asks for."""

    bank: Bank
    paper: int
    usable: Callable[[Template], bool]
    _templates: dict[str, Template | None] = field(default_factory=dict)
    _first: dict[str, Printed | None] = field(default_factory=dict)
    _told: dict[tuple[str, str], bool] = field(default_factory=dict)

    def first(self, id_: str) -> Printed | None:
        """A template's question on the first version; None when it may not be asked."""
        if id_ not in self._first:
            self._first[id_] = self._made(id_, seed_of(self.paper, FIRST, id_))
        return self._first[id_]

    def told(self, asked: str, other: str) -> bool:
        """Whether, on the first version, `other` prints what `asked` asks for."""
        if (asked, other) not in self._told:
            one, two = self.first(asked), self.first(other)
            self._told[asked, other] = bool(one and two and answered_by(one.question, two))
        return self._told[asked, other]

    def version(self, ids: Iterable[str], version: str) -> list[Question]:
        """The questions of a version in their order.

        Each has the first numbers that make as many marks as on the first version, and that no
        question before it tells or is told by; if all tries fail, the last ones.
        """
        found: list[Printed] = []
        for id_ in ids:
            found.append(self._fitting(id_, version, found))
        return [one.question for one in found]

    def _fitting(self, id_: str, version: str, before: Sequence[Printed]) -> Printed:
        first = self.first(id_)
        assert first is not None, id_
        if version == FIRST:
            return first
        made = first
        for turn in range(_TURNS):
            new = self._made(id_, seed_of(self.paper, version, id_, turn))
            if new is not None and new.question.marks == first.question.marks:
                made = new
                if not any(_hint(new, one) for one in before):
                    break
        return made

    def _made(self, id_: str, seed: int) -> Printed | None:
        template = self._template(id_)
        made = generate(template, seed) if template else None
        return None if made is None or isinstance(made, Problem) else Printed.of(made)

    def _template(self, id_: str) -> Template | None:
        if id_ not in self._templates:
            read = self.bank.template(id_)
            fit = not isinstance(read, tuple) and self.usable(read)
            self._templates[id_] = read if fit and not isinstance(read, tuple) else None
        return self._templates[id_]


def _hint(one: Printed, other: Printed) -> bool:
    return answered_by(one.question, other) or answered_by(other.question, one)
