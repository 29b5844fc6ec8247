"""A class on this machine: what pupils handed in, gathered once each, and the sums of it.

A folder in the data folder; a file a pupil's machine with everything that came from it, and beside
it the sums that the report reads. Names are only in the teacher's own list, which stays where it
is.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path
from typing import Any, NamedTuple

from drill.app.classes.class_list import code_in, read_list
from drill.app.classes.class_merge import BY_HAND, union
from drill.app.classes.class_sums import Answer, PupilSums, pupil_sums
from drill.app.classes.kept_files import (
    KeptClass,
    KeptDecision,
    read_as,
    with_digest,
    without_digest,
)
from drill.errors import DrillError
from drill.exchange.hand_in import HandedIn, HandIn, NotHandIn, packed, unpacked
from drill.places import data_dir, private_file, private_folder, put
from drill.plaintext import listed, one_line

SUMS = 4
"""Raised when sums of the same answers would come out otherwise."""
_MOST_DIGESTS = 20
_LAST_USED = "last"


@dataclass(frozen=True)
class Pupil:
    """Somebody of the class: all their machines together. `name` is the teacher's, or ""."""

    code: str
    name: str
    machines: tuple[str, ...]
    sums: PupilSums
    minutes: int
    made: int


class Decision(NamedTuple):
    """What the teacher decided on an answer: marks by point, who it was, a line to the pupil.

    `again`: the pupil contested a mark that a person in charge had given.
    """

    points: Mapping[str, int]
    by: str = "teacher"
    reply: str = ""
    again: bool = False


