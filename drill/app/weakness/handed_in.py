"""A hand-in file taken into a store of its own, so that one pupil's report can be read from it.

It holds neither hints nor worked answers that were only read, and no mark that the pupil set: such
a report goes without them. A question of another version than this bank's has no text here.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from contextlib import suppress
from datetime import UTC, datetime, timedelta, timezone
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from drill.exchange.hand_in import HandedIn, HandIn, Item
from drill.plaintext import one_line, part_letter

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Mark, Part
    from drill.store import Learner, Store

_MOST_PARTS = 100


def take_handed_to_us(store: Store, ours: Store, one: HandIn) -> None:
    """As `take_hand_in`, with the school's questions and decks that this machine's store knows."""
    from drill.app.context import deck_called, open_bank_of_all

    take_hand_in(store, open_bank_of_all(ours), one, deck_called(ours, one.deck))


def take_hand_in(store: Store, bank: Bank, one: HandIn, deck: str = "") -> None:
    """Write its answers and their marks into an empty store, at the times they were given.

    `deck`: where the deck is that they practise, when it is known here by more than its id.
    """
    from drill.app.context import find_deck
    from drill.errors import DrillError

    made = datetime.fromtimestamp(one.made / 1000, UTC)
    who = store.new_learner(one.code, made)
    with suppress(DrillError):
        find_deck(deck or one.deck)
        store.set_setting(who, "deck", deck or one.deck, made)
        begun = min((row.at for row in one.rows), default=one.made)
        since = datetime.fromtimestamp(begun / 1000, UTC)  # a hand-in says the latest minutes alone
        store.set_setting(who, "minutes", str(one.minutes), since)
    taking = _Taking(store, bank, who, store.start_sitting(who, one.deck, made, {}))
    for _, rows in groupby(sorted(one.rows, key=lambda row: (row.asked, row.at)), _asked):
        taking.question(list(rows))


def _asked(row: HandedIn) -> int:
    return row.asked


class _Taking:
    """Takes one question after the other."""

    def __init__(self, store: Store, bank: Bank, who: Learner, sitting: bytes) -> None:
        from drill.app.classes.class_questions import Questions

        self.store, self.who, self.sitting = store, who, sitting
        self.bank, self.questions = bank, Questions(bank)

    def question(self, rows: Sequence[HandedIn]) -> None:
        """What was asked at once, with its answers."""
        from drill.store import NewAsking

        first = rows[0]
        self._keep(rows)
        item = first.item
        new = NewAsking(
            self.sitting, self.who, item.version, item.template, first.seed, item.skill, False
        )
        asking = self.store.ask(new, _when(first))
        earlier: dict[str, Fraction] = {}
        for row in rows:
            self._answer(asking, row, earlier)
        if any(row.faulty for row in rows):
            self.store.faulty(asking, "", _when(rows[-1]))

    def _keep(self, rows: Sequence[HandedIn]) -> None:
        from drill.sitting.question_supply import keep

        item = rows[0].item
        template = self.bank.template(item.template)
        if not isinstance(template, tuple) and template.version == item.version:
            keep(self.store, template)
        else:
            self.store.keep_template(item.version, item.template, _stand_in(rows), (), {})

    def _answer(self, asking: bytes, row: HandedIn, earlier: dict[str, Fraction]) -> None:
        """Its value joins the `earlier` ones, from which later parts of the question go on."""
        when, part = _when(row), self.questions.part(row.item, row.seed)
        answer = self.store.answer(
            asking, row.item.part, row.text, row.kind, row.sure or None, row.ms / 1000, when
        )
        found = _mark(row, part, earlier)
        self.store.verdict(answer, "engine", "handed in", found, when)
        if found.value is not None:
            earlier[row.item.part] = found.value


def _when(row: HandedIn) -> datetime:
    return datetime.fromtimestamp(row.at / 1000, timezone(timedelta(minutes=row.zone)))


def _mark(row: HandedIn, part: Part | None, earlier: Mapping[str, Fraction]) -> Mark:
    """The mark that was in force; what was read and which wrong route it was are found again."""
    from drill.marking import mark
    from drill.model import Mark, PointMark

    again = mark(part, row.text, earlier) if part else None
    slip = again.slip if again else row.mistake.replace(" ", "-")
    unsure = row.unsure.split()
    return Mark(
        marks=row.marks,
        of=row.of,
        points=tuple(
            PointMark(id_, marks, of, unsure=id_ in unsure)
            for id_, marks, of in json.loads(row.points)
        ),
        says="",
        slip=slip if slip and row.mistake else None,
        value=again.value if again else None,
    )


def _stand_in(rows: Sequence[HandedIn]) -> str:
    """A text that says what each part examined, and no more."""
    items = {row.item.part: row.item for row in rows}
    letters = [part_letter(place) for place in range(_MOST_PARTS)]
    while letters and letters[-1] not in items:
        letters.pop()
    return "".join(map(_stand_in_part, map(items.get, letters)))


def _stand_in_part(item: Item | None) -> str:
    told = (item.skill, item.kind) if item else ("", "")
    skill, kind = (json.dumps(one_line(text), ensure_ascii=False) for text in told)
    return f"[[part]]\nskill = {skill}\nkind = {kind}\n"
