"""The values from which a part is made, and the exception for an attempt that fails."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from drill.generate.text.fill import Shown, fill
from drill.model import Chain, Template
from drill.quantities import Fault, Value

if TYPE_CHECKING:
    from drill.model import Graph

T = TypeVar("T")


class Rejected(Exception):
    """This attempt gives no question; another attempt with other numbers may.

    Raised wherever a part is made and caught in one place, `generate`, which turns the reason met
    most often into a `Problem`. `line` is the author's.
    """

    def __init__(self, says: str, line: int, hint: str = "") -> None:
        super().__init__(says)
        self.reason = (says, line, hint)


@dataclass(frozen=True)
class PartContext:
    """The numbers of one attempt, as every part uses them.

    `values` are all drawn, looked-up and worked values by name, `shown` the same for texts,
    `chain` how they follow from each other, with the answers of the parts before this one.
    `letter` is the part's id; `stream` its name in the draw stream, with the template's id in it,
    so that a seed does not shuffle the options of two questions alike; `seen` the names printed up
    to and with this part, or worked out in a part before it; `drawn` gives what is drawn beside it,
    made once.
    """

    template: Template
    seed: int
    letter: str
    stream: str
    values: Mapping[str, Value]
    shown: Shown
    chain: Chain
    seen: frozenset[str] = frozenset()
    drawn: Callable[[], Graph | None] = lambda: None

    @cached_property
    def steps(self) -> frozenset[str]:
        """The names of [work]."""
        return frozenset(step.name for step in self.template.work)

    @property
    def graph(self) -> Graph | None:
        """What is drawn beside the question.

        Raises:
            Rejected: it cannot be drawn with these numbers.
        """
        return self.drawn()

    def fill(self, text: str, line: int) -> str:
        """An author's text with this try's values.

        Raises:
            Rejected: a name in it is not known or its braces are not right.
        """
        return must(fill(text, self.shown), line, f'in "{_short(text)}"') if text else text

    def both(self, text: str, line: int) -> tuple[str, ...]:
        """The text in the school's own words, then in the bank's where these are others.

        Raises:
            Rejected: as `fill`.
        """
        own = self.fill(text, line)
        if not self.shown.words or not text:
            return (own,)
        bank = must(fill(text, Shown(self.shown.values)), line, f'in "{_short(text)}"')
        return (own,) if bank == own else (own, bank)


def must(value: T | Fault, line: int, what: str) -> T:
    """The value, or a `Rejected` naming what was being worked out.

    Raises:
        Rejected: it is a `Fault`.
    """
    if isinstance(value, Fault):
        raise rejection(value, line, what)
    return value


def rejection(fault: Fault, line: int, what: str) -> Rejected:
    """A `Fault` met while working out `what`, as a `Rejected` at the author's line."""
    return Rejected(f"{what}: {fault.message}", line, fault.hint)


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."