@dataclass
class ClassRoom:
    """One class. `joined`: {machine's learner: code of the pupil it counts for}."""

    folder: Path
    title: str
    source: str = ""
    listed: str = ""
    joined: dict[str, str] = field(default_factory=dict)
    _settled: dict[str, Decision] | None = None

    def save(self) -> None:
        """Keep what is set."""
        private_folder(self.folder)
        values = {"title": self.title, "source": self.source, "list": self.listed}
        put(
            self.folder / "class.json",
            json.dumps({**values, "joined": self.joined}).encode(),
            private=True,
        )

    def kept(self, learner: str) -> HandIn | None:
        """What came from a machine so far."""
        path = self.folder / f"{learner}.handin"
        return unpacked(path.read_bytes()) if path.is_file() else None

    def learners(self) -> list[str]:
        """The machines' learners, by id."""
        return sorted(path.stem for path in self.folder.glob("*.handin"))

    def keep(self, one: HandIn, digest: str = "", data: bytes | None = None) -> None:
        """Keep what came, then its sums.

        Args:
            digest: of the file it came from, so that the same file need not be read again.
            data: its bytes, where nothing was added to them.
        """
        private_folder(self.folder)
        before = _read_head(self.folder / f"{one.learner}.sums")
        files = [*(before["files"] if before else []), digest][-_MOST_DIGESTS:]
        put(self.folder / f"{one.learner}.handin", data or packed(one), private=True)
        self._keep_sums(one, files)

    def taken(self) -> dict[str, str]:
        """{digest of a file: machine's learner} of files that are in already."""
        return {
            digest: learner for learner, head in self.heads() for digest in head["files"] if digest
        }

    def heads(self) -> Iterator[tuple[str, dict[str, Any]]]:
        """(learner, what is known of a machine's answers without reading them), sums included."""
        for learner in self.learners():
            head = _read_head(self.folder / f"{learner}.sums")
            if head is None:  # another version's, or lost: made anew
                one = self.kept(learner)
                assert one is not None
                head = self._keep_sums(one, [])
            yield learner, head

    def counts_for(self, learner: str, own: str) -> str:
        """The code that a machine's answers count for: its own, or the one it was joined to."""
        return self.joined.get(learner, own)

    def codes(self) -> set[str]:
        """The codes of everybody whose work came."""
        return {self.counts_for(learner, str(head["code"])) for learner, head in self.heads()}

    def pupils(self) -> list[Pupil]:
        """Everybody whose work came, in order of code."""
        names = self.names()
        together: dict[str, list[tuple[str, dict[str, Any]]]] = {}
        for learner, head in self.heads():
            code = self.counts_for(learner, head["code"])
            together.setdefault(code, []).append((learner, head))
        return [
            _pupil(self, code, names.get(code.casefold(), ""), machines)
            for code, machines in sorted(together.items())
        ]

    def names(self) -> dict[str, str]:
        """{code in small letters: name} of the teacher's list; empty without one.

        No copy is kept of it, so it is empty too while the list is not where it was.
        """
        return read_list(Path(self.listed)) if self.listed and not self.list_gone else {}

    @property
    def list_gone(self) -> str:
        """What the class list was called, when it is not where it was; else ""."""
        path = Path(self.listed)
        return path.name if self.listed and not path.is_file() else ""

    def code_of(self, given: str) -> str:
        """The code that a code or a name of the class list stands for; itself where it is none.

        Raises:
            DrillError: several of the list have the name.
        """
        return code_in(self.names(), given)

    def settled(self) -> dict[str, Decision]:
        """{answer's id in hex: what the teacher decided here}; the last word counts."""
        if self._settled is None:
            self._settled = dict(_decisions(self.folder / "settled.jsonl"))
        return self._settled

    def settle(self, learner: str, answer: str, decision: Decision, now: datetime) -> None:
        """Keep a decision, and count it in the sums of the machine that the answer came from.

        Earlier decisions on the same answer stay on record.
        """
        path = self.folder / "settled.jsonl"
        private_file(path)
        row = {"answer": answer, **decision._asdict(), "at": now.isoformat()}
        with path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(row, ensure_ascii=False) + "\n")
            file.flush()
            os.fsync(file.fileno())
        self.settled()[answer] = decision
        one, before = self.kept(learner), _read_head(self.folder / f"{learner}.sums")
        if one is not None:
            self._keep_sums(one, before["files"] if before else [])

    def forget(self, answers: set[str]) -> None:
        """Take decisions on these answers away."""
        path = self.folder / "settled.jsonl"
        if path.is_file() and not answers.isdisjoint(self.settled()):
            kept = [line for line in path.read_text("utf-8").splitlines()
                    if not any(answer in line for answer in answers)]  # fmt: skip
            put(path, "".join(f"{line}\n" for line in kept).encode(), private=True)
            self._settled = None

    def _keep_sums(self, one: HandIn, files: Sequence[str]) -> dict[str, Any]:
        head = _head(one, self.as_settled(one.rows), files)
        put(
            self.folder / f"{one.learner}.sums",
            with_digest(json.dumps(head).encode()),
            private=True,
        )
        return head

    def as_settled(self, rows: Iterable[HandedIn]) -> Iterator[HandedIn]:
        """The answers with what the teacher decided here in place of the marks that came."""
        done = self.settled()
        return (settled_row(row, done.get(row.answer.hex())) for row in rows)

    def handed_in(self) -> Iterator[tuple[str, HandIn]]:
        """(code, answers) machine by machine, as settled here; one is in memory at a time."""
        for learner in self.learners():
            one = self.kept(learner)
            if one is not None:
                rows = tuple(self.as_settled(one.rows))
                yield self.counts_for(learner, one.code), replace(one, rows=rows)


def settled_row(row: HandedIn, decision: Decision | None) -> HandedIn:
    """An answer with the marks that were decided; a point that was left out keeps its own.

    A pupil who knows of a decision and contests it waits for another one.
    """
    if decision is None or (contests_decision(row) and not decision.again):
        return row
    points = [
        [id_, min(decision.points.get(id_, marks), of), of]
        for id_, marks, of in json.loads(row.points)
    ]
    marks, of = sum(one[1] for one in points), sum(one[2] for one in points)
    text = json.dumps(points, ensure_ascii=False, separators=(",", ":"))
    mistake = "" if marks > row.marks else row.mistake
    return row._replace(marks=marks, of=of, points=text, unsure="", mistake=mistake,
                        judge=decision.by, appeal=None)  # fmt: skip


def contests_decision(row: HandedIn) -> bool:
    """Whether it is a person's mark that the pupil contests."""
    return row.judge in BY_HAND and row.appeal is not None


