"""`drill bank`: the question bank, listed, shown and proved."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import open_bank
from drill.cli.common import AsJson, print_rows

if TYPE_CHECKING:
    from drill.app.bank_check import BankFindings

_FEW = 5  # files of which `check` tells how many questions each makes

app = typer.Typer(help="The question bank: list, preview, prove.", no_args_is_help=True)

Paths = Annotated[list[str] | None, typer.Argument(help="Templates or folders; none: all.")]
Seeds = Annotated[int, typer.Option(min=1, max=100_000, help="Instances of each template.")]
Jobs = Annotated[int, typer.Option(min=0, help="Processes; 0: one a core.")]
Stamp = Annotated[bool, typer.Option(help="Learn from the samples; list those that pass.")]
TemplateId = Annotated[str, typer.Argument(help="A template: its id or its file.")]
Of = Annotated[str, typer.Argument(help="Part of an id or a skill; none: all.")]
Kind = Annotated[str, typer.Argument(help="calculation, number, choice, name, …")]
Out = Annotated[str, typer.Option(help="The file to write; left out: the screen.")]


@app.command("list")
def list_(of: Of = "", as_json: AsJson = False) -> None:
    """List every template, or those of a skill or practical: kinds of part, marks, courses."""
    from drill.app.bank_list import templates

    bank = open_bank()
    rows = templates(bank, of)
    if as_json:
        print_rows(rows)
        return
    from drill.cli.bank_screens import show_list
    from drill.cli.screen import Screen

    show_list(Screen(), rows, bank.skills())


@app.command()
def show(
    template: TemplateId,
    seed: Annotated[int, typer.Option(help="The first of three instances.")] = 0,
) -> None:
    """Show a question with its mark scheme and slips, then two more instances."""
    from drill.app.ask import question_of, template_of
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
    from drill.app.bank_check import check_bank

    shown = sys.stderr.isatty() and not as_json
    found, files = check_bank(paths or [], seeds, jobs, _progress if shown else None, stamp)
    if shown:
        sys.stderr.write("\r" + " " * 60 + "\r")
    if as_json:
        print_rows(found)
    else:
        _show_findings(found, files)
    if any(problem.level == "error" for problem in found.problems):
        raise typer.Exit(1)


def _progress(done: int, of: int) -> None:
    sys.stderr.write(f"\r{done} of {of} templates")
    sys.stderr.flush()


def _show_findings(found: BankFindings, files: int) -> None:
    from drill.cli.bank_screens import instances
    from drill.errors import problems_as_text

    sys.stdout.write(problems_as_text(found.problems, files) + "\n")
    if files <= _FEW:
        for row in found.templates:
            sys.stdout.write(instances(row) + "\n")


@app.command("try")
def try_(
    template: TemplateId,
    part: Annotated[str, typer.Option(help="Its letter; none: the first written one.")] = "",
    seed: Annotated[int, typer.Option(help="Which instance.")] = 0,
    keep: Annotated[bool, typer.Option(help="Ask for your own marks, and keep samples.")] = False,
    as_json: AsJson = False,
) -> None:
    """Try answers on a written part, one a line: marks, and the lines that gave them."""
    from drill.app.bank_try import Trial
    from drill.cli.bank_screens import show_tried
    from drill.cli.screen import Screen

    trial, screen = Trial(open_bank(), template, part, seed), Screen()
    asks = sys.stdin.isatty() and not as_json
    if asks:
        screen.line(trial.part.ask)
        screen.line("Type or paste answers, one a line; an empty line ends.", style="dim")
    while typed := sys.stdin.readline().strip():
        tried = trial.answer(typed)
        if as_json:
            print_rows(tried)
            continue
        show_tried(screen, tried)
        if keep:
            screen.line("Your marks for the points in this order, as 1 0; nothing: not kept.")
            marks = sys.stdin.readline().split()
            if marks:
                kept = trial.keep(tried, [int(one) if one.isdecimal() else -1 for one in marks])
                screen.line(f"Kept in {kept}.")


@app.command()
def new(kind: Kind, out: Out = "") -> None:
    """Write a starter: calculation (three parts) or a kind of part; it passes as it stands."""
    from drill.app.bank_files import starter, write_starter

    if not out:
        sys.stdout.write(starter(kind))
        return
    write_starter(kind, Path(out))
    sys.stdout.write(f"{out} is ready. Change it, then: drill bank check {out}\n")


@app.command()
def cover(as_json: AsJson = False) -> None:
    """Show practicals by side and skills by course, how many templates each; what is thin."""
    from drill.app.coverage import covered_practicals, covered_skills

    bank = open_bank()
    practicals = covered_practicals(bank.entries(), bank.practicals())
    skills = covered_skills(bank.entries(), bank.skills())
    if as_json:
        print_rows([*practicals, *skills])
        return
    from drill.cli.bank_screens import show_cover
    from drill.cli.screen import Screen

    show_cover(Screen(), practicals, skills)


@app.command()
def upgrade(
    files: Annotated[list[str], typer.Argument(help="Templates or decks to rewrite.")],
) -> None:
    """Bring files to today's format in place, comments kept."""
    from drill.app.bank_files import upgrade_file

    for name in files:
        changes = upgrade_file(Path(name))
        sys.stdout.write(
            f"{name}: {'; '.join(changes) if changes else 'already as it should be'}\n"
        )
