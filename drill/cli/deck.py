"""`drill deck`: topic decks for a teacher."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Any

import typer

from drill.cli.common import AsJson, deck_files, rows_as_json
from drill.errors import DrillError

app = typer.Typer(help="Topic decks: what is taught, for which exam.", no_args_is_help=True)

Title = Annotated[str, typer.Option(prompt="Title, as pupils see it", help="Shown to pupils.")]
Course = Annotated[
    str,
    typer.Option(
        prompt="Course (combined or separate, foundation or higher)",
        help='As "combined foundation".',
    ),
]
Exam = Annotated[
    str,
    typer.Option(prompt="Exam date, as 2027-05-18 (Enter: none yet)", help="As 2027-05-18."),
]
Practicals = Annotated[
    str, typer.Option(prompt="Practicals, with commas", help="As salts,measure,safety.")
]
MinutesADay = Annotated[int, typer.Option(prompt="Minutes a day", help="Minutes a day.", min=1)]
Out = Annotated[str, typer.Option("--out", help="The file to write; left out: from the title.")]


@app.command()
def new(
    title: Title = "Our practicals",
    course: Course = "combined higher",
    exam: Exam = "",
    practicals: Practicals = "salts,measure,safety",
    minutes: MinutesADay = 12,
    out: Out = "",
) -> None:
    """Write a topic deck with comments, from a few questions or options."""
    from drill.bank import new_deck, read_deck

    deck_id = _id_from(title)
    path = Path(out or f"{deck_id}.toml")
    if path.exists():
        raise DrillError(f"{path} exists already. Choose another name with --out.")
    names = [name.strip() for name in practicals.split(",") if name.strip()]
    text = new_deck(
        title=title, id=deck_id, course=course, minutes=minutes, exam=exam, practicals=names
    )
    path.write_text(text, encoding="utf-8")
    problems = read_deck(path)
    if isinstance(problems, tuple):
        path.unlink()
        raise DrillError("\n".join(str(problem) for problem in problems))
    sys.stdout.write(f"{path} is ready. Look it over, then: drill deck check {path}\n")


def _id_from(title: str) -> str:
    letters = "".join(sign if sign.isalnum() else "-" for sign in title.casefold())
    return "-".join(part for part in letters.split("-") if part)[:40] or "deck"


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List the decks here and the demonstration decks."""
    from drill.bank import read_deck

    rows: list[dict[str, Any]] = []
    for name, path in sorted(deck_files().items()):
        deck = read_deck(path)
        if isinstance(deck, tuple):
            rows.append({"id": name, "title": "", "problems": len(deck), "path": str(path)})
        else:
            exams = ", ".join(paper.exam for paper in deck.papers if paper.exam)
            rows.append({"id": deck.id, "title": deck.title, "course": deck.course, "exam": exams})
    if as_json:
        rows_as_json(rows)
        return
    from drill.cli.screen import Screen

    Screen().table(
        ("id", "title", "course", "exam"),
        [
            (
                row["id"],
                row["title"] or f"{row['problems']} problems: drill deck check {row['path']}",
                row.get("course", ""),
                row.get("exam", ""),
            )
            for row in rows
        ],
    )


@app.command()
def check(
    deck: Annotated[str, typer.Argument(help="A deck's id or file.")], as_json: AsJson = False
) -> None:
    """Read a deck, show every problem with its line, and what it covers."""
    from drill.cli.deck_check import checked, show

    found = checked(deck)
    if as_json:
        problems = [problem.as_row() for problem in found.problems]
        rows_as_json({"problems": problems, "skills": found.skills, "own": found.own})
    else:
        show(found)
    if any(problem.level == "error" for problem in found.problems):
        raise typer.Exit(1)
