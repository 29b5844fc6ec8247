"""One pupil of a class gathered here, for a report on them alone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from drill.app.classes.class_merge import merged
from drill.app.classes.class_room import ClassRoom, class_named, classes
from drill.exchange.hand_in import HandIn

if TYPE_CHECKING:
    from drill.store import Store


def class_pupil(code: str) -> HandIn | None:
    """All that came of the pupil with that code, as settled here; None where nobody has it.

    Of the class gathered last, where several have one.
    """
    for room in _last_first():
        found: HandIn | None = None
        for who, one in room.handed_in():
            if who.casefold() == code.casefold():
                found = merged(found, replace(one, code=who))
        if found is not None:
            return found
    return None


def names_in_classes() -> dict[str, str]:
    """{code in small letters: name} of every class list here; the last class's counts."""
    found: dict[str, str] = {}
    for room in _last_first():
        found = room.names() | {code: name for code, name in found.items() if name}
    return found


def _last_first() -> list[ClassRoom]:
    """The classes here, the one gathered last before the others."""
    names = classes()
    last = class_named("").folder.name if names else ""
    return [class_named(name) for name in sorted(names, key=lambda one: one != last)]


@contextmanager
def store_of_pupil(ours: Store, one: HandIn) -> Iterator[Store]:
    """A store with a pupil's answers alone, with the deck that was handed out from here.

    Args:
        ours: this machine's store, for the school's own questions. one: what `class_pupil` found.
    """
    from drill.app.weakness.handed_in import take_handed_to_us
    from drill.store import Store

    with TemporaryDirectory() as folder, Store.open(Path(folder) / "drill.db") as store:
        store.is_thrown_away()
        take_handed_to_us(store, ours, one)
        yield store
