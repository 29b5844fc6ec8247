"""Removes pupils of a class from this machine: what they handed in, and what its store has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from drill.app.classes.class_room import ClassRoom, class_named, classes
from drill.errors import DrillError, WrongValue
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.classes.class_views import MachineRow
    from drill.store import Erased, Learner, Store


@dataclass(frozen=True)
class Leaving:
    """Who is to go: the machines of theirs in the class, and their answers in the store.

    `others`: names of further classes that have one of these codes; they are not touched.
    """

    room: ClassRoom
    machines: tuple[MachineRow, ...]
    learners: tuple[Learner, ...]
    others: tuple[str, ...]

    @property
    def codes(self) -> tuple[str, ...]:
        """The pupils' codes, each once."""
        there = [*(one.code for one in self.machines), *(one.code for one in self.learners)]
        return tuple(sorted({code.casefold(): code for code in there}.values()))


def leaving(store: Store, name: str, code: str, everyone: bool, before: str) -> Leaving:
    """Who would be removed.

    Args:
        name: the class; "" is the one gathered last.
        code: one pupil; everyone: all of them; before: those whose last file is older than a day.

    Raises:
        WrongValue: nobody was named. DrillError: no such class or pupil.
    """
    from drill.app.classes.class_views import machines
    from drill.typed.dates import date_of

    if not (code or everyone or before):
        raise WrongValue("name a pupil by code, or give --all or --before.")
    room = class_named(name)
    day = date_of(before) if before else None
    if isinstance(day, str):
        raise WrongValue(f'--before "{before}": {day}')
    wanted = room.code_of(code).casefold() if code else ""
    gone = tuple(
        one
        for one in machines(room.title)
        if everyone or one.code.casefold() == wanted or (day and one.made < day.isoformat())
    )
    codes = {one.code.casefold() for one in gone}
    if room.list_gone and (everyone or code):
        raise DrillError(
            f"the class list {one_line(room.list_gone, 80)} is not where it was, and "
            "erasing goes by it. Name it again with: drill class collect FOLDER --list FILE"
        )
    listed = room.names() if everyone or code else {}
    codes |= {one for one in listed if everyone or one == wanted}
    here = tuple(who for who in store.learners() if who.code.casefold() in codes)
    if code and not gone and not here:
        raise DrillError(
            f'no pupil "{one_line(code, 40)}" in {room.title}. What this computer\'s store has of '
            "somebody goes with: drill data erase CODE"
        )
    return Leaving(room, gone, here, tuple(_others(room, codes)))


def _others(room: ClassRoom, codes: set[str]) -> list[str]:
    from drill.app.classes.class_views import machines

    there = [class_named(name) for name in classes()]
    return [
        one.title
        for one in there
        if one.folder != room.folder
        and any(row.code.casefold() in codes for row in machines(one.title))
    ]


def in_words(store: Store, who: Leaving) -> str:
    """What would go, for the question whether it shall."""
    held = sum(len(store.askings(one)) for one in who.learners)
    also = f", and {counted(held, 'question')} in this computer's store" if held else ""
    return f"{' '.join(who.codes)} of {who.room.title}: what was handed in{also}"


def erase(store: Store, who: Leaving) -> list[Erased]:
    """Remove them; what is left of each learner of the store, and where.

    Raises:
        DrillError: the store could not be changed; what was handed in is still there then.
    """
    from drill.app.data import erase_data

    erased = [erase_data(store, one) for one in who.learners]
    for one in who.machines:
        _forget_samples(who.room, one.machine)
        for path in who.room.folder.glob(f"*{one.machine}.*"):
            path.unlink()
        joined = who.room.joined
        who.room.joined = {k: v for k, v in joined.items() if not k.endswith(one.machine)}
    who.room.save()
    return erased


def _forget_samples(room: ClassRoom, machine: str) -> None:
    """Take what was decided on a pupil's answers away, and the samples that it made of them."""
    from drill.sitting import forget_sample

    done = room.settled()
    for learner in room.learners():
        one = room.kept(learner) if learner.endswith(machine) else None
        for row in one.rows if one else ():
            if row.answer.hex() in done:
                item = row.item
                forget_sample(item.template, item.version, row.seed, item.part, row.text)
        room.forget({row.answer.hex() for row in one.rows} if one else set())
