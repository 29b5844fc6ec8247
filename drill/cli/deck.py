"""`drill deck`: topic decks for a teacher."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import open_bank
from drill.cli.common import AsJson, print_rows

if TYPE_CHECKING:
    from drill.app.deck_check import DeckFindings
    from drill.app.decks import DeckRow, FaultyDeck
    from drill.cli.screen import Screen

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
    from drill.app.decks import write_deck
    from drill.cli.deck_new import Interview
    from drill.cli.screen import Screen

    screen = Screen()
    titles = {id_: one.title for id_, one in open_bank().practicals().items()}
    spent = None if minutes is None else str(minutes)
    try:
        wanted = Interview(screen, out, titles).answers(title, course, exam, practicals, spent)
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line("Stopped. Nothing was written.")
        raise typer.Exit(130) from None
    write_deck(wanted)
    screen.line(f"{wanted.path} is ready. Look it over, then: drill deck check {wanted.path}")


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List the decks here and the demonstration decks."""
    from drill.app.decks import decks
    from drill.cli.screen import Screen

    rows = decks()
    if as_json:
        print_rows(rows)
    else:
        Screen().table(("id", "title", "course", "exam"), [_cells(row) for row in rows])


def _cells(row: DeckRow | FaultyDeck) -> tuple[str, str, str, str]:
    from drill.app.decks import FaultyDeck

    if isinstance(row, FaultyDeck):
        return row.id, f"{row.problems} problems: drill deck check {row.path}", "", ""
    return row.id, row.title, row.course, row.exam


@app.command()
def check(
    deck: Annotated[str, typer.Argument(help="A deck's id or file.")], as_json: AsJson = False
) -> None:
    """Read a deck, show every problem with its line, and what it covers."""
    from drill.app.deck_check import check_deck
    from drill.cli.screen import Screen

    zone = datetime.now().astimezone().tzinfo
    assert zone is not None
    found = check_deck(deck, zone)
    if as_json:
        print_rows(found)
    else:
        _show(Screen(), found)
    if any(problem.level == "error" for problem in found.problems):
        raise typer.Exit(1)


def _show(screen: Screen, found: DeckFindings) -> None:
    """The problems, then the tables."""
    from drill.errors import problems_as_text

    screen.line(problems_as_text(found.problems, 1 + len(found.own)))
    head = ("name", "templates", "marks", "taught", "exam")
    if found.skills:
        screen.table(
            head, [tuple(str(getattr(row, name)) for name in head) for row in found.skills]
        )
    if found.own:
        screen.line()
        screen.line("Your own questions (every file in the folder is asked, starters too):")
        rows = [(_short(row.question), row.title, row.state) for row in found.own]
        screen.table(("question", "title", ""), rows)


def _short(id_: str) -> str:
    """`practical/question` of `own/deck/practical/question`."""
    return "/".join(id_.split("/")[-2:])