def _decisions(path: Path) -> Iterator[tuple[str, Decision]]:
    """What was decided, in order; a line that was cut short when the machine failed is left out."""
    for line in path.read_bytes().splitlines() if path.is_file() else ():
        row = read_as(KeptDecision, line)
        if row is not None:
            yield row.answer, Decision(row.points, row.by, row.reply, row.again)


def _pupil(room: ClassRoom, code: str, name: str, machines: list[tuple[str, Any]]) -> Pupil:
    if len(machines) == 1:
        sums = PupilSums(**machines[0][1]["sums"])
    else:  # the same answer may have come from both
        rows: dict[bytes, HandedIn] = {}
        for learner, _ in machines:
            one = room.kept(learner)
            rows = union(rows, tuple(room.as_settled(one.rows)) if one else ())
        sums = sums_of(rows.values())
    return Pupil(
        code, name, tuple(learner for learner, _ in machines), sums,
        max(head["minutes"] for _, head in machines), max(head["made"] for _, head in machines),
    )  # fmt: skip


def sums_of(rows: Iterable[HandedIn]) -> PupilSums:
    """The sums of a pupil's answers."""
    return pupil_sums(map(answer_of, rows))


def answer_of(row: HandedIn) -> Answer:
    """What the sums need of an answer."""
    contested = row.appeal is not None
    waits = contested or bool(row.unsure)
    return Answer(
        row.item.template, row.item.part, row.item.skill, row.at, row.zone, row.ms, row.marks,
        row.of, row.mistake, waits, row.answer.hex(), contested, row.faulty,
    )  # fmt: skip


def _head(one: HandIn, rows: Iterable[HandedIn], files: Sequence[str]) -> dict[str, Any]:
    """`paper`: nothing but marks from paper, which were typed in on this machine."""
    head = {"format": SUMS, "code": one.code, "minutes": one.minutes, "made": one.made}
    paper = bool(one.rows) and all(row.judge == "paper" for row in one.rows)
    sums = sums_of(rows).as_json()
    return {**head, "files": list(files), "deck": one.deck, "paper": paper, "sums": sums}


def _read_head(path: Path) -> dict[str, Any] | None:
    body = without_digest(path)
    head = json.loads(body) if body is not None else {}
    return head if head.get("format") == SUMS else None


# ---------------------------------------------------------------- which class


def classes() -> list[str]:
    """The names of the classes gathered here."""
    home = data_dir() / "classes"
    return sorted(path.parent.name for path in home.glob("*/class.json"))


def class_named(name: str) -> ClassRoom:
    """A class gathered here before; "" is the one gathered last.

    Raises:
        DrillError: there is none of that name.
    """
    home = data_dir() / "classes"
    if not name and (home / _LAST_USED).is_file():
        name = (home / _LAST_USED).read_text("utf-8", "replace").strip()
    folder = home / _folder_name(name or " ")
    file = folder / "class.json"
    kept = read_as(KeptClass, file.read_bytes()) if file.is_file() else None
    if kept is None:
        known = listed(classes())
        there = f"There is: {known}." if known else "Gather one with: drill class collect FOLDER"
        raise DrillError(f'no class "{one_line(name)}" here. {there}')
    return ClassRoom(folder, kept.title, kept.source, kept.list, dict(kept.joined))


def class_for(name: str, source: Path) -> ClassRoom:
    """The class gathered from a folder, by its name or another one; made when it is new.

    Raises:
        DrillError: another folder's class has that name already.
    """
    title = name or source.resolve().name
    home = data_dir() / "classes"
    folder = home / _folder_name(title)
    private_folder(home)
    if (folder / "class.json").is_file():
        room = class_named(title)
        if not name and room.source and room.source != str(source.resolve()):
            raise DrillError(
                f'the class "{one_line(title)}" was gathered from {one_line(room.source)}. '
                "If it is the same class, or to call this one otherwise, add --class NAME."
            )
    else:
        room = ClassRoom(folder, title)
    room.source = str(source.resolve())
    put(home / _LAST_USED, title.encode(), private=True)
    return room


def _folder_name(title: str) -> str:
    letters = "".join(sign if sign.isalnum() else "-" for sign in title.casefold())
    return letters.strip("-")[:60] or "class"


__all__ = ["ClassRoom", "NotHandIn", "Pupil", "class_for", "class_named", "classes"]
