"""`drill results`: readings from one's own bench, worked up and practised on."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import deck_of, open_bank, open_store
from drill.cli.common import AsJson, At, LearnerCode, PlainKept, is_plain, print_rows
from drill.cli.without_eyes import said
from drill.errors import DrillError
from drill.plaintext import one_line

if TYPE_CHECKING:
    from collections.abc import Callable

    from drill.app.bench_kinds import BenchKind, Reading
    from drill.app.bench_results import WorkedUp
    from drill.app.context import Bank, Store
    from drill.cli.screen import Screen

File = Annotated[
    str, typer.Argument(help="A TOML or CSV file of readings; left out: they are asked for.")
]
Kind = Annotated[str, typer.Option(help="Which readings, by the name that a list of them shows.")]

_ONLY_TAKEN = "Use readings that were taken under supervision; do not repeat or scale anything."


def results(
    file: File = "",
    kind: Kind = "",
    learner: LearnerCode = "",
    plain: PlainKept = None,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Work up your own readings from the bench, judge them, and practise on them.

    A file has a line for each reading, as mass = 57.23, and one for their kind.
    """
    from drill.app.bench_kinds import from_file
    from drill.app.bench_results import worked_up
    from drill.cli import views
    from drill.cli.screen import Screen
    from drill.cli.sit import ticking

    if as_json:
        _print_rows(file, kind)
        return
    now = ticking(at)
    with open_store() as store:
        screen = Screen(is_plain(store, learner, plain))
        screen.line(f"{views.SAFETY} {_ONLY_TAKEN}")
        named, readings = from_file(Path(file)) if file else ("", {})
        bank = open_bank()
        chosen = _kind(screen, bank, kind or named)
        taken = _taken(bank, chosen, readings) if file else _asked(screen, bank, chosen)
        found = worked_up(bank, chosen, taken)
        _judged(screen, found)
        if found.question is not None and _wants_to(screen):
            _practise(screen, store, learner, found, taken, now)
        _show(screen, found)


def _print_rows(file: str, kind: str) -> None:
    """The readings of a file as JSON; nothing is asked and nothing kept.

    Raises:
        DrillError: there is no file, or it names no kind.
    """
    from drill.app.bench_kinds import from_file
    from drill.app.bench_results import bench_rows, worked_up

    if not file:
        raise DrillError("--json takes the readings from a file: drill results mine.toml --json")
    named, readings = from_file(Path(file))
    bank = open_bank()
    chosen = _named(bank, kind or named)
    taken = _taken(bank, chosen, readings)
    print_rows(bench_rows(chosen, taken, worked_up(bank, chosen, taken)))


def _named(bank: Bank, name: str) -> BenchKind:
    """The kind of that name.

    Raises:
        DrillError: there is none.
    """
    from drill.app.bench_kinds import bench_kinds

    kinds = bench_kinds(bank)
    if name.strip().casefold() not in kinds:
        known = ", ".join(kinds)
        raise DrillError(f'no kind of readings is called "{one_line(name, 40)}": {known}.')
    return kinds[name.strip().casefold()]


def _kind(screen: Screen, bank: Bank, name: str) -> BenchKind:
    """The kind named, or chosen by its number."""
    from drill.app.bench_kinds import bench_kinds

    if name:
        return _named(bank, name)
    kinds = list(bench_kinds(bank).values())
    for number, one in enumerate(kinds, 1):
        screen.item(str(number), f"{one.title} ({one.id})", label_width=2)
    return kinds[_number(screen, "Which readings do you have?", len(kinds))]


def _number(screen: Screen, asking: str, most: int) -> int:
    """A choice from 1 to `most`, counted from 0."""
    while True:
        typed = screen.ask(f"{asking} 1 to {most} > ").strip()
        if typed.isascii() and typed.isdigit() and 1 <= int(typed) <= most:
            return int(typed) - 1
        screen.line(f"Type a number from 1 to {most}.")


def _taken(bank: Bank, kind: BenchKind, given: Mapping[str, str]) -> dict[str, str]:
    """The readings of a file, each held to what can be meant.

    Raises:
        DrillError: one is missing, unknown, or cannot be meant.
    """
    from drill.app.bench_results import checked

    names = [one.id for one in kind.readings]
    missing = [name for name in names if name not in given]
    unknown = [one_line(name, 30) for name in given if name not in names]
    if missing or unknown:
        said = f"missing: {', '.join(missing)}" if missing else f"not known: {', '.join(unknown)}"
        raise DrillError(f"readings for {kind.id} are {', '.join(names)}; {said}.")
    return {one.id: checked(bank, kind, one, given[one.id]) for one in kind.readings}


def _asked(screen: Screen, bank: Bank, kind: BenchKind) -> dict[str, str]:
    screen.line(kind.title, style="bold")
    return {one.id: _ask(screen, bank, kind, one) for one in kind.readings}


def _ask(screen: Screen, bank: Bank, kind: BenchKind, reading: Reading) -> str:
    from drill.app.bench_results import checked, choices

    if reading.rows:
        rows = choices(bank, kind, reading)
        for number, (_, words) in enumerate(rows, 1):
            screen.item(str(number), words, label_width=2)
        return rows[_number(screen, f"{reading.says}?", len(rows))][0]
    while True:
        try:
            typed = screen.ask(f"{reading.says}, in {reading.unit} > ")
            return checked(bank, kind, reading, typed)
        except DrillError as error:
            screen.line(str(error))


def _judged(screen: Screen, found: WorkedUp) -> None:
    """Whether they can be believed, before anything is worked out."""
    screen.line()
    if not found.doubts:
        screen.line("These readings are believable.", style="bold")
    for doubt in found.doubts:
        screen.item("check", said(screen, doubt))
    if found.question is None:
        screen.line(f"No question is made of them: {found.why_none}")


def _wants_to(screen: Screen) -> bool:
    reply = screen.ask("Work them up yourself first? yes, or Enter to see it worked > ")
    return reply.strip().casefold() in ("y", "yes")


def _practise(
    screen: Screen,
    store: Store,
    code: str,
    found: WorkedUp,
    readings: Mapping[str, str],
    now: Callable[[], datetime],
) -> None:
    """A question on the readings, kept with them and marked as any other."""
    from drill.cli.conversation import Conversation, Stopped
    from drill.cli.greeting import who_is_it
    from drill.sitting import Goal, Sitting

    who = who_is_it(screen, store, code, now())
    deck = deck_of(store, who, "")
    sitting = Sitting(store, open_bank(deck), deck, who, now(), Goal(1))
    assert found.template is not None
    assert found.question is not None
    asked = sitting.put_own(found.template, found.question, readings, now())
    try:
        Conversation(screen, sitting, now, sure=False).take(asked, "your own readings")
    except Stopped:
        pass
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line("Stopped. Every answer is kept.")
        raise typer.Exit(130) from None
    sitting.end(now())


def _show(screen: Screen, found: WorkedUp) -> None:
    """Each step worked, then what is told besides."""
    for step in found.steps:
        screen.rule()
        screen.line(step.ask)
        screen.item("worked", step.worked)
    for line in found.also:
        screen.item("also", line)
