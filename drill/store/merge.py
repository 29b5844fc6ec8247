"""Putting records from another computer beside what is here, each only once.

A record is added whole or not at all, and an invalid one does not stop the others. Each import is
recorded as one arrival, so that all of it can be undone.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime

from drill.store.arrivals import joined, last_keys, note
from drill.store.checksum import Cell
from drill.store.database import Database
from drill.store.fitness import Unfit, fit
from drill.store.order import own_machine
from drill.store.owners import Owners
from drill.store.people import call_here, is_code, learners
from drill.store.records import CARRIED, NAMED, Record
from drill.store.rows import Learner
from drill.store.sittings import word
from drill.store.tables import TableShape, shape
from drill.store.values import new_id

_OURS = ("learner", "code", "sitting")
"""Columns that may differ in a row that is here already: whose it is here, and under which code."""


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

    `new`: codes of learners who were not here before; `renamed`: (code there, code here) of those
    whose code somebody else has here; `recoded`: (code before, code now) of those known here;
    `offered`: verdicts of people in charge that count only once they are accepted here;
    `left_out`: how many lines did not go in, of which `faults` may be the first only;
    `added_to`: codes of learners who were here and have more rows now.
    """

    added: int
    known: int
    faults: tuple[MergeFault, ...]
    new: tuple[str, ...] = ()
    renamed: tuple[tuple[str, str], ...] = ()
    recoded: tuple[tuple[str, str], ...] = ()
    offered: int = 0
    left_out: int = 0
    added_to: tuple[str, ...] = ()


def merge(
    db: Database,
    arrivals: Iterable[Arrival],
    now: datetime,
    into: Learner | None = None,
    file: str = "",
) -> Merged:
    """Add what is not here yet, all in one transaction.

    Args:
        arrivals: in any order; they are put in with what they refer to first.
        into: a learner of this computer to whom everything is credited, as both are one person;
            None keeps them apart, but for those credited to somebody before.
        file: the name it came under, to tell one arrival from another.
    """
    ordered = sorted(arrivals, key=lambda one: CARRIED.index(one.record.table))
    with db.transaction():
        own_machine(db)
        before, keys = {one.id: one.code for one in learners(db)}, last_keys(db)
        together = joined(db)
        work = _Merging(db, into, together, Owners(db, ordered, into, together))
        for arrival in ordered:
            work.take(arrival)
        renamed = _codes_apart(db, before, now)
        if work.added:
            whose = into.id if into is not None else next(map(work.joined.get, work.credited), None)
            note(db, now, whose, file, work.credited, keys)
            db.rows('DELETE FROM "memory_state"')
        after = {one.id: one.code for one in learners(db)}
    return Merged(
        work.added,
        work.known,
        tuple(sorted(work.faults, key=lambda fault: fault.line)),
        tuple(code for id, code in after.items() if id not in before),
        tuple(renamed),
        tuple(
            (code, after[id])
            for id, code in before.items()
            if after[id] != code and (code, after[id]) not in renamed
        ),
        work.offered,
        len(work.faults),
        tuple(code for id, code in after.items() if id in work.owners.added_to),
    )


def _codes_apart(db: Database, before: dict[bytes, str], now: datetime) -> list[tuple[str, str]]:
    """Give those who came under a code that is taken another one, on this machine."""
    everybody = learners(db)
    # whoever was here under this code before keeps it
    everybody = tuple(sorted(everybody, key=lambda one: before.get(one.id) != one.code))
    taken: set[str] = set()
    renamed = []
    for one in everybody:
        if one.code.casefold() in taken:
            others = {other.code.casefold() for other in everybody}
            here = call_here(db, one, taken | others, now)
            renamed.append((one.code, here.code))
            taken.add(here.code.casefold())
        taken.add(one.code.casefold())
    return renamed


