"""The learner's own data: exported, imported, copied, restored, checked and erased."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from drill.app.context import store_file
from drill.errors import DrillError, WrongValue
from drill.frozen import replace
from drill.places import data_dir, keep_names, keep_private, private_file, reason
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.exchange import Exported
    from drill.store import AnswerRow, AskingRow, Erased, Learner, Restored, Store

_ENDINGS = {".jsonl": "xapi", ".json": "xapi", ".handin": "hand-in"}
ACCEPTING = ("student", "teacher", "tutor")
_FAULTS_SHOWN = 20


def format_of(out: str) -> str:
    """The format a file's ending asks for; csv for any other."""
    return _ENDINGS.get(Path(out).suffix.casefold(), "csv")


def export_data(store: Store, who: Learner, format: str, out: str, now: datetime) -> Exported:
    """Write all that a learner has answered to a file, or to the screen with "".

    As csv, xapi or hand-in; a hand-in is no text and goes to a file only. A file is readable by
    its owner only, and there as a whole or not at all. What goes to the screen is made harmless
    for it.

    Raises:
        DrillError: the file cannot be written.
    """
    from drill.exchange import export_csv, export_jsonl

    if format == "hand-in":
        return _handed_in(store, who, Path(out or f"{who.code}.handin"), now)
    if not out:
        if format == "csv":
            return export_csv(store, who, sys.stdout, harmless=True, told=_told(store))
        return export_jsonl(store, who, sys.stdout)
    with written(Path(out)) as file:
        if format == "csv":
            file.write("\ufeff")  # so that a spreadsheet reads it as UTF-8
            return export_csv(store, who, file, told=_told(store))
        return export_jsonl(store, who, file)


def _told(store: Store) -> Callable[[AskingRow, AnswerRow], tuple[str, str, str]]:
    """What an answer was asked, the words of its option, and what was right."""
    from drill.app.context import open_bank_of_all
    from drill.app.weakness.part_answers import Asked, in_words

    asked = Asked(store, open_bank_of_all(store))
    return lambda asking, answer: in_words(answer, asked.parts(asking)[0].get(answer.part))


def _handed_in(store: Store, who: Learner, path: Path, now: datetime) -> Exported:
    from drill.app.classes.hand_in import handed_in
    from drill.app.context import open_bank_of_all
    from drill.exchange import Exported
    from drill.exchange.hand_in import packed

    found = handed_in(store, open_bank_of_all(store), who, now)
    with written(path) as file:
        file.flush()
        file.buffer.write(packed(found))
    return Exported(len(found.rows))


@contextmanager
def written(path: Path) -> Iterator[TextIO]:
    """A file to write, private and put in its place once it is whole; a device is written to.

    Raises:
        DrillError: it cannot be written.
    """
    part = path if path.exists() and not path.is_file() else path.with_name(path.name + ".part")
    try:
        if part != path:
            private_file(part)
        with part.open("w", encoding="utf-8", newline="") as file:
            yield file
            file.flush()
            if part != path:
                os.fsync(file.fileno())
        if part != path:
            part.replace(path)
            keep_names(path.parent)
    except (OSError, ValueError) as error:
        if part != path:
            with suppress(OSError):
                part.unlink(missing_ok=True)
        raise DrillError(f"{one_line(str(path))}: cannot be written ({reason(error)}).") from error


@dataclass(frozen=True)
class DamagedLine:
    """A line of an imported file that could not be taken in, and why."""

    line: int
    says: str


@dataclass(frozen=True)
class Imported:
    """What an import brought: rows added, rows that were here before, lines left out.

    `faults` are the first of the lines left out, `left_out` is how many there are. `new` are codes
    of learners who were not here; `renamed` (code there, code here) of those whose code is taken;
    `recoded` (code before, code now) of those known here; `offered` marks that people in charge
    gave on another machine, which count here only once they are accepted; `added_to` are codes of
    learners who were here and have more answers, marks or settings now.
    """

    added: int
    known: int
    faults: tuple[DamagedLine, ...]
    left_out: int
    new: tuple[str, ...]
    renamed: tuple[tuple[str, str], ...]
    recoded: tuple[tuple[str, str], ...]
    offered: int
    added_to: tuple[str, ...]


def import_data(store: Store, file: str, into: Learner | None, now: datetime) -> Imported:
    """Put exported answers beside what is here, each only once.

    Args:
        into: the learner of this computer to whom all is credited; None keeps learners apart.

    Raises:
        DrillError: there is no such file, or it cannot be read.
    """
    from drill.exchange import import_jsonl, lines_of

    path = Path(file)
    try:
        if not path.is_file():
            raise DrillError(f'there is no file "{one_line(file)}".')
        with path.open("rb") as lines:
            merged = import_jsonl(store, lines_of(lines), now, into, one_line(path.name, 80))
    except (OSError, ValueError) as error:
        raise DrillError(f"{one_line(file)}: cannot be read ({reason(error)}).") from error
    shown = merged.faults[:_FAULTS_SHOWN]
    return Imported(
        merged.added,
        merged.known,
        tuple(DamagedLine(fault.line, one_line(fault.message)) for fault in shown),
        merged.left_out,
        merged.new,
        merged.renamed,
        merged.recoded,
        merged.offered,
        merged.added_to,
    )


