"""Handles each answer: store it, mark it, store the mark, and only then return it."""

from __future__ import annotations

from datetime import datetime
from importlib import import_module
from typing import TYPE_CHECKING

from drill.frozen import replace
from drill.model import ChoiceKey
from drill.sitting.question_supply import another

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Mark, Part, Question
    from drill.sitting.current_question import CurrentQuestion
    from drill.store import Learner, Store


def load() -> None:
    """Load all that a mark may need: the rules, the list of English words, the stemmer."""
    import_module("drill.marking")
    from drill.marking.written.sentences import stem
    from drill.typed.spelling import is_word, nearest

    is_word(stem("measuring"))
    nearest("mesuring", ("measuring",))


class Answering:
    """Takes the answers typed to the parts of a question."""

    def __init__(self, store: Store, bank: Bank) -> None:
        self._store, self._bank = store, bank

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
        answer = self._store.answer(
            asked.asking, part.id, text, "answer", sure or None, seconds, now
        )
        mark = self.marked(asked, part, text)
        if again:
            mark = replace(mark, readable=True)
        return self._judged(asked, part, (answer, text), mark, now)

    def pass_part(self, asked: CurrentQuestion, part: Part, seconds: float, now: datetime) -> Mark:
        """The learner passes: no marks, and the worked answer may be shown."""
        answer = self._store.answer(asked.asking, part.id, "", "pass", None, seconds, now)
        mark = replace(self.marked(asked, part, ""), marks=0, readable=True, says="")
        return self._judged(asked, part, (answer, ""), mark, now)

    def hint(self, asked: CurrentQuestion, part: Part, now: datetime) -> str:
        """The part's hint, noted as asked for; "" when it has none."""
        if part.hint:
            self._store.answer(asked.asking, part.id, "", "hint", None, 0.0, now)
            asked.hinted.add(part.id)
        return part.hint

    def example(self, asked: CurrentQuestion, learner: Learner, now: datetime) -> Question | None:
        """The same question with other numbers, to be worked first; None when it has no other.

        What is still to be answered counts as answered after a hint.
        """
        found = another(self._bank, self._store, learner, asked.question)
        if found is not None:
            for part in asked.waiting():
                self._store.answer(asked.asking, part.id, "", "hint", None, 0.0, now)
                asked.hinted.add(part.id)
        return found

    def marked(self, asked: CurrentQuestion, part: Part, text: str) -> Mark:
        """The mark of a text, with the learner's own earlier values carried forward."""
        from drill.marking import mark

        return mark(part, text, asked.earlier())

    def guessed(self, part: Part, text: str) -> str:
        """The letters an answer to a choice seems to mean, where only a guess tells; else ""."""
        from drill.marking.short.chosen import only_guessed

        if not isinstance(part.key, ChoiceKey):
            return ""
        found = only_guessed(part.key.options, text, part.ask, several=part.key.several)
        return " ".join(option.letter for option in found)

    def marker(self) -> str:
        """Which marker it is: its version and that of its lexicon."""
        from drill.marking import MARKER

        return f"{MARKER}+{self._bank.lexicon_hash()}"

    def _judged(
        self,
        asked: CurrentQuestion,
        part: Part,
        typed: tuple[bytes, str],
        mark: Mark,
        now: datetime,
    ) -> Mark:
        self._store.verdict(typed[0], "engine", self.marker(), mark, now)
        if mark.readable:
            asked.typed[part.id] = typed
            asked.marks[part.id] = mark
        return mark
