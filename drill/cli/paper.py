"""`drill paper`: question papers with their mark schemes, and their marks typed back in."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import find_deck, open_bank_of_all, open_checked, open_store
from drill.cli.common import AsJson, At, clock, print_rows
from drill.errors import WrongValue
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.app.context import Bank
    from drill.app.papers.assembly import PaperPlan
    from drill.app.papers.paper_entry import Entered
    from drill.app.papers.paper_making import MadePapers
    from drill.app.papers.paper_sheet import PaperSheet
    from drill.documents.values import Document
    from drill.model import Deck

app = typer.Typer(help="Printed papers, their schemes and their marks.", no_args_is_help=True)

FORMATS = {"pdf": ".pdf", "html": ".html", "text": ".txt"}
VERSIONS = ("A", "B", "C")

Marks = Annotated[int, typer.Option("--marks", help="Marks of the whole paper.", min=1)]
Seed = Annotated[int, typer.Option("--seed", help="The same seed makes the same paper.", min=0)]
Format = Annotated[str, typer.Option("--format", help="pdf, html, text; several with commas.")]
Version = Annotated[str, typer.Option("--version", help="A, B or C; all: one of each.")]
Each = Annotated[
    str,
    typer.Option(
        "--each", help="A class list, a line a pupil: code, or code,name. Each gets own numbers."
    ),
]
Large = Annotated[bool, typer.Option("--large", help="Large print, 18 point.")]
Course = Annotated[str, typer.Option("--course", help='Another course, as "combined higher".')]
Untaught = Annotated[bool, typer.Option("--untaught", help="Also what is not taught yet.")]
Out = Annotated[str, typer.Option("--out", help="The folder to write to; left out: this one.")]
ClassName = Annotated[str, typer.Option("--class", help="Also count them in this class's report.")]
DeckArgument = Annotated[str, typer.Argument(help="A topic deck: its id, or its file.")]


@app.command()
def make(
    deck: DeckArgument,
    marks: Marks = 40,
    seed: Seed = 1,
    format: Format = "pdf",
    version: Version = "A",
    each: Each = "",
    large: Large = False,
    course: Course = "",
    untaught: Untaught = False,
    out: Out = ".",
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Write a question paper, its mark scheme and a sheet for the marks.

    Balanced over topics, skills and command words; versions differ in their numbers only.
    """
    from drill.app.papers.assembly import PaperWish
    from drill.app.papers.paper_making import make_papers

    chosen, now = find_deck(deck), clock(at)
    formats, versions = _formats(format), _versions(version)
    wish = PaperWish(marks, seed, course_for(course, chosen), untaught)
    pupils = _listed(each) if each else {}
    bank = open_checked(chosen)
    if not as_json:
        _tell_left_out(chosen, wish.course, bank)
    with open_store() as store:
        made = make_papers(store, bank, chosen, wish, versions, pupils, now)
    files = [*_write(made, formats, large, Path(out), bool(each))]
    if as_json:
        print_rows(_rows(made, files))
    else:
        _tell(made, files)


def _tell_left_out(deck: Deck, course: str, bank: Bank) -> None:
    """Say what of the deck has nothing for the course of the paper."""
    from drill.app.topics.left_out import for_teacher, left_out
    from drill.cli.screen import Screen
    from drill.frozen import replace

    for line in for_teacher(left_out(replace(deck, course=course or deck.course), bank)):
        Screen().line(line)


def _listed(file: str) -> dict[str, str]:
    from drill.app.classes.class_list import read_list

    return read_list(Path(file))


def _formats(typed: str) -> list[str]:
    wanted = [one.strip().casefold() for one in typed.split(",") if one.strip()]
    for one in wanted:
        if one not in FORMATS:
            shown = one_line(one, 40)
            raise WrongValue(f'--format "{shown}": it is one of {", ".join(FORMATS)}.')
    return wanted or ["pdf"]


def _versions(typed: str) -> list[str]:
    if typed.casefold() == "all":
        return list(VERSIONS)
    if typed.upper() not in VERSIONS:
        raise WrongValue(f'--version "{one_line(typed, 40)}": it is A, B, C or all.')
    return [typed.upper()]


def course_for(typed: str, deck: Deck) -> str:
    """The course it is for; a deck for several needs to be told."""
    from drill.app.topics.courses import course_of, listed_courses
    from drill.app.topics.deck_answers import Wrong

    if not typed:
        if len(deck.courses) > 1 and not deck.course:
            listed = listed_courses(deck.courses, " or ")
            raise WrongValue(f"this deck is for several courses. Say with --course: {listed}.")
        return ""
    found = course_of(typed, deck.courses)
    if isinstance(found, Wrong):
        raise WrongValue(f'--course "{one_line(typed, 40)}": {found.says}')
    return found


