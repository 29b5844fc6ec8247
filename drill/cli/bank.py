"""`drill bank`: the question bank, listed, shown and proved."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from drill.cli.common import AsJson, open_bank, rows_as_json
from drill.errors import DrillError
from drill.places import bank_dir

if TYPE_CHECKING:
    from collections.abc import Mapping

    from drill.checking import Report
    from drill.cli.screen import Screen
    from drill.model import PointSpec, Question, Template

_FEW = 5  # files of which `check` tells how many questions each makes
COURSES = ("combined foundation", "combined higher", "separate foundation", "separate higher")

app = typer.Typer(help="The question bank: list, preview, prove.", no_args_is_help=True)

Paths = Annotated[list[str] | None, typer.Argument(help="Templates or folders; none: all.")]
Seeds = Annotated[int, typer.Option(min=1, max=100_000, help="Instances of each template.")]
Jobs = Annotated[int, typer.Option(min=0, help="Processes; 0: one a core.")]
Stamp = Annotated[bool, typer.Option(help="Write passed.csv for those that pass.")]
TemplateId = Annotated[str, typer.Argument(help="A template: its id or its file.")]
Kind = Annotated[str, typer.Argument(help="calculation, number, choice, name, …")]
Out = Annotated[str, typer.Option(help="The file to write; left out: the screen.")]


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List every template: skill, kinds of part, marks, courses."""
    entries = open_bank().entries()
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
    from drill.cli.screen import Screen

    Screen().table(
        ("template", "skill", "kinds", "marks", ""),
        [
            (
                entry.id,
                entry.skills[0] if entry.skills else "",
                ", ".join(dict.fromkeys(entry.kinds)),
                str(entry.marks),
                "unproven" if entry.unproven else "",
            )
            for entry in entries
        ],
    )


@app.command()
def show(
    template: TemplateId,
    seed: Annotated[int, typer.Option(help="The first of three instances.")] = 0,
) -> None:
    """Show a question with its mark scheme and slips, then two more instances."""
    from drill.cli.ask import question_of, template_of
    from drill.cli.screen import Screen

    bank, screen = open_bank(), Screen()
    made = template_of(bank, template)
    _show_scheme(screen, question_of(bank, template, seed), made)
    if made.has_draws:
        for other in (seed + 1, seed + 2):
            _show_short(screen, question_of(bank, template, other))


def _show_scheme(screen: Screen, question: Question, template: Template) -> None:
    from drill.cli import views

    views.show_question(screen, question, f"{question.template}  seed {question.seed}")
    for part, spec in zip(question.parts, template.parts, strict=True):
        views.show_part(screen, part, alone=len(question.parts) == 1)
        screen.line()
        for point in part.points:
            screen.item(point.id, f"{point.says} {views.marks_in_words(point.marks)}")
        for scheme in spec.points:
            _show_patterns(screen, scheme)
        screen.item("answer", part.model_answer)
        if part.worked != part.model_answer:
            screen.item("worked", part.worked)
        for slip in getattr(part.key, "slips", ()):
            screen.item("slip", f"{slip.text}: {slip.says} (earns {slip.earns})")
        screen.line()


def _show_patterns(screen: Screen, point: PointSpec) -> None:
    """What the marker looks for, in the author's words: ideas joined by +, ways by a slash."""
    for label, patterns in (("accepts", point.accept), ("rejects", point.reject)):
        if patterns:
            ways = " / ".join(" + ".join(pattern.concepts) for pattern in patterns)
            screen.item(label, f"{point.id}: {ways}")


def _show_short(screen: Screen, question: Question) -> None:
    from drill.cli import views

    views.show_question(screen, question, f"seed {question.seed}")
    for part in question.parts:
        views.show_part(screen, part, alone=len(question.parts) == 1)
        screen.item("answer", part.model_answer)


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
            inside_it = sorted(path.rglob("*.toml"))
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
    from drill.errors import problems_as_text

    sys.stdout.write(problems_as_text(report.problems, report.files) + "\n")
    if report.files <= _FEW:
        for row in report.rows:
            sys.stdout.write(_instances(row) + "\n")


def _instances(row: Mapping[str, Any]) -> str:
    """How many different questions the seeds gave, and how many sample answers were marked."""
    made = f"{row['distinct']} different of {row['seeds']} seeds"
    samples = f", {row['samples']} sample answers marked" if row["samples"] else ""
    return f"{row['template']}: {made if row['draws'] else 'one question, without draws'}{samples}"


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
    """Show for every skill how many templates each course has; a skill with one is named."""
    rows = coverage()
    if as_json:
        rows_as_json(rows)
        return
    from drill.cli.screen import Screen

    screen = Screen()
    head = ("skill", *COURSES)
    shown = [(row["skill"], *(str(row[course] or "") for course in COURSES)) for row in rows]
    screen.table(head, shown)
    alone = [row["skill"] for row in rows if row["templates"] == 1]
    if alone:
        screen.line()
        screen.line("Only one template (secure then takes three days): " + ", ".join(alone) + ".")


def coverage() -> list[dict[str, Any]]:
    """A row a skill: templates in all, and those each course may be asked."""
    bank = open_bank()
    rows = []
    for skill in bank.skills():
        entries = [entry for entry in bank.entries() if skill in entry.part_skills and entry.ok]
        row: dict[str, Any] = {"skill": skill, "templates": len(entries)}
        for course in COURSES:
            row[course] = sum(course in entry.course for entry in entries)
        rows.append(row)
    return rows


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
