"""The end of a sitting on the screen: marks by skill, exam day, when to come back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.app.nothing_to_ask import in_words
from drill.cli.feedback import of_marks
from drill.cli.figures import figure_lines
from drill.plaintext import counted, listed

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime

    from drill.app.sitting_summary import Change, SittingSummary, Standing
    from drill.cli.screen import Screen


def show_summary(screen: Screen, found: SittingSummary, put: bool = True) -> None:
    """Say what the sitting brought. A sitting without answers ends in one line.

    `put`: a question was put; without one there is only when to come back.
    """
    screen.line()
    screen.rule()
    if found.left_out:
        some = counted(found.left_out, "question was", "questions were")
        screen.line(f"{some} left out because of a fault. For an author: drill bank check")
    if not found.questions and not put:
        _come_back(screen, found.next_day)
        return
    if found.standing is None:
        screen.line("Nothing answered this time; nothing is lost.")
        return
    screen.line(
        f"{counted(found.questions, 'question')}, {of_marks(found.marks, found.of)}, "
        f"{counted(found.minutes, 'minute')}.",
        style="bold",
    )
    if found.own_of:
        own = of_marks(found.own, found.own_of)
        screen.line(f"Besides, decided by you and counted apart: {own}.")
    for row in found.skills:
        state = f"; {row.state}" if row.state else ""
        screen.line(f"On {row.name}: {of_marks(row.marks, row.of)}{state}.")
    screen.line()
    for line in _standing(found.standing):
        screen.line(line)
    _come_back(screen, found.next_day)


def _standing(found: Standing) -> Iterator[str]:
    """What was gained, in skills; then the two figures, and what moved the one on the day."""
    if found.first_met:
        yield f"Met for the first time: {first_of(found.first_met)}."
    if found.gained and found.held is not None:
        yield f"Held better than before this sitting: {first_of(found.gained)}."
    if found.about and found.held is None:
        met = f"{found.met} of {counted(found.skills, 'skill')} met"
        yield f"So far: {of_marks(found.marks, found.of)} in all you did; of this alone {met}."
    else:
        if found.about:
            yield f"Of this alone, {found.about}:"
        yield from figure_lines(found)
    if found.change is not None and found.on_the_day is not None:
        yield from _change(found.change)


def first_of(names: tuple[str, ...], most: int = 3) -> str:
    """The first names, and how many more there are."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return listed(names[:most]) + more


def _change(change: Change) -> Iterator[str]:
    """By how much the figure on the day moved since the last sitting, and why."""
    if change.anew:
        yield f"That figure starts anew: the {change.anew} changed."
        return
    moved = round(100 * change.moved)
    if not moved:
        return
    because = change.up if moved > 0 else change.down
    why = f", most of it by {first_of(because)}" if because else ""
    more = "more" if moved > 0 else "less"
    yield f"That is {abs(moved)} {more} than after the last sitting{why}."


def _come_back(screen: Screen, day: datetime | None) -> None:
    if day is None:
        screen.line("There is nothing to ask in the next four weeks.")
    else:
        screen.line(f"Next sitting: {in_words(day)}.")
