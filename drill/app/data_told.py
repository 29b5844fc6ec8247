"""What is stored on this machine, in plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.places import data_dir
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.store import Store

_KEPT = """\
Of everybody who practises here: their short code, each question they were
asked, what they typed, when, how long it took, how sure they said they were,
the marks and who gave them, what they contested and why, and their settings
(exam date, minutes a day, course, topic deck).
No name, no school, no sound, picture or place. Nothing is sent anywhere.
It stays until you remove it; nothing is removed by itself.
A settled mark keeps its answer, without a code, as a sample for the scheme."""
_HOW = """\
See it:            drill data export --out mine.csv
Take it elsewhere: drill data export --out mine.jsonl
Remove a learner:  drill data erase CODE
Remove a class:    drill class erase --all
Safe copies in backups hold the same until you delete them."""


def what_is_stored(store: Store) -> list[str]:
    """Lines for a screen: where it lies, whose it is, what it is, how to see and remove it."""
    from drill.app.classes.class_room import class_named, classes

    lines = [f"Stored on this machine, in {one_line(str(data_dir()))}:"]
    for who in store.learners():
        since = who.when.date().isoformat()
        questions = sum(not asking.shown for asking in store.askings(who))
        lines.append(f"  {who.code}: {counted(questions, 'question')} since {since}")
    for name in classes():
        room = class_named(name)
        handed = counted(len(room.learners()), "pupil's machine", "pupils' machines")
        lines.append(f"  class {one_line(room.title)}: handed in by {handed}")
    if len(lines) == 1:
        lines.append("  nobody's answers yet")
    return [*lines, "", *_KEPT.splitlines(), "", *_HOW.splitlines()]
