"""The store: everything a learner has done on this computer, in one file that is only added to.

What is typed is committed before it is judged, a verdict before it is shown. Whatever else the
program knows can be rebuilt from here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from drill.store import memory as memory_rows
from drill.store import people, reading, sittings
from drill.store.file import StoreFile
from drill.store.rows import AskingRow, Learner, MemoryRow, NewAsking, OpenMark, SittingRow
from drill.store.values import stamp

if TYPE_CHECKING:
    from drill.model import Mark


class Store(StoreFile):
    """What is in an open store: learners and settings, questions, answers and what is said of them.

    See `StoreFile` for how it is opened, carried, checked and copied.
    """

    # ------------------------------------------------------------ learners and settings

    def learners(self) -> tuple[Learner, ...]:
        """Everybody who shares this computer, in the order they came."""
        return people.learners(self._db)

    def new_learner(self, code: str, now: datetime) -> Learner:
        """Add somebody under a free code; `DrillError` when taken or not a code."""
        return people.new_learner(self._db, code, now)

    def rename_learner(self, code: str, new: str, now: datetime) -> Learner:
        """Give a learner another code; `DrillError` when there is none, or the new one is taken."""
        return people.rename_learner(self._db, code, new, now)

    def setting(self, learner: Learner | None, name: str) -> str | None:
        """The value set last, None when never set; learner None asks for the machine's own."""
        return people.setting(self._db, learner, name)

    def settings_in_order(self, learner: Learner, name: str) -> list[tuple[datetime, str]]:
        """When a setting was set and to what, each time; the value that counts now comes last."""
        return people.settings_in_order(self._db, learner, name)

    def set_setting(self, learner: Learner | None, name: str, value: str, now: datetime) -> None:
        """Set a value from now on."""
        people.set_setting(self._db, learner, name, value, now)

    # ------------------------------------------------------------ questions

    def keep_template(
        self,
        version: str,
        template_id: str,
        text: str,
        rows: Sequence[Mapping[str, object]],
        slips: Mapping[str, object],
    ) -> None:
        """Keep a version's text, the facts rows and shared slips it uses; once is enough."""
        sittings.keep_template(self._db, version, template_id, text, rows, slips)

    def template_text(self, version: str) -> str:
        """The text of a kept version; `KeyError` when it was never kept.

        Raises:
            DrillError: it is damaged.
        """
        from drill.store.tables import whole_rows

        rows, damaged = whole_rows(self._db, "template_version", 'WHERE "hash" = ?', version)
        if damaged and not rows:
            raise self._db.damaged()
        if not rows:
            raise KeyError(f"version {version} was not kept")
        return str(rows[0]["text"])

    def offered(self, learner: Learner) -> list[OpenMark]:
        """Answers with a mark that somebody in charge gave elsewhere and nobody accepted here."""
        return reading.offered_marks(self._db, learner)

    def marked(self, learner: Learner) -> list[OpenMark]:
        """Every answer of a learner that has a mark."""
        return reading.marked(self._db, learner)

    def settled_since(self, learner: Learner, place: int) -> tuple[list[OpenMark], int]:
        """Answers that a teacher or tutor judged since a place; and the place to ask from next."""
        return reading.settled_since(self._db, learner, place)

    def keep_passed(self, version: str, now: datetime | None = None) -> None:
        """Note that a version from outside has been proved on this computer."""
        if not self.passed(version):
            when = now or datetime.now().astimezone()
            self._db.insert("passed", hash=version, **stamp(when))

    def passed(self, version: str) -> bool:
        """Whether a version has been proved on this computer."""
        return self._db.row('SELECT 1 FROM "passed" WHERE "hash" = ?', version) is not None

    def used_seeds(self, learner: Learner, template: str) -> set[int]:
        """Every seed this learner has seen of a template."""
        return memory_rows.used_seeds(self._db, learner, template)

    # ------------------------------------------------------------ a sitting, as it goes

    def start_sitting(
        self, learner: Learner, deck_id: str, now: datetime, goal: Mapping[str, object]
    ) -> bytes:
        """Begin a sitting; returns its id."""
        return sittings.start_sitting(self._db, learner, deck_id, now, goal)

    def end_sitting(self, id: bytes, now: datetime, how: str) -> None:
        """Close a sitting; `how` says in a word why."""
        sittings.end_sitting(self._db, id, now, how)

    def open_sittings(self, learner: Learner) -> list[SittingRow]:
        """Sittings begun here and not ended, with their askings, the latest first."""
        return reading.open_sittings(self._db, learner)

    def hold_sitting(self, id: bytes) -> bool:
        """Take a sitting for this window; False when it goes on in another one just now."""
        return self._held.take(id)

    def asked_elsewhere(self, learner: Learner, sitting: bytes) -> set[str]:
        """Templates that are being asked in other windows just now, besides one's own sitting."""
        return {
            template
            for id, template in reading.last_asked(self._db, learner)
            if id != sitting and self._held.is_elsewhere(id)
        }

    def ask(self, new: NewAsking, now: datetime) -> bytes:
        """A question was put, or its worked answer presented; returns the asking's id."""
        return sittings.ask(self._db, new, now)

    def give_reading(self, asking: bytes, name: str, text: str, now: datetime) -> None:
        """Keep a reading that the learner took, with the question it is for."""
        sittings.reading(self._db, asking, name, text, now)

    def answer(
        self,
        asking: bytes,
        part: str,
        text: str,
        kind: str,
        sure: str | None,
        seconds: float,
        now: datetime,
        id: bytes | None = None,
    ) -> bytes:
        """What was typed, on disk when this returns its id; kind: answer, pass, fix, hint, paper.

        `id` is the one it has on another machine, where it was answered there.
        """
        return sittings.answer(self._db, asking, part, text, kind, sure, seconds, now, id)

    def verdict(
        self,
        answer: bytes,
        by: str,
        marker: str,
        mark: Mark,
        now: datetime,
        note: str | None = None,
    ) -> bytes:
        """A judgement by engine, learner, teacher or paper, on disk when this returns its id."""
        return sittings.verdict(self._db, answer, by, marker, mark, now, note)

    def accept(self, verdict: bytes, now: datetime) -> None:
        """Take over a verdict that somebody in charge gave on another machine: it counts now."""
        sittings.accept(self._db, verdict, now)

    def appeal(self, answer: bytes, reason: str, now: datetime) -> None:
        """The learner contests the mark of an answer."""
        sittings.appeal(self._db, answer, reason, now)

    def faulty(self, asking: bytes, note: str, now: datetime) -> None:
        """The question itself is said to be wrong."""
        sittings.faulty(self._db, asking, note, now)

    # ------------------------------------------------------------ what was done

    def askings(self, learner: Learner, since: datetime | None = None) -> list[AskingRow]:
        """A learner's questions by time, with their answers and the verdict in force on each."""
        return reading.by_learner(self._db, learner, since)

    def asking(self, id: bytes) -> AskingRow:
        """One question with its answers; `KeyError` when there is none."""
        return reading.by_id(self._db, id)

    def asked(
        self, learner: Learner, recent: int = memory_rows.RECENT
    ) -> list[tuple[str, str, datetime, float]]:
        """(skill, template, when, seconds) of the latest questions answered, for the planner.

        Besides the `recent` latest, the last asking of every other template.
        """
        return memory_rows.asked(self._db, learner, recent)

    def seconds_of(self, asking: bytes) -> float:
        """Seconds spent on one question."""
        return memory_rows.seconds_of(self._db, asking)

    def open_marks(self, learner: Learner) -> list[OpenMark]:
        """Marks a teacher or tutor should settle: contested, or the marker was not sure."""
        return reading.open_marks(self._db, learner)

    # ------------------------------------------------------------ memory, a cache

    def save_memory(self, learner: Learner, memory: MemoryRow) -> None:
        """Cache a memory with the weights it was made with and how far the store was read."""
        memory_rows.save_memory(self._db, learner, memory)

    def load_memory(self, learner: Learner) -> MemoryRow | None:
        """The cached memory, None when there is none."""
        return memory_rows.load_memory(self._db, learner)

    def seen(self) -> str:
        """How far the store goes now, for `changed_since`."""
        return memory_rows.seen(self._db)

    def changed_since(self, learner: Learner, seen: str) -> dict[bytes, bool] | None:
        """{asking: whether it was put since} of what changed; None: all of it may have."""
        return memory_rows.changed_since(self._db, learner, seen)

    def is_latest(self, asking: bytes) -> bool:
        """Whether none of the learner's questions has a later time than this one."""
        return memory_rows.is_latest(self._db, asking)
