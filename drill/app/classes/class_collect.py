"""Gathers everything pupils handed in from a folder; it may be repeated, in any order."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import blake2b
from pathlib import Path

from drill.app.classes.class_list import mixed_up, read_list
from drill.app.classes.class_merge import merged
from drill.app.classes.class_room import ClassRoom, class_for
from drill.errors import DrillError
from drill.exchange.hand_in import LARGEST, HandIn, NotHandIn, unpacked
from drill.plaintext import one_line

_MOST_FILES = 20_000
_TWICE = "all of it is in another file."


@dataclass(frozen=True)
class Skipped:
    """A file that was refused, and why; or one with nothing that another did not have."""

    file: str
    says: str
    refused: bool = True


@dataclass(frozen=True)
class Twice:
    """A pupil with several machines."""

    code: str
    machines: int


@dataclass(frozen=True)
class Collected:
    """What a folder brought. Codes are the pupils'; `missing` are those of the class list.

    `not_listed`: pupils who handed in and are not on the list. `twice`: those whose work came
    from several machines. `named`: whether the teacher gave the class its name. `names` are
    those of the class list, {code in small letters: name}.
    """

    title: str
    files: int
    answers: int
    new: tuple[str, ...]
    updated: tuple[str, ...]
    unchanged: tuple[str, ...]
    missing: tuple[str, ...]
    not_listed: tuple[str, ...]
    twice: tuple[Twice, ...]
    skipped: tuple[Skipped, ...]
    named: bool
    names: Mapping[str, str]
    list_gone: str


def collect(folder: Path, name: str, list_file: str) -> Collected:
    """Gather every hand-in file of a folder, those of its folders too.

    Args:
        name: what to call the class; "" takes the folder's name.
        list_file: the class list; "" takes the one named before.

    Raises:
        DrillError: there is no such folder or list.
    """
    if not folder.is_dir():
        raise DrillError(f'there is no folder "{one_line(str(folder))}".')
    names = read_list(Path(list_file)) if list_file else {}
    room = class_for(name, folder)
    listed = str(Path(list_file).resolve()) if list_file else room.listed
    taking = _Taking(room)
    for path in _files(folder):
        if str(path.resolve()) != listed:
            taking.take(path, one_line(str(path.relative_to(folder)), 80))
    room.save()
    if mixed_up(names, (str(head["code"]) for _, head in room.heads())):
        raise DrillError(
            f"{one_line(list_file)}: its names are the codes of who handed in. Are the columns "
            "swapped? The work is gathered; the list was not taken."
        )
    room.listed = listed
    room.save()
    return _told(room, taking, bool(name))


class _Taking:
    """Files taken one after the other; one is in memory at a time."""

    def __init__(self, room: ClassRoom) -> None:
        self.room, self.files = room, 0
        self.states: dict[str, str] = {}
        self.skipped: list[Skipped] = []
        self._known = room.taken()

    def take(self, path: Path, shown: str) -> None:
        """Add a file's answers to those already here, or note why it was skipped."""
        self.files += 1
        try:
            with path.open("rb") as file:
                data = file.read(LARGEST + 1)
            digest = blake2b(data, digest_size=12).hexdigest()
            learner = self._known.get(digest)
            if learner is None:
                self._add(unpacked(data), data, digest, shown)
            elif learner in self.states:
                self.skipped.append(Skipped(shown, _TWICE, refused=False))
            else:
                self.states[learner] = "unchanged"
        except NotHandIn as error:
            self.skipped.append(Skipped(shown, str(error)))
        except OSError as error:
            self.skipped.append(Skipped(shown, f"cannot be read ({error.strerror})."))

    def _add(self, one: HandIn, data: bytes, digest: str, shown: str) -> None:
        self._known[digest] = one.learner
        try:
            old = self.room.kept(one.learner)
        except NotHandIn:  # the kept copy is damaged: what came stands in its place
            old = None
        both = merged(old, one)
        if both != old:
            self.room.keep(both, digest, data if old is None else None)
            before = self.states.get(one.learner) or ("updated" if old else "new")
            self.states[one.learner] = "updated" if before == "unchanged" else before
        elif one.learner in self.states:
            self.skipped.append(Skipped(shown, _TWICE, refused=False))
        else:
            self.states[one.learner] = "unchanged"


def _files(folder: Path) -> Iterator[Path]:
    """Its files, by name; what a link leads to is not followed."""
    number = 0
    for place, folders, names in os.walk(folder):
        folders[:] = sorted(one for one in folders if not one.startswith("."))
        for name in sorted(names):
            path = Path(place) / name
            if name.startswith(".") or path.is_symlink() or not path.is_file():
                continue
            number += 1
            if number > _MOST_FILES:
                raise DrillError(f"the folder holds more than {_MOST_FILES} files.")
            yield path


def _told(room: ClassRoom, taking: _Taking, named: bool) -> Collected:
    heads = dict(room.heads())
    codes = {one: room.counts_for(one, str(head["code"])) for one, head in heads.items()}
    known = list(codes.values())
    listed = room.names()
    seen = {code.casefold() for code in known}
    machines = Counter(codes[one] for one, head in heads.items() if not head["paper"])

    def which(state: str) -> tuple[str, ...]:
        return tuple(sorted({codes[one] for one, found in taking.states.items() if found == state}))

    return Collected(
        title=room.title,
        files=taking.files,
        answers=sum(head["sums"]["answers"] for head in heads.values()),
        new=which("new"),
        updated=which("updated"),
        unchanged=which("unchanged"),
        missing=tuple(sorted(code for code in listed if code not in seen)),
        not_listed=tuple(
            sorted({code for code in known if listed and code.casefold() not in listed})
        ),
        twice=tuple(Twice(code, n) for code, n in sorted(machines.items()) if n > 1),
        skipped=tuple(taking.skipped),
        named=named,
        names=listed,
        list_gone=room.list_gone,
    )


def join(room: ClassRoom, learner: str, code: str) -> str:
    """Count a machine's answers for the pupil with that code; returns the machine's id.

    Raises:
        DrillError: no machine's id ends so.
    """
    found = _learner(room, learner)
    room.joined[found] = code
    room.save()
    return found


def part(room: ClassRoom, learner: str) -> str:
    """Count a machine's answers apart again; returns the code they have from now on.

    Two machines with the same code count as one pupil, so one of two is given another code.
    """
    found = _learner(room, learner)
    heads = dict(room.heads())
    own = str(heads[found]["code"])
    others = {room.counts_for(one, head["code"]) for one, head in heads.items() if one != found}
    room.joined.pop(found, None)
    code, number = own, 1
    while code in others:
        number += 1
        code = f"{own}-{number}"
    if code != own:
        room.joined[found] = code
    room.save()
    return code


def _learner(room: ClassRoom, ends: str) -> str:
    found = [one for one in room.learners() if one.endswith(ends.casefold())]
    if len(ends) < 4 or len(found) != 1:
        raise DrillError(f'"{one_line(ends, 40)}" names no machine. drill class pupils lists them.')
    return found[0]
