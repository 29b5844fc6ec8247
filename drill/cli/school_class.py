"""`drill class`: what pupils handed in, gathered, seen as a whole, and taken away."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.cli.common import AsJson, At, Plain, clock, print_rows, write_file
from drill.plaintext import counted, listed, one_line

if TYPE_CHECKING:
    from drill.app.classes.class_collect import Collected

app = typer.Typer(help="A class: gather what pupils hand in, see it.", no_args_is_help=True)

ClassName = Annotated[str, typer.Argument(help="The class; left out: the one gathered last.")]
OfClass = Annotated[
    str, typer.Option("--class", help="The class; left out: the one gathered last.")
]
Machine = Annotated[str, typer.Argument(help="The machine's id, as drill class pupils lists it.")]
_SHOWN = 20


def _say(lines: Iterable[str]) -> None:
    for line in lines:
        sys.stdout.write(f"{line}\n")


@app.command()
def collect(
    folder: Annotated[Path, typer.Argument(help="Where the pupils' files lie.")],
    name: Annotated[str, typer.Option("--class", help="Its name; left out: the folder's.")] = "",
    listed: Annotated[
        str, typer.Option("--list", help="A class list, a line a pupil: code, or code,name.")
    ] = "",
    as_json: AsJson = False,
) -> None:
    """Gather what pupils handed in; again and in any order. Exit 1 when a file is refused."""
    from drill.app.classes.class_collect import collect as gather
    from drill.cli.screen import Screen

    found = gather(folder, name, listed)
    if as_json:
        print_rows(found)
    else:
        screen = Screen()
        for line in _gathered(found):
            screen.line(line)
    if any(one.refused for one in found.skipped):
        raise typer.Exit(1)


def _gathered(found: Collected) -> list[str]:
    lines = [
        f"{one_line(one.file)}: {'not taken, ' if one.refused else ''}{one.says}"
        for one in found.skipped[:_SHOWN]
    ]
    if len(found.skipped) > _SHOWN:
        lines.append(f"… and {len(found.skipped) - _SHOWN} more files not taken.")
    for label, codes in (
        ("New", found.new),
        ("Updated", found.updated),
        ("Unchanged", found.unchanged),
        ("Nothing from", found.missing),
        ("Not on the list", found.not_listed),
    ):
        if codes:
            told = [f"{code} {found.names.get(code.casefold(), '')}".strip() for code in codes]
            lines.append(
                f"{label} ({len(codes)}): {listed(told) if found.names else ' '.join(told)}"
            )
    lines += [
        f"{one.code} came from {one.machines} machines, counted as one pupil. Two pupils? "
        "drill class pupils, then drill class part"
        for one in found.twice
    ]
    files = counted(found.files - sum(one.refused for one in found.skipped), "file")
    lines.append(f"{one_line(found.title)}: {files} read, {counted(found.answers, 'answer')} here.")
    if found.list_gone:
        lines.append(
            f"The class list {one_line(found.list_gone, 80)} is not where it was. "
            "Name it again with: --list FILE"
        )
    if not found.named:
        lines.append("The class has the folder's name; another one: --class NAME.")
    lines.append("See it with: drill class report")
    return lines


@app.command()
def report(
    name: ClassName = "",
    pupils: Annotated[bool, typer.Option("--pupils", help="Skills, and pupils by skill.")] = False,
    weeks: Annotated[bool, typer.Option("--weeks", help="The trend by week.")] = False,
    odd: Annotated[bool, typer.Option("--odd", help="Questions that behave oddly.")] = False,
    html: Annotated[str, typer.Option("--html", help="Write a page with all of it here.")] = "",
    csv: Annotated[str, typer.Option("--csv", help="Write a row an answer here.")] = "",
    plain: Plain = False,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Show who practised, what to teach again tomorrow, and what is secure."""
    from drill.app.classes.class_views import answers_csv, report_on
    from drill.cli.screen import Screen
    from drill.documents import writer
    from drill.documents.class_report import first_screen, more, whole
    from drill.documents.values import Document

    found = report_on(name, clock(at))
    if as_json:
        print_rows(found)
    if csv:
        write_file(Path(csv), answers_csv(name, with_names=True))
    if html:
        write_file(Path(html), writer("html")(whole(found)))
    if not (as_json or csv or html):
        first = first_screen(found)
        asked = tuple(more(found, pupils, weeks, odd))
        Screen(plain).document(Document(first.title, asked or first.blocks))


@app.command()
def export(
    name: ClassName = "",
    out: Annotated[str, typer.Option("--out", help="The file to write.")] = "class.csv",
) -> None:
    """Write the class's answers for a spreadsheet, by code and without names."""
    from drill.app.classes.class_views import answers_csv

    write_file(Path(out), answers_csv(name, with_names=False))


