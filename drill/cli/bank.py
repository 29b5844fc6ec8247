"""`drill bank`: the question bank, listed, shown and proved."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.cli.common import AsJson, open_bank, rows_as_json
from drill.errors import DrillError
from drill.places import bank_dir

if TYPE_CHECKING:
    from drill.bank import Entry
    from drill.checking import Report

_FEW = 5  # files of which `check` tells how many questions each makes
COURSES = ("combined foundation", "combined higher", "separate foundation", "separate higher")

app = typer.Typer(help="The question bank: list, preview, prove.", no_args_is_help=True)

Paths = Annotated[list[str] | None, typer.Argument(help="Templates or folders; none: all.")]
Seeds = Annotated[int, typer.Option(min=1, max=100_000, help="Instances of each template.")]
Jobs = Annotated[int, typer.Option(min=0, help="Processes; 0: one a core.")]
Stamp = Annotated[bool, typer.Option(help="Write passed.csv for those that pass.")]
TemplateId = Annotated[str, typer.Argument(help="A template: its id or its file.")]
Of = Annotated[str, typer.Argument(help="Part of an id or a skill; none: all.")]
Kind = Annotated[str, typer.Argument(help="calculation, number, choice, name, …")]
Out = Annotated[str, typer.Option(help="The file to write; left out: the screen.")]


@app.command("list")
def list_(of: Of = "", as_json: AsJson = False) -> None:
    """List every template, or those of a skill or practical: kinds of part, marks, courses."""
    bank = open_bank()
    entries = [entry for entry in bank.entries() if _is_of(entry, of)]
    if not entries:
        raise DrillError(f'no template or skill holds "{of}". List all with: drill bank list')
    if as_json:
        rows_as_json(
            {
                "template": entry.id,
                "title": entry.title,
                "skills": list(entry.skills),
                "kinds": list(entry.kinds),
                "marks": entry.marks,
                "course": list(entry.course),
                "draws": entry.has_draws,
                "unproven": entry.unproven,
            }
            for entry in entries
        )
        return
    from drill.cli.bank_screens import show_list
    from drill.cli.screen import Screen

    show_list(Screen(), entries, bank.skills())


def _is_of(entry: Entry, of: str) -> bool:
    return any(of.casefold() in name for name in (entry.id, *entry.skills))


@app.command()
def show(
    template: TemplateId,
    seed: Annotated[int, typer.Option(help="The first of three instances.")] = 0,
) -> None:
    """Show a question with its mark scheme and slips, then two more instances."""
    from drill.cli.ask import question_of, template_of
    from drill.cli.bank_screens import show_scheme, show_short
    from drill.cli.screen import Screen

    bank, screen = open_bank(), Screen()
    made = template_of(bank, template)
    show_scheme(screen, question_of(bank, template, seed), made)
    if made.has_draws:
        for other in (seed + 1, seed + 2):
            show_short(screen, question_of(bank, template, other))


@app.command()
def check(
    paths: Paths = None,
    seeds: Seeds = 200,
    jobs: Jobs = 0,
    stamp: Stamp = False,
    as_json: AsJson = False,
) -> None:
    """Prove templates: every instance right, every slip distinct, every sample answer as marked.

    Exit 1 when a problem is found.
    """
    import os

    from drill.checking import check as checked
    from drill.checking import write_passed
    from drill.sitting import settled_dir

    folder = bank_dir()
    files = template_files(paths or [], folder)
    shown = sys.stderr.isatty() and not as_json
    report = checked(
        files,
        folder,
        seeds,
        jobs or os.cpu_count() or 1,
        _progress if shown else None,
        settled_dir(),
    )
    if shown:
        sys.stderr.write("\r" + " " * 60 + "\r")
    if stamp:
        write_passed(report, folder)
    _show_report(report, as_json)
    if any(problem.level == "error" for problem in report.problems):
        raise typer.Exit(1)


def template_files(names: list[str], folder: Path) -> list[Path]:
    """The template files meant by paths, folders or ids; all of the bank when none is named."""
    if not names:
        return sorted(folder.glob("*/*.toml"))
    files: list[Path] = []
    for name in names:
        path = Path(name)
        if path.is_dir():
            top = folder.resolve()  # skills, lexicon and the like stand there, no template
            inside_it = [one for one in sorted(path.rglob("*.toml")) if one.resolve().parent != top]
            if not inside_it:
                raise DrillError(f'the folder "{name}" holds no template: its name ends in .toml.')
            files.extend(inside_it)
        elif path.is_file():
            files.append(path)
        else:
            inside = folder / f"{name.replace('.', '/')}.toml"
            if not inside.is_file():
                raise DrillError(f'there is no template, file or folder "{name}".')
            files.append(inside)
    return files


def _progress(done: int, of: int) -> None:
    sys.stderr.write(f"\r{done} of {of} templates")
    sys.stderr.flush()


def _show_report(report: Report, as_json: bool) -> None:
    if as_json:
        rows_as_json(
            {
                "problems": [problem.as_row() for problem in sorted(report.problems)],
                "templates": list(report.rows),
            }
        )
        return
    from drill.cli.bank_screens import instances
    from drill.errors import problems_as_text

    sys.stdout.write(problems_as_text(report.problems, report.files) + "\n")
    if report.files <= _FEW:
        for row in report.rows:
            sys.stdout.write(instances(row) + "\n")


@app.command()
def new(kind: Kind, out: Out = "") -> None:
    """Write a starter: calculation (three parts) or a kind of part; it passes as it stands."""
    from drill.bank import new_template

    text = new_template(kind)
    if not out:
        sys.stdout.write(text)
        return
    path = Path(out)
    if path.exists():
        raise DrillError(f"{path} exists already. Choose another name with --out.")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    sys.stdout.write(f"{out} is ready. Change it, then: drill bank check {out}\n")


@app.command()
def cover(as_json: AsJson = False) -> None:
    """Show practicals by side and skills by course, how many templates each; what is thin."""
    from drill.bank.coverage import by_practical, by_skill

    bank = open_bank()
    practicals = list(by_practical(bank.entries(), bank.practicals()))
    skills = list(by_skill(bank.entries(), bank.skills()))
    if as_json:
        rows_as_json([*practicals, *skills])
        return
    from drill.cli.bank_screens import show_cover
    from drill.cli.screen import Screen

    show_cover(Screen(), practicals, skills)


@app.command()
def upgrade(
    files: Annotated[list[str], typer.Argument(help="Templates or decks to rewrite.")],
) -> None:
    """Bring files to today's format in place, comments kept."""
    from drill.bank import upgrade as upgraded

    for name in files:
        changes = upgraded(Path(name))
        sys.stdout.write(
            f"{name}: {'; '.join(changes) if changes else 'already as it should be'}\n"
        )
