"""`drill deck`: topic decks for a teacher."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from drill.cli.common import AsJson, deck_files, open_bank, rows_as_json
from drill.errors import DrillError

app = typer.Typer(help="Topic decks: what is taught, for which exam.", no_args_is_help=True)

Title = Annotated[str | None, typer.Option(help="Shown to pupils.")]
Course = Annotated[str | None, typer.Option(help='As "combined foundation".')]
Exam = Annotated[str | None, typer.Option(help="As 2027-05-18; none: no date yet.")]
Practicals = Annotated[str | None, typer.Option(help="As salts,measure,safety.")]
MinutesADay = Annotated[int | None, typer.Option(help="Minutes a day.", min=1, max=240)]
Out = Annotated[str, typer.Option("--out", help="The file to write; left out: from the title.")]


@app.command()
def new(
    title: Title = None,
    course: Course = None,
    exam: Exam = None,
    practicals: Practicals = None,
    minutes: MinutesADay = None,
    out: Out = "",
) -> None:
    """Write a topic deck with comments, from a few questions or options."""
    from drill.bank import new_deck, read_deck
    from drill.cli.deck_new import Interview, id_from
    from drill.cli.screen import Screen

    screen = Screen()
    titles = {id_: one.title for id_, one in open_bank().practicals().items()}
    spent = None if minutes is None else str(minutes)
    try:
        got = Interview(screen, out, titles).answers(title, course, exam, practicals, spent)
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line("Stopped. Nothing was written.")
        raise typer.Exit(130) from None
    text = new_deck(
        title=got.title,
        id=id_from(got.title),
        course=got.course,
        minutes=got.minutes,
        exam=got.exam,
        practicals=got.practicals,
    )
    _write(got.path, text)
    problems = read_deck(got.path)
    if isinstance(problems, tuple):
        got.path.unlink()
        raise DrillError("\n".join(str(problem) for problem in problems))
    screen.line(f"{got.path} is ready. Look it over, then: drill deck check {got.path}")


def _write(path: Path, text: str) -> None:
    """Write a file that is not there yet."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except OSError as error:
        raise DrillError(f"{path} cannot be written: {error.strerror}.") from None


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