@dataclass(frozen=True)
class ImportRow:
    """An import that can be taken back; `into` is whom it was credited to, "" if kept apart."""

    number: int
    when: str
    file: str
    into: str
    rows: int


def imports(store: Store) -> list[ImportRow]:
    """Every import there was and that was not taken back."""
    return [
        ImportRow(
            row.number,
            row.when.isoformat(timespec="minutes"),
            one_line(row.file),
            row.into or "",
            row.rows,
        )
        for row in store.arrivals()
    ]


@dataclass(frozen=True)
class TakenBack:
    """An import taken back: rows gone, how many of them were said here of it, learners gone."""

    number: int
    rows: int
    here: int
    learners: tuple[str, ...]


def take_back(store: Store, number: int | None) -> TakenBack:
    """Remove what an import brought, the last one if none is named.

    Raises:
        DrillError: there is no such import.
    """
    known = store.arrivals()
    if not known:
        raise DrillError("nothing was imported here, or all of it is taken back.")
    chosen = known[-1].number if number is None else number
    gone = store.take_back(chosen)
    return TakenBack(chosen, gone.rows, gone.here, gone.learners)


def backup_data(store: Store, to: str, now: datetime) -> Path:
    """Make a safe copy in a folder, or (with "") in the data folder's; returns the copy.

    Of a store that can only be read as well: then `erase` will not know of the copy.

    Raises:
        DrillError: the folder cannot be written to, or the copy did not come out whole.
    """
    from drill.exchange import backup

    return backup(store, Path(to) if to else data_dir() / "backups", now)


def restore_data(file: str, now: datetime) -> Restored:
    """Put a copy in the place of the store; what was there is kept.

    Raises:
        DrillError: the copy cannot be used, or the store is in use; nothing has changed then.
    """
    from drill.store import restore_copy

    return restore_copy(store_file(), Path(file), now)


@dataclass(frozen=True)
class Verified:
    """What is wrong with the store's file, in words; and how many rows each table has.

    `note`: what is not wrong but worth knowing, "" when there is nothing. `losses`: rows that were
    lost where somebody accepted that, a line each.
    """

    faults: tuple[str, ...]
    rows: Mapping[str, int]
    note: str = ""
    losses: tuple[str, ...] = ()


def verify_data(store: Store) -> Verified:
    """Hold every row against its checksum, and look over the database itself."""
    faults = tuple(store.verify())
    try:
        rows, losses = store.counts(), tuple(store.accepted_losses())
    except DrillError:  # a table that cannot be read: it is among the faults
        rows, losses = {}, ()
    return Verified(faults, rows, folder_note(), losses)


def accept_losses(store: Store, by: str, now: datetime) -> int:
    """Take rows that `verify` tells as lost as they are; returns how many losses those were.

    Args:
        by: who says so: student, teacher or tutor.

    Raises:
        WrongValue: it is nobody of these.
        DrillError: no loss waits to be accepted.
    """
    if by not in ACCEPTING:
        raise WrongValue(f'--by "{one_line(by)}" must be one of: {", ".join(ACCEPTING)}.')
    number = store.accept_losses(by, now)
    if not number:
        raise DrillError("nothing was lost here that nobody has accepted yet.")
    return number


def folder_note() -> str:
    """A line about the data folder where others may look into it; "" where they may not."""
    folder = data_dir()
    try:
        shared = keep_private(folder)
    except OSError:
        return ""
    if not shared:
        return ""
    return (
        f"Others may look into {one_line(str(folder))}, as it holds more than our files; those "
        "themselves can be read by their owner only."
    )


def erase_data(store: Store, who: Learner) -> Erased:
    """Remove everything of a learner for good; says what is left of them, and where.

    Raises:
        DrillError: nothing could be removed; all of it is still there.
    """
    from drill.sitting import forget_settled, settled_dir

    asked = store.askings(who)  # what is settled is found by it, once the rows are gone
    erased = store.erase(who)
    try:
        forget_settled(asked)
    except (OSError, DrillError) as error:
        said = f"{settled_dir()} still holds their settled answers ({reason(error)})."
        erased = replace(erased, left=(*erased.left, said))
    return erased


def clean_up(store: Store) -> tuple[str, ...]:
    """Clean the store of what was erased earlier; what was not possible, a line each."""
    return store.scrub()
