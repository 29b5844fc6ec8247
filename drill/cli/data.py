"""`drill data`: the learner's own data, out, in again, safe and whole."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import existing_learner, open_store
from drill.cli.common import AsJson, At, LearnerCode, clock, print_rows
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.data import Imported

app = typer.Typer(help="Your own data: take it out, copy it, check it.")


class Format(StrEnum):
    """The open formats data leaves in."""

    csv = "csv"
    xapi = "xapi"
    hand_in = "hand-in"


FormatOption = Annotated[
    Format | None,
    typer.Option(
        "--format",
        help="csv for a spreadsheet; xapi to take it elsewhere and import it again; hand-in for "
        "a teacher. Left out: by the file's ending, else csv.",
    ),
]
Out = Annotated[str, typer.Option("--out", help="The file to write; left out: the screen.")]
Yes = Annotated[bool, typer.Option("--yes", help="Do not ask again.")]


@app.callback(invoke_without_command=True)
def data(context: typer.Context) -> None:
    """Say in plain words what is stored here; the commands below take it out or remove it."""
    if context.invoked_subcommand is not None:
        return
    from drill.app.data_told import what_is_stored

    with open_store(reading=True) as store:
        _say(what_is_stored(store))


def _say(lines: Iterable[str]) -> None:
    for line in lines:
        sys.stdout.write(f"{line}\n")


@app.command()
def export(
    learner: LearnerCode = "", format: FormatOption = None, out: Out = "", at: At = ""
) -> None:
    """Write everything one learner has answered. Exit 1 when damaged rows were left out."""
    from drill.app.data import export_data, format_of

    with open_store(reading=True) as store:
        who = existing_learner(store, learner)
        done = export_data(store, who, format or format_of(out), out, clock(at))
    if out:
        _say([f"{who.code}'s answers are in {one_line(out)}."])
    if done.damaged:
        rows = counted(done.damaged, "damaged row")
        sys.stderr.write(f"{rows} left out. Look closer with: drill data verify\n")
        raise typer.Exit(1)


@app.command()
def backup(
    to: Annotated[str, typer.Argument(help="A folder; left out: backups in the data folder.")] = "",
    at: At = "",
) -> None:
    """Make a safe copy of all learners' data, whole even while somebody practises."""
    from drill.app.data import backup_data

    with open_store(reading=True) as store:
        path = backup_data(store, to, clock(at))
        unknown = store.is_aside
    _say([f"A copy is in {one_line(str(path))}. To put it back: drill data restore FILE"])
    if unknown:
        _say(["Nothing can be written in the data folder: erase will not know of this copy."])


@app.command()
def restore(
    file: Annotated[str, typer.Argument(help="A copy that drill data backup has made.")],
    at: At = "",
) -> None:
    """Put a copy in the place of all learners' data; what was there is kept beside the backups."""
    from drill.app.data import restore_data

    done = restore_data(file, clock(at))
    _say([f"{one_line(file)} is in place."])
    _say(_changed(done.before, done.after))
    if done.kept is not None:
        _say([f"What was there is kept in {one_line(str(done.kept))}."])


def _changed(before: Mapping[str, int], after: Mapping[str, int]) -> list[str]:
    lines = []
    for code in sorted({*before, *after}, key=str.casefold):
        now = counted(after[code], "answer") if code in after else "not in this copy"
        then = f"before: {before[code]}" if code in before else "not here before"
        lines.append(f"{code}: {now} ({then}).")
    return lines


@app.command()
def verify(as_json: AsJson = False) -> None:
    """Check every row against its checksum, and the database itself. Exit 1 when one fails."""
    from drill.app.data import verify_data

    with open_store(reading=True) as store:
        found = verify_data(store)
    if as_json:
        print_rows(found)
    else:
        shown = found.faults[:20]
        _say(one_line(fault) for fault in shown)
        if len(found.faults) > len(shown):
            _say([f"… and {len(found.faults) - len(shown)} more."])
        faults = counted(len(found.faults), "fault")
        said = f"{faults}: restore a backup" if found.faults else "all whole"
        if any("were missing" in fault for fault in found.faults):
            said += ", or accept the loss: drill data accept-loss --by teacher"
        _say(found.losses)
        _say([f"{sum(found.rows.values())} rows checked, {said}."])
        _say([found.note] if found.note else [])
    if found.faults:
        raise typer.Exit(1)


@app.command("accept-loss")
def accept_loss(
    by: Annotated[str, typer.Option("--by", help="Who says so: student, teacher or tutor.")],
    at: At = "",
) -> None:
    """Take rows that verify reports as lost as they are, when no copy has them."""
    from drill.app.data import accept_losses

    with open_store() as store:
        number = accept_losses(store, by, clock(at))
    _say([f"{counted(number, 'loss', 'losses')} accepted by the {by}; drill data verify says so."])