def _write(
    made: MadePapers, formats: list[str], large: bool, folder: Path, each: bool
) -> Iterator[Path]:
    """Write every file; returns where they are."""
    from drill.app.papers.paper_files import marks_sheet, save
    from drill.documents import paper_document, scheme_document

    first = made.sheets[0]
    base = f"{first.deck}-{first.seed}"
    papers = [("papers", list(made.sheets))] if each else _by_version(made.sheets)
    scheme = scheme_document.booklet if each else scheme_document.document
    documents = [
        (f"{base}-{name}", paper_document.document(sheets, large)) for name, sheets in papers
    ]
    documents.append((f"{base}-scheme", scheme(made.sheets)))
    for name, document in documents:
        for one in formats:
            path = folder / f"{name}{FORMATS[one]}"
            save(path, written_as(document, one))
            yield path
    sheet = folder / f"{base}-marks.csv"
    if sheet.exists():  # it may hold marks already
        sheet = next(
            path
            for path in (folder / f"{base}-marks-{n}.csv" for n in range(2, 1000))
            if not path.exists()
        )
    save(sheet, marks_sheet(made.sheets).encode())
    yield sheet


def _by_version(sheets: tuple[PaperSheet, ...]) -> list[tuple[str, list[PaperSheet]]]:
    return [(f"paper-{one.version}", [one]) for one in sheets]


def written_as(document: Document, format: str) -> bytes:
    """A document in one of `FORMATS`."""
    from drill.documents import html, terminal, typeset

    if format == "pdf":
        return typeset.write(document)
    return (html.write(document) if format == "html" else terminal.write(document)).encode()


def _tell(made: MadePapers, files: list[Path]) -> None:
    from drill.cli.screen import Screen

    screen = Screen()
    for line in _notes(made.plan):
        screen.line(line)
    for path in files:
        screen.line(f"{one_line(str(path))} is ready.")
    marks = next(path for path in files if path.suffix == ".csv")
    screen.line(f"Marks typed into it come back with: drill paper enter {one_line(str(marks))}")


def _notes(plan: PaperPlan) -> Iterator[str]:
    """What a teacher should know of this paper before it is copied."""
    yield (
        f"{plan.marks} marks in {len(plan.items)} questions; a learner who has answered nothing "
        f"yet would get about {100 * plan.difficulty:.0f} %."
    )
    if plan.marks != plan.wanted:
        yield f"{plan.wanted} marks cannot be met with these questions; it has {plan.marks}."
    if plan.not_taught:
        left = ", ".join(plan.not_taught)
        yield f"Left out as not taught yet: {left}. --untaught takes them in."
    if plan.overdone:
        over = ", ".join(plan.overdone)
        yield f"The deck has little else, so these have more than their share: {over}."
    for one, other in plan.clues:
        yield f"Look at {one} and {other}: one prints what the other asks for."


def _rows(made: MadePapers, files: list[Path]) -> object:
    from drill.app.papers.paper_rows import MadePaper

    return [
        MadePaper(
            paper=one.code,
            deck=one.deck,
            version=one.version,
            pupil=one.pupil,
            seed=one.seed,
            marks=one.marks,
            difficulty=made.plan.difficulty,
            templates=tuple(question.template for question in one.questions),
            files=tuple(str(path) for path in files),
        )
        for one in made.sheets
    ]


@app.command()
def enter(
    file: Annotated[str, typer.Argument(help="The marks sheet (CSV), filled in.")],
    new: Annotated[bool, typer.Option("--new", help="Add pupils who are not here yet.")] = False,
    class_name: ClassName = "",
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Type marks from paper back in: a row a pupil, a column a part.

    Each mark is checked against the paper; as long as anything is in doubt, nothing is stored.
    """
    from drill.app.papers.paper_entry import enter as enter_marks
    from drill.app.papers.paper_entry import hand_to_class

    now = clock(at)
    with open_store() as store:
        found = enter_marks(store, file, new, now, class_name)
        if class_name:
            hand_to_class(store, open_bank_of_all(store), found, class_name, now)
    if as_json:
        print_rows(found)
    else:
        _tell_entered(found)


def _tell_entered(found: Entered) -> None:
    from drill.cli.screen import Screen

    screen = Screen()
    named = ("name",) if any(row.name for row in found.pupils) else ()
    head = ("pupil", *named, "paper", "marks", "of", "state")
    if found.pupils:
        screen.table(
            head, [tuple(str(getattr(row, name)) for name in head) for row in found.pupils]
        )
    if found.empty:
        screen.line(f"No marks for {', '.join(found.empty)}.")
    if not found.pupils:
        screen.line("No marks are in it yet.")
