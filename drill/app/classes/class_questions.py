"""What a handed-in answer was asked, made again from this machine's own bank."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from drill.errors import Problem
from drill.generate import generate
from drill.model import ChoiceKey
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.exchange.hand_in import Item
    from drill.model import Part, Question, Template

_LONGEST = 1000


class Told(NamedTuple):
    """What was asked, the words of the option chosen, and what was right; "" where not known."""

    ask: str
    option: str
    right: str


class Questions:
    """Questions by template, version and seed; each template is read once.

    A version this bank does not have makes no question: its numbers could not be vouched for.
    """

    def __init__(self, bank: Bank) -> None:
        self._bank = bank
        self._templates: dict[str, Template | None] = {}
        self._last: tuple[tuple[str, str, int], Question | None] = (("", "", 0), None)

    def question(self, item: Item, seed: int) -> Question | None:
        """The question as it was put, None when it cannot be made here."""
        key = (item.template, item.version, seed)
        if self._last[0] != key:
            self._last = (key, self._made(item, seed))
        return self._last[1]

    def _made(self, item: Item, seed: int) -> Question | None:
        if item.template not in self._templates:
            found = self._bank.template(item.template)
            self._templates[item.template] = None if isinstance(found, tuple) else found
        template = self._templates[item.template]
        if template is None or template.version != item.version:
            return None
        question = generate(template, seed)
        return None if isinstance(question, Problem) else question

    def part(self, item: Item, seed: int) -> Part | None:
        """The part that an answer is about."""
        question = self.question(item, seed)
        parts = question.parts if question else ()
        return next((part for part in parts if part.id == item.part), None)

    def told(self, item: Item, seed: int, text: str) -> Told:
        """The same in words."""
        part = self.part(item, seed)
        if part is None:
            return Told("", "", "")
        ask = one_line(part.ask, _LONGEST)
        if not isinstance(part.key, ChoiceKey):
            return Told(ask, "", one_line(part.model_answer, _LONGEST))
        words = {option.letter: option.text for option in part.key.options}
        right = "; ".join(option.text for option in part.key.options if option.right)
        return Told(ask, words.get(text.strip(" .)").upper(), ""), right)