@app.command()
def share(
    folder: Annotated[Path, typer.Argument(help="The trust's folder.")],
    school: Annotated[str, typer.Option(help="The school, as a word.")],
    term: Annotated[str, typer.Option(help="The term, as 2027-spring.")],
    name: OfClass = "",
) -> None:
    """Write a class's marks as Parquet for a trust of schools: no names, nothing typed."""
    from drill.app.classes.class_room import class_named
    from drill.app.classes.trust import write_answers

    path = write_answers(class_named(name), folder, school, term)
    _say([f"{one_line(str(path))} is ready."])


@app.command()
def trust(
    folder: Annotated[Path, typer.Argument(help="The trust's folder.")],
    workers: Annotated[int, typer.Option(min=1, max=256, help="Processes to share it.")] = 1,
    cluster: Annotated[str, typer.Option(help="A Dask scheduler's address, instead.")] = "",
    html: Annotated[str, typer.Option("--html", help="Write a page here.")] = "",
    plain: Plain = False,
    as_json: AsJson = False,
) -> None:
    """Add up the classes of many schools: skills, weeks, odd questions."""
    from drill.app.classes.trust import trust_report
    from drill.app.context import skill_names
    from drill.cli.screen import Screen
    from drill.documents import writer
    from drill.documents.class_report import trust_document

    found = trust_report(folder, skill_names(), workers, cluster)
    if as_json:
        print_rows(found)
    elif html:
        write_file(Path(html), writer("html")(trust_document(found, charts=True)))
    else:
        Screen(plain).document(trust_document(found))


@app.command()
def pupils(name: ClassName = "", as_json: AsJson = False) -> None:
    """List the pupils with the machines their work came from."""
    from drill.app.classes.class_views import machines
    from drill.cli.screen import Screen

    rows = machines(name)
    if as_json:
        print_rows(rows)
    else:
        head = ("pupil", "name", "machine", "code there", "answers", "handed in")
        names = ("code", "name", "machine", "own", "answers", "made")
        Screen().table(head, [tuple(str(getattr(one, name)) for name in names) for one in rows])


@app.command()
def join(
    machine: Machine,
    code: Annotated[str, typer.Argument(help="The code of the pupil.")],
    name: OfClass = "",
) -> None:
    """Count a machine's answers for a pupil: one person with two machines or codes."""
    from drill.app.classes.class_collect import join as joined
    from drill.app.classes.class_room import class_named

    joined(class_named(name), machine, code)
    _say([f"{one_line(machine)} counts for {one_line(code)}."])


@app.command()
def part(machine: Machine, name: OfClass = "") -> None:
    """Count a machine's answers apart again: two pupils under one code, or joined by mistake."""
    from drill.app.classes.class_collect import part as parted
    from drill.app.classes.class_room import class_named

    code = parted(class_named(name), machine)
    _say([f"{one_line(machine)} counts apart, as {code}."])


@app.command()
def erase(
    code: Annotated[
        str, typer.Argument(help="The pupil's code; all of the class with --all.")
    ] = "",
    everyone: Annotated[bool, typer.Option("--all", help="The whole class.")] = False,
    before: Annotated[
        str, typer.Option("--before", help="Those who handed in nothing since, as 2027-08-01.")
    ] = "",
    name: OfClass = "",
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
) -> None:
    """Remove a pupil, all, or those gone before a day: what they handed in and the store's part.

    Exit 1 when something of it is left in the data folder itself.
    """
    from drill.app.classes.class_erase import erase as erased
    from drill.app.classes.class_erase import in_words, leaving
    from drill.app.context import open_store
    from drill.cli.data import say_what_is_left

    with open_store() as store:
        who = leaving(store, name, code, everyone, before)
        if not who.codes:
            _say(["Nobody is to go. Nothing was removed."])
            return
        if not yes and not typer.confirm(f"Remove {in_words(store, who)}, for good?"):
            raise typer.Exit(1)
        done = erased(store, who)
    _say([f"Gone from this machine: {' '.join(who.codes)}."])
    _say(f"The class {one} has such a code too: drill class erase CODE --class {one}"
         for one in who.others)  # fmt: skip
    place = one_line(who.room.source) or "the folder"
    yours = f"Yours to remove: their files in {place} (gathering it again brings them back), "
    _say([yours + "and pages and tables that you wrote."])
    say_what_is_left(
        (copy for one in done for copy in one.copies),
        (copy for one in done for copy in one.unread),
        (line for one in done for line in one.left),
    )