@app.command("import")
def import_(
    file: Annotated[str, typer.Argument(help="A file that drill data export has written (xAPI).")],
    into: Annotated[
        str, typer.Option("--into", help="Credit all of it to this learner; else kept apart.")
    ] = "",
    at: At = "",
) -> None:
    """Put exported answers beside what is here, each only once. Exit 1 when a line is damaged.

    With --into two machines of one person become one; drill data take-back parts them again.
    """
    from drill.app.data import import_data

    with open_store() as store:
        who = existing_learner(store, into) if into else None
        found = import_data(store, file, who, clock(at))
    _say(f"{one_line(file)}:{fault.line}: {fault.says}" for fault in found.faults)
    if found.left_out > len(found.faults):
        _say([f"… and {found.left_out - len(found.faults)} more lines."])
    _say(_arrived(found, into))
    if found.left_out:
        raise typer.Exit(1)


def _arrived(found: Imported, into: str) -> list[str]:
    """What came, in words."""
    lines = [f"{counted(found.added, 'row')} added, {found.known} were here before."]
    if into and found.added:
        lines.append(f"All of it counts as {into}'s from now on.")
    else:
        lines += [f"Added to what {code} has here." for code in found.added_to]
    here = [code for _, code in found.renamed]
    lines += [f"New here: {code}." for code in found.new if code not in here]
    lines += [f"Another {there} is here; this one is {code} here." for there, code in found.renamed]
    lines += [f"{before} is now {after}." for before, after in found.recoded]
    if found.offered > 0:
        marks = counted(found.offered, "mark")
        lines.append(
            f"{marks} given by a teacher or tutor on another machine came along and will count "
            "here once accepted: drill appeals accept"
        )
    if found.added:
        lines.append("To undo this: drill data take-back")
    return lines


@app.command()
def imports(as_json: AsJson = False) -> None:
    """List what was imported here and can be taken back."""
    from drill.app.data import imports as listed

    with open_store(reading=True) as store:
        rows = listed(store)
    if as_json:
        print_rows(rows)
        return
    for row in rows:
        into = f" into {row.into}" if row.into else ""
        _say([f"{row.number}  {row.when}  {row.file}{into}  {counted(row.rows, 'row')}"])
    if not rows:
        _say(["Nothing was imported here, or all of it is taken back."])


@app.command("take-back")
def take_back(
    number: Annotated[
        int | None, typer.Argument(help="As drill data imports lists it; left out: the last one.")
    ] = None,
) -> None:
    """Remove again what an import brought; two machines that were joined by it are parted."""
    from drill.app.data import take_back as taken

    with open_store() as store:
        gone = taken(store, number)
    _say([f"Import {gone.number} is taken back: {counted(gone.rows, 'row')} gone."])
    if gone.here:
        rows = counted(gone.here, "row")
        _say([f"Of these, {rows} were said here about what had come: marks, appeals, notes."])
    _say(f"{code} is gone with it." for code in gone.learners)


@app.command()
def erase(
    learner: Annotated[str, typer.Argument(help="Whose data goes.")] = "",
    yes: Yes = False,
    leftovers: Annotated[
        bool, typer.Option("--leftovers", help="Only clean up after an erasure that was stopped.")
    ] = False,
) -> None:
    """Remove everything of one learner, also from the write-ahead log; copies are named.

    Exit 1 when something of it is left in the data folder itself.
    """
    from drill.app.data import clean_up, erase_data
    from drill.errors import WrongValue

    if not learner and not leftovers:
        raise WrongValue("name the learner whose data goes, by code.")
    with open_store() as store:
        if leftovers:
            _cleaned(clean_up(store))
            return
        who = existing_learner(store, learner)
        if not yes and not typer.confirm(f"Remove all answers of {who.code} for good?"):
            raise typer.Exit(1)
        erased = erase_data(store, who)
    _say([f"Everything of {who.code} is gone from this computer's store."])
    _say(["Files you exported yourself are not known here."])
    say_what_is_left(erased.copies, erased.unread, erased.left)


def say_what_is_left(copies: Iterable[Path], unread: Iterable[Path], left: Iterable[str]) -> None:
    """Name the copies that still hold what was erased; exit 1 where the store itself does."""
    for says, files in (
        ("A copy still holds it", copies),
        ("A copy that cannot be looked into", unread),
    ):
        _say(f"{says}: {one_line(str(file))}" for file in dict.fromkeys(files))
    lines = tuple(dict.fromkeys(left))
    if lines:
        _cleaned(lines)


def _cleaned(left: tuple[str, ...]) -> None:
    if not left:
        _say(["Nothing is left of what was erased."])
        return
    _say(f"Not yet cleaned: {one_line(line)}" for line in left)
    _say(["Once that is put right: drill data erase --leftovers"])
    raise typer.Exit(1)
