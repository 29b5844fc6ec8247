"""What a pupil handed in as a store of its own, so that a tutor's report can be made of it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta, timezone
from itertools import groupby
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from drill.app.classes.class_room import BY_HAND, class_named, classes, union
from drill.exchange.hand_in import LARGEST, SUFFIX, HandedIn, HandIn, unpacked
from drill.model import Mark, PointMark

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Template
    from drill.store import Learner, Store

_A_SITTING = 3_600_000
"""Milliseconds between two answers that are not of one sitting any more."""


def class_pupil(code: str) -> HandIn | None:
    """All that came of the pupil with that code, as settled here; None where nobody has it.

    Of the class gathered last, where several have one.
    """
    names = classes()
    last = class_named("").folder.name if names else ""
    for name in sorted(names, key=lambda one: one != last):
        found: HandIn | None = None
        for who, one in class_named(name).handed_in():
            if who.casefold() == code.casefold():
                rows = union(union({}, found.rows if found else ()), one.rows)
                latest = one if found is None or one.made > found.made else found
                found = HandIn(latest.learner, who, latest.deck, latest.minutes, latest.made,
                               tuple(rows.values()))  # fmt: skip
        if found is not None:
            return found
    return None


def handed_in_file(path: Path) -> HandIn | None:
    """A hand-in file; None when the name says that it is none.

    Raises:
        NotHandIn: it is damaged.
    """
    if path.suffix != SUFFIX:
        return None
    with path.open("rb") as file:
        return unpacked(file.read(LARGEST + 1))


@contextmanager
def store_of(one: HandIn, bank: Bank, deck: str) -> Iterator[tuple[Store, Learner, int]]:
    """A store with one pupil's answers; it is gone afterwards.

    Answers to a version of a question that this bank does not have are left out: neither what was
    asked nor what was right could be vouched for. How many they are comes with the store.

    Args:
        deck: where the deck is that they practise, "" where it is not known.
    """
    from drill.store import Store

    with TemporaryDirectory() as folder, Store.open(Path(folder) / "drill.db") as store:
        store.is_thrown_away()
        rows = sorted(one.rows, key=lambda row: (row.at, row.asked))
        begin = _when(rows[0]) if rows else datetime.fromtimestamp(one.made / 1000, UTC)
        who = store.new_learner(one.code, begin)
        if deck:
            store.set_setting(who, "deck", deck, begin)
        if one.minutes:
            store.set_setting(who, "minutes", str(min(240, one.minutes)), begin)
        filling = _Filling(store, bank, who, one.deck)
        filling.all(rows)
        yield store, who, filling.left_out


class _Filling:
    """Puts answers into a store, question by question."""

    def __init__(self, store: Store, bank: Bank, who: Learner, deck: str) -> None:
        self.store, self.bank, self.who, self.deck = store, bank, who, deck or "class"
        self._kept: dict[str, Template | None] = {}
        self._sitting: tuple[bytes, int] = (b"", 0)
        self.left_out = 0

    def all(self, rows: Iterable[HandedIn]) -> None:
        """Every question with its parts; those of one question follow each other."""
        for _, parts in groupby(rows, key=lambda row: (row.asked, row.item.template, row.seed)):
            self._question(list(parts))

    def _question(self, parts: list[HandedIn]) -> None:
        from drill.store import NewAsking

        first = parts[0]
        template = self._template(first)
        if template is None:
            self.left_out += len(parts)
            return
        new = NewAsking(self._in_sitting(first), self.who, template.version, template.id,
                        first.seed, template.skills[0], False)  # fmt: skip
        asking = self.store.ask(new, _when(first))
        for row in parts:
            self._answer(asking, row)
        if any(row.faulty for row in parts):
            self.store.faulty(asking, "", _when(parts[-1]))

    def _template(self, row: HandedIn) -> Template | None:
        """The template of that very version, kept in the store when it is first met."""
        item = row.item
        if item.version not in self._kept:
            from drill.sitting.question_supply import keep

            found = self.bank.template(item.template)
            fits = not isinstance(found, tuple) and found.version == item.version
            self._kept[item.version] = found if fits and not isinstance(found, tuple) else None
            if fits and not isinstance(found, tuple):
                keep(self.store, found)
        return self._kept[item.version]

    def _in_sitting(self, row: HandedIn) -> bytes:
        sitting, last = self._sitting
        if not sitting or row.at - last > _A_SITTING:
            sitting = self.store.start_sitting(self.who, self.deck, _when(row), {})
            self.store.end_sitting(sitting, _when(row), "done")
        self._sitting = sitting, row.at
        return sitting

    def _answer(self, asking: bytes, row: HandedIn) -> None:
        when = _when(row)
        id_ = self.store.answer(asking, row.item.part, row.text, row.kind, row.sure or None,
                                row.ms / 1000, when)  # fmt: skip
        judge = {"tutor": "teacher", "learner": "engine"}.get(row.judge, row.judge)
        marker = f"by hand, {row.judge}" if row.judge in BY_HAND else "handed in"
        self.store.verdict(id_, judge, marker, _mark(row), when)
        if row.appeal is not None:
            self.store.appeal(id_, row.appeal, when)


def _mark(row: HandedIn) -> Mark:
    unsure = row.unsure.split()
    points = tuple(
        PointMark(id_, marks, of, "", id_ in unsure) for id_, marks, of in json.loads(row.points)
    )
    return Mark(row.marks, row.of, points, "", _slip(row))


def _slip(row: HandedIn) -> str | None:
    """The wrong route as a mark names it, from its words."""
    if not row.mistake:
        return None
    if row.item.kind == "choice":
        return row.text.strip(" .)")[:1].upper() or None
    if row.item.kind == "name":
        return row.mistake.partition(" for ")[0]
    return row.mistake.replace(" ", "-")


def _when(row: HandedIn) -> datetime:
    zone = timezone(timedelta(minutes=row.zone))
    return datetime.fromtimestamp(row.at / 1000, UTC).astimezone(zone)
