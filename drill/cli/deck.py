"""`drill deck`: topic decks for a teacher."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import open_bank
from drill.cli.common import AsJson, At, Plain, clock, print_rows, quoted
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.topics.deck_check import DeckFindings, DeckSkill
    from drill.app.topics.decks import DeckRow, FaultyDeck
    from drill.cli.screen import Screen
    from drill.model import Deck

app = typer.Typer(help="Topic decks: what is taught, for which exam.", no_args_is_help=True)

Title = Annotated[str | None, typer.Option(help="Shown to pupils.")]
Course = Annotated[
    str | None, typer.Option(help='As "combined foundation"; a mixed class: several, with commas.')
]
Exam = Annotated[str | None, typer.Option(help="As 18/05/2027; none: no date yet.")]
Practicals = Annotated[str | None, typer.Option(help="As salts,measure,safety.")]
MinutesADay = Annotated[int | None, typer.Option(help="Minutes a day.", min=1, max=240)]
Questions = Annotated[int | None, typer.Option(min=1, max=1000, help="Stop after so many.")]
Seed = Annotated[int | None, typer.Option(min=0, max=2**62, help="Where the numbers start from.")]
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
    from drill.app.context import find_deck
    from drill.app.topics.decks import write_deck
    from drill.cli.deck_new import Given, Interview
    from drill.cli.screen import Screen

    screen, bank = Screen(), open_bank()
    spent = None if minutes is None else str(minutes)
    given = Given(title, course, exam, practicals, spent)
    try:
        wanted = Interview(screen, out, bank, clock("").date()).answers(given)
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line("Stopped. Nothing was written.")
        raise typer.Exit(130) from None
    write_deck(wanted, bank)
    screen.line(f"{wanted.path} is ready, and passes its check.")
    _notes(screen, find_deck(str(wanted.path)), clock(""))
    screen.line(f"Sit it as a pupil: drill deck try {wanted.path}")
    screen.line(f"For pupils: drill deck handout {wanted.path}")


@app.command("try")
def try_(
    deck: Annotated[str, typer.Argument(help="A deck's id or file.")],
    questions: Questions = None,
    plain: Plain = False,
    seed: Seed = None,
    at: At = "",
) -> None:
    """Sit a deck as a pupil would; nothing is stored."""
    from drill.app.context import find_deck
    from drill.app.topics.deck_try import pretend_pupil
    from drill.cli.screen import Screen
    from drill.cli.sit import sit_deck, ticking

    screen, now = Screen(plain), ticking(at)
    with pretend_pupil(now()) as (store, who):
        screen.line("As a pupil: nothing of this is stored.")
        sit_deck(screen, store, who, find_deck(deck), now, questions, seed)


@app.command()
def handout(
    deck: Annotated[str, typer.Argument(help="A deck's id or file.")], out: Out = "", at: At = ""
) -> None:
    """Write one file for pupils: the deck, your own questions, and marks you settled.

    They open it with drill sit FILE, on any machine.
    """
    from drill.app.context import find_deck, open_store
    from drill.app.topics.handouts import handout_of
    from drill.cli.screen import Screen

    with open_store() as store:
        handed = find_deck(deck)
        made = handout_of(store, handed, Path(out) if out else None, clock(at))
    screen = Screen()
    own = f", {counted(made.questions, 'question')} of your own" if made.questions else ""
    settled = f", {counted(made.settled, 'settled mark')}" if made.settled else ""
    paper = f", {counted(made.on_paper, 'question')} marked on paper" if made.on_paper else ""
    size = f"{max(1, made.size // 1000)} kB"
    screen.line(f"{made.path} is ready: {made.title}{own}{settled}{paper} ({size}).")
    _notes(screen, handed, clock(at))
    screen.line("A pupil, here the one whose code is k01, types:")
    screen.line(f"drill sit {_typed(made.path)}", indent=2)
    screen.line("and hands in the file that this writes:")
    screen.line("drill data export --learner k01 --out k01.handin", indent=2)
    screen.line("You gather the files with: drill class collect FOLDER --list class-list.csv")


def _notes(screen: Screen, deck: Deck, now: datetime) -> None:
    """What the calendar says of a deck: an exam that is over, taught after it."""
    from drill.app.topics.deck_check import calendar_notes

    for note in calendar_notes(deck, now):
        screen.line(f"Note: {note}")


def _typed(path: str) -> str:
    """The file and the pupil's code as they are typed."""
    return f"{quoted(Path(path).name)} --learner k01"


@app.command("list")
def list_(as_json: AsJson = False) -> None:
    """List the decks here and the demonstration decks."""
    from drill.app.topics.decks import decks
    from drill.cli.screen import Screen

    rows = decks()
    if as_json:
        print_rows(rows)
    else:
        Screen().table(("id", "title", "course", "exam"), [_cells(row) for row in rows])


def _cells(row: DeckRow | FaultyDeck) -> tuple[str, str, str, str]:
    from drill.app.topics.decks import FaultyDeck

    if isinstance(row, FaultyDeck):
        return row.id, f"{row.problems} problems: drill deck check {row.path}", "", ""
    return row.id, row.title, row.course, row.exam


@app.command()
def check(
    deck: Annotated[str, typer.Argument(help="A deck's id or file.")],
    skills: Annotated[bool, typer.Option("--skills", help="A row a skill, with dates.")] = False,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Read a deck, show what it covers, and last every problem with its line."""
    from drill.app.topics.deck_check import check_deck
    from drill.cli.screen import Screen

    found = check_deck(deck, clock(at))
    if as_json:
        print_rows(found)
    else:
        _show(Screen(), found, skills)
    if any(problem.level == "error" for problem in found.problems):
        raise typer.Exit(1)


def _show(screen: Screen, found: DeckFindings, skills: bool) -> None:
    """The tables, then the problems: they stay on the screen."""
    from drill.errors import problems_as_text

    if found.skills and skills:
        head = ("name", "templates", "marks", "taught", "exam")
        screen.table(
            head, [tuple(str(getattr(row, name)) for name in head) for row in found.skills]
        )
    elif found.skills:
        rows = [
            (counted(len(some), "skill"), taught, exam) for taught, exam, some in _by_dates(found)
        ]
        screen.table(("", "taught", "exam"), rows)
        screen.line("Each skill with its dates: add --skills", style="dim")
    if found.own:
        screen.line()
        screen.line("Your own questions (every file in the folder is asked, starters too):")
        rows = [(_short(row.question), row.title, row.state) for row in found.own]
        screen.table(("question", "title", ""), rows)
    screen.line()
    screen.line(problems_as_text(found.problems, 1 + len(found.own)))


def _by_dates(found: DeckFindings) -> list[tuple[str, str, list[DeckSkill]]]:
    """(taught, exam, the skills with these dates), the earliest first."""
    dates = sorted({(row.taught != "already", row.taught, row.exam) for row in found.skills})
    return [
        (taught, exam, [row for row in found.skills if (row.taught, row.exam) == (taught, exam)])
        for _, taught, exam in dates
    ]


def _short(id_: str) -> str:
    """`practical/question` of `own/deck/practical/question`."""
    return "/".join(id_.split("/")[-2:])
