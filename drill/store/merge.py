"""Putting records from another computer beside what is here, each only once.

A record goes in whole or not at all, and one that does not fit keeps nobody else out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.fitness import Unfit, fit
from drill.store.people import LONGEST_CODE, find_learner, is_code
from drill.store.records import CARRIED, Record
from drill.store.rows import Learner
from drill.store.tables import TableShape, shape
from drill.store.values import new_id


@dataclass(frozen=True)
class Arrival:
    """A record with the line it stands on and the code its learner has where it comes from."""

    line: int
    code: str
    record: Record


@dataclass(frozen=True)
class MergeFault:
    """Why a line did not go in."""

    line: int
    message: str


@dataclass(frozen=True)
class Merged:
    """How many records were added, how many were here already, and which did not fit.

    `renamed` holds (code there, code here) of learners whose code somebody else has here.
    """

    added: int
    known: int
    faults: tuple[MergeFault, ...]
    renamed: tuple[tuple[str, str], ...] = ()


def merge(db: Database, arrivals: Iterable[Arrival], into: Learner | None = None) -> Merged:
    """Add what is not here yet, all in one transaction.

    Args:
        arrivals: in any order; they are put in with what they refer to first.
        into: a learner of this computer to whom everything is credited; None keeps them apart.
    """
    ordered = sorted(arrivals, key=lambda one: CARRIED.index(one.record.table))
    with db.transaction():
        work = _Merging(db, into)
        for arrival in ordered:
            work.take(arrival)
        if work.added:  # what learners remember has changed: it is rebuilt when next asked for
            db.rows('DELETE FROM "memory_state"')
    faults = tuple(sorted(work.faults, key=lambda fault: fault.line))
    return Merged(work.added, work.known, faults, tuple(work.renamed.values()))


@dataclass
class _Merging:
    """One merge under way."""

    db: Database
    into: Learner | None
    added: int = 0
    known: int = 0
    faults: list[MergeFault] = field(default_factory=list)
    renamed: dict[Cell, tuple[str, str]] = field(default_factory=dict)
    shapes: dict[str, TableShape] = field(default_factory=dict)

    def take(self, arrival: Arrival) -> None:
        """Put one record in, or note why not and leave no trace of it."""
        self.db.rows("SAVEPOINT record")
        try:
            if self._is_known(arrival.record):
                self.known += 1
            else:
                self._insert(arrival)
                self.added += 1
        except Unfit as error:
            self.db.rows("ROLLBACK TO record")
            self.faults.append(MergeFault(arrival.line, str(error)))
        self.db.rows("RELEASE record")

    # ------------------------------------------------------------ one record

    def _is_known(self, record: Record) -> bool:
        values = record.values
        if record.table == "learner_name" and self.into is not None:
            return True  # a name of somebody who has one here
        if record.table == "template_version":
            names = values.get("hash"), values.get("template")
            return all(isinstance(name, str) for name in names) and bool(self._version(*names))
        id = values.get("id")
        if not isinstance(id, bytes) or len(id) != 16:
            raise Unfit(f"{record.table}: it has no id")
        return self.db.row(f'SELECT 1 FROM "{record.table}" WHERE "id" = ?', id) is not None

    def _insert(self, arrival: Arrival) -> None:
        table, values = arrival.record.table, dict(arrival.record.values)
        made = self._shape(table)
        stands_for = {**made.types, **dict.fromkeys(made.refers, "BLOB")}
        if "deck" in made.refers:
            stands_for["deck"] = "TEXT"
        if stands_for.pop("template_version", None):
            stands_for |= {"hash": "TEXT", "template": "TEXT"}
        if self.into is not None and "learner" in values:
            values["learner"] = self.into.id
        sound = fit(table, values, stands_for, made.optional - {"learner"})
        self._refer(sound, made, arrival)
        if table == "learner_name":
            sound["code"] = self._free(str(sound["code"]), sound["learner"])
        self.db.insert(table, **sound)

    def _shape(self, table: str) -> TableShape:
        if table not in self.shapes:
            self.shapes[table] = shape(self.db, table)
        return self.shapes[table]

    # ------------------------------------------------------------ what it refers to

    def _refer(self, values: dict[str, Cell], made: TableShape, arrival: Arrival) -> None:
        """Keys of this file in place of ids; learners and decks are made when they are missing."""
        for column, table in made.refers.items():
            if table == "learner":
                values[column] = self._learner(values, arrival)
            elif table == "deck":
                values[column] = self._deck(values)
            elif table == "template_version":
                values[column] = self._kept_version(values)
            else:
                values[column] = self._key(table, values[column])
        if "sitting" in made.refers and "learner" in made.refers:  # one sitting, one learner
            found = self.db.row(
                'SELECT "learner" FROM "sitting" WHERE "key" = ?', values["sitting"]
            )
            values["learner"] = found[0] if found else None

    def _key(self, table: str, id: Cell) -> int:
        found = self.db.row(f'SELECT "key" FROM "{table}" WHERE "id" = ?', id)
        if found is None:
            raise Unfit(f"it belongs to another {table} line that is damaged or missing")
        return int(found[0])

    def _learner(self, values: dict[str, Cell], arrival: Arrival) -> int:
        id = values["learner"]
        found = self.db.row('SELECT "key" FROM "learner" WHERE "id" = ?', id)
        return int(found[0]) if found else self._new_learner(id, values, arrival)

    def _new_learner(self, id: Cell, values: dict[str, Cell], arrival: Arrival) -> int:
        if not isinstance(id, bytes) or len(id) != 16 or not is_code(arrival.code):
            raise Unfit("it does not say whose it is")
        since = {"at": values["at"], "zone": values["zone"]}
        key = self.db.insert("learner", id=id, **since)
        if arrival.record.table != "learner_name":  # that one is about to bring the code itself
            code = self._free(arrival.code, key)
            self.db.insert("learner_name", id=new_id(), learner=key, code=code, **since)
        return key

    def _free(self, code: str, learner: Cell) -> str:
        """The code, or one like it when somebody else here has it."""
        wanted, number = code, 1
        while (holder := find_learner(self.db, code)) is not None:
            if self.db.key("learner", holder.id) == learner:
                break
            number += 1
            code = f"{wanted[: LONGEST_CODE - len(f'-{number}')]}-{number}"
        if code != wanted:
            self.renamed[learner] = (wanted, code)
        else:
            self.renamed.pop(learner, None)
        return code

    def _deck(self, values: dict[str, Cell]) -> int:
        found = self.db.row('SELECT "key" FROM "deck" WHERE "name" = ?', values["deck"])
        if found:
            return int(found[0])
        since = {"at": values["at"], "zone": values["zone"]}
        return self.db.insert("deck", name=values["deck"], **since)

    def _version(self, hash: Cell, template: Cell) -> int | None:
        found = self.db.row(
            'SELECT "key" FROM "template_version" WHERE "hash" = ? AND "template" = ?',
            hash,
            template,
        )
        return int(found[0]) if found else None

    def _kept_version(self, values: dict[str, Cell]) -> int:
        key = self._version(values.pop("hash"), values.pop("template"))
        if key is None:
            raise Unfit("the line that brings the text of its question is damaged or missing")
        return key