@dataclass
class _Merging:
    """One merge under way."""

    db: Database
    into: Learner | None
    joined: dict[bytes, bytes]
    owners: Owners
    added: int = 0
    known: int = 0
    offered: int = 0
    faults: list[MergeFault] = field(default_factory=list)
    credited: set[bytes] = field(default_factory=set)
    shapes: dict[str, TableShape] = field(default_factory=dict)

    def take(self, arrival: Arrival) -> None:
        """Add one record, or note why it was rejected and undo it."""
        self.db.rows("SAVEPOINT record")
        try:
            record = self._credited(arrival.record)
            if record is not None and record.table == "acceptance" and not self._is_ours(record):
                pass  # what others accepted is theirs to say
            elif record is None or self._is_known(record):
                self.known += 1
            else:
                self._insert(record, arrival.code)
                self.added += 1
        except Unfit as error:
            self.db.rows("ROLLBACK TO record")
            self.faults.append(MergeFault(arrival.line, str(error)))
        self.db.rows("RELEASE record")

    def _credited(self, record: Record) -> Record | None:
        """The record as one of the learner it is credited to; None for what stays behind."""
        id = record.values.get("learner")
        if "learner" not in record.values or not isinstance(id, bytes):
            return record
        ours = self.into.id if self.into is not None else self.joined.get(id)
        if ours is None or ours == id:
            return record
        self.credited.add(id)
        if record.table == "learner_name":
            return None  # a name of somebody who has one here
        return Record(record.table, {**record.values, "learner": ours})

    # ------------------------------------------------------------ one record

    def _is_known(self, record: Record) -> bool:
        values, table = record.values, record.table
        if table == "template_version":
            hash, template = values.get("hash"), values.get("template")
            both = isinstance(hash, str) and isinstance(template, str)
            return both and self._version(hash, template) is not None
        id = values.get("id")
        if not isinstance(id, bytes) or len(id) != 16:
            raise Unfit(f"{table}: it has no id")
        made = self._shape(table)
        names = [name for name in made.types if name not in made.refers]
        columns = ", ".join(f'"{name}"' for name in names)
        row = self.db.row(f'SELECT {columns} FROM "{table}" WHERE "id" = ?', id)
        if row is None:
            return False
        here = dict(zip(names, row, strict=True))
        if any(here[name] != values.get(name) for name in names if name not in _OURS):
            raise Unfit(f"{table}: another one is here under the same id")
        return True

    def _insert(self, record: Record, code: str) -> None:
        table, values = record.table, dict(record.values)
        made = self._shape(table)
        stands_for = {**made.types, **dict.fromkeys(made.refers, "BLOB")}
        stands_for |= {name: "TEXT" for name in NAMED if name in made.refers and name != "origin"}
        if stands_for.pop("template_version", None):
            stands_for |= {"hash": "TEXT", "template": "TEXT"}
        sound = fit(table, values, stands_for, made.optional - {"learner"})
        self._refer(sound, made, code)
        self.owners.check(table, sound, code)
        self.db.insert(table, **sound)
        if table == "verdict":
            self.offered += sound["judge"] in ("teacher", "paper")
        if table == "acceptance":
            self.offered -= 1

    def _is_ours(self, acceptance: Record) -> bool:
        """Whether it is about a learner whose machines were joined here."""
        found = self.db.row(
            'SELECT l."id" FROM "verdict" v JOIN "answer" n ON n."key" = v."answer" '
            'JOIN "asking" a ON a."key" = n."asking" JOIN "learner" l ON l."key" = a."learner" '
            'WHERE v."id" = ?',
            acceptance.values.get("verdict"),
        )
        return found is not None and (self.into is not None or found[0] in self.joined.values())

    def _shape(self, table: str) -> TableShape:
        if table not in self.shapes:
            self.shapes[table] = shape(self.db, table)
        return self.shapes[table]

    # ------------------------------------------------------------ what it refers to

    def _refer(self, values: dict[str, Cell], made: TableShape, code: str) -> None:
        """Keys of this file in place of ids; learners and names are made when they are missing."""
        for column, table in made.refers.items():
            if table == "learner":
                values[column] = self._learner(values, code)
            elif table == "template_version":
                values[column] = self._kept_version(values)
            elif table == "word":
                values[column] = word(self.db, str(values[column]))
            elif column in NAMED:
                values[column] = self._named(column, values)
            else:
                values[column] = self._key(table, values[column])
        if "sitting" in made.refers and "learner" in made.refers:  # one sitting, one learner
            found = self.db.row(
                'SELECT "learner" FROM "sitting" WHERE "key" = ?', values["sitting"]
            )
            values["learner"] = found[0] if found else None

    def _named(self, column: str, values: dict[str, Cell]) -> int | None:
        """The key of a machine or deck, made when it is missing."""
        table, name = NAMED[column]
        value = values[column]
        if value is None:
            return None
        if table == "machine" and len(bytes(value) if isinstance(value, bytes) else b"") != 16:
            raise Unfit("it does not say which machine it comes from")
        found = self.db.row(f'SELECT "key" FROM "{table}" WHERE "{name}" = ?', value)
        since = {"at": values["at"], "zone": values["zone"]}
        return int(found[0]) if found else self.db.insert(table, **{name: value}, **since)

    def _key(self, table: str, id: Cell) -> int:
        found = self.db.row(f'SELECT "key" FROM "{table}" WHERE "id" = ?', id)
        if found is None:
            raise Unfit(f"it belongs to another {table} line that is damaged or missing")
        return int(found[0])

    def _learner(self, values: dict[str, Cell], code: str) -> int:
        id = values["learner"]
        found = self.db.row('SELECT "key" FROM "learner" WHERE "id" = ?', id)
        return int(found[0]) if found else self._new_learner(id, values, code)

    def _new_learner(self, id: Cell, values: dict[str, Cell], code: str) -> int:
        if not isinstance(id, bytes) or len(id) != 16 or not is_code(code):
            raise Unfit("it does not say whose it is")
        since = {"at": values["at"], "zone": values["zone"]}
        key = self.db.insert("learner", id=id, **since)
        if "code" not in values:  # else the line is about to bring the code itself
            self.db.insert("learner_name", id=new_id(), learner=key, code=code, **since)
        return key

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
