"""Answers that came more than once, put together: each once, whatever came first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from drill.exchange.hand_in import HandedIn, HandIn

BY_HAND = ("teacher", "tutor", "paper")
"""Who judged, where it was a person in charge."""


def union(here: Mapping[bytes, HandedIn], more: tuple[HandedIn, ...]) -> dict[bytes, HandedIn]:
    """Answers by id, each once; of two marks on one, a person's stands, else the later told."""
    found = dict(here)
    for row in more:
        old = found.get(row.answer)
        if old is None or _weight(row) > _weight(old):
            found[row.answer] = row
    return found


def _weight(row: HandedIn) -> tuple[object, ...]:
    """Whichever file came first, the same one of two stands."""
    return row.judge in BY_HAND, row.appeal is not None, row.faulty, repr(row)


def merged(old: HandIn | None, new: HandIn) -> HandIn:
    """What came from a machine before, and now; answers each once."""
    if old is None:
        return new
    latest = max(old, new, key=lambda one: (one.made, one.code, one.deck, one.minutes))
    rows = union(union({}, old.rows), new.rows)
    in_order = sorted(rows.values(), key=lambda row: (row.at, row.answer))
    return replace(latest, rows=tuple(in_order))
