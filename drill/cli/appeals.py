"""`drill appeals`: contested marks and marks the marker was not sure of, settled by a person."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import open_bank_of_all, open_store
from drill.cli.common import AsJson, At, LearnerCode, Plain, clock, print_rows, quoted
from drill.cli.pictures import IN_WORDS
from drill.errors import WrongValue
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.appeals import Appeal, AppealPoint
    from drill.app.context import Store
    from drill.cli.screen import Screen
    from drill.model import Mark

app = typer.Typer(help="Settle contested marks and marks the marker was not sure of.")

By = Annotated[str, typer.Option("--by", help="Who decides: teacher or tutor.")]
Id = Annotated[str, typer.Argument(help="The mark, by the id that drill appeals shows.")]
Points = Annotated[
    str, typer.Option("--points", help="Marks by marking point, as acid-used-up=1,pure=0.")
]
Alike = Annotated[bool, typer.Option("--alike", help="Equal answers get the same marks.")]
Reply = Annotated[str, typer.Option("--reply", help="A line to the pupil, told with the mark.")]
Yes = Annotated[bool, typer.Option("--yes", help="Take over all of them.")]
_MOST_DIGITS = 6
_STOP = "\0stop"
_EXPLAINED = """\
Say whether the answer earns this point of the scheme: yes or no, or its marks. Enter keeps what
the marker gave. skip leaves this answer waiting; stop ends, what is settled stays. lines shows the
patterns that met the answer, for whoever writes questions."""


@app.callback(invoke_without_command=True)
def appeals(
    context: typer.Context,
    learner: LearnerCode = "",
    by: By = "teacher",
    plain: Plain = False,
    as_json: AsJson = False,
    at: At = "",
) -> None:
    """Go through contested marks and marks not sure of, and settle each; --json only lists them.

    Written answers are marked by pattern, measured on invented answers marked by their author: on
    real pupils expect worse than the 84 to 96 answers in 100 of published systems.
    """
    if context.invoked_subcommand is not None:
        return
    from drill.app.appeals import appeals as waiting
    from drill.app.appeals import equal_answers, judge_of, settle_appeal
    from drill.cli.screen import Screen

    by, now = judge_of(by), clock(at)
    with open_store(reading=as_json) as store:
        rows = waiting(store, open_bank_of_all(store), learner)
        if as_json:
            print_rows(rows)
            return
        bank = open_bank_of_all(store)
        _go_through(
            Screen(plain),
            rows,
            by,
            lambda id, got, reply: settle_appeal(store, id, got, by, now, reply),
            lambda id: equal_answers(store, bank, id),
            lambda: _next_handout(store),
        )


@app.command()
def settle(
    id: Id,
    points: Points,
    by: By = "teacher",
    reply: Reply = "",
    alike: Alike = False,
    at: At = "",
) -> None:
    """Settle one mark without a conversation, for scripts."""
    from drill.app.appeals import equal_answers, judge_of, settle_appeal
    from drill.model import LONGEST_REPLY

    given, by = _points(points), judge_of(by)
    if len(reply) > LONGEST_REPLY:
        raise WrongValue(f"--reply: {_too_long(reply)}")
    with open_store() as store:
        others = equal_answers(store, open_bank_of_all(store), id) if alike else []
        verdict = settle_appeal(store, id, given, by, clock(at), one_line(reply, LONGEST_REPLY))
        for other in others:
            settle_appeal(store, other, given, by, clock(at), one_line(reply, LONGEST_REPLY))
    sys.stdout.write(f"{id}: {verdict.marks} of {verdict.of}, by {by}.\n")
    if alike:
        sys.stdout.write(f"{counted(len(others), 'equal answer')} settled alike.\n")


def _points(text: str) -> dict[str, int]:
    given: dict[str, int] = {}
    for piece in text.split(","):
        name, _, marks = piece.partition("=")
        if not name.strip() or not marks.strip().isascii() or not marks.strip().isdecimal():
            raise WrongValue(f'--points "{one_line(text, 60)}": write it as acid-used-up=1,pure=0.')
        given[name.strip()] = int(marks[:_MOST_DIGITS])
    return given


@app.command()
def accept(
    learner: LearnerCode = "", yes: Yes = False, as_json: AsJson = False, at: At = ""
) -> None:
    """Take over marks that a teacher or tutor gave on another machine; they count from then on.

    Lists them and asks; --yes takes over all of them, --json only lists them.
    """
    from drill.app.appeals import accept_marks, offered
    from drill.cli.screen import Screen

    with open_store(reading=as_json) as store:
        rows = offered(store, learner)
        if as_json:
            print_rows(rows)
            return
        screen = Screen()
        for row in rows:
            screen.line(f"{row.template} ({row.part})  {row.learner}  "
                        f"{row.marks} → {row.given} of {row.of}")  # fmt: skip
            screen.item("typed", row.answer or "(nothing)")
            if row.note:
                screen.item("note", row.note)
        if not rows:
            screen.line("No mark from another machine is waiting.")
        elif yes or typer.confirm("Shall they count here?"):
            number = accept_marks(store, learner, clock(at))
            screen.line(f"{counted(number, 'mark')} accepted.")


# ---------------------------------------------------------------- a conversation


def _go_through(
    screen: Screen,
    rows: Sequence[Appeal],
    by: str,
    settle: Callable[[str, Mapping[str, int], str], Mark],
    equal: Callable[[str], Sequence[str]],
    next_handout: Callable[[], str],
) -> None:
    if not rows:
        screen.line("No mark is waiting.")
        return
    screen.line("Enter: as it stands · skip: leave this one · stop · ?: explained", style="dim")
    done = 0
    travels = False
    alike: set[str] = set()
    try:
        for number, row in enumerate(rows, 1):
            if any(id.endswith(row.id) for id in alike):
                continue
            _show(screen, row, f"{number} of {len(rows)}")
            given = _decided(screen, row)
            if given is not None:
                reply = _reply(screen)
                verdict = settle(row.id, given, "" if reply == _STOP else reply)
                screen.line(f"Settled: {verdict.marks} of {verdict.of}, by {by}.")
                done += 1
                travels = travels or bool(row.of_class)
                if reply == _STOP:
                    break
                others = _also(screen, equal(row.id))
                for id in others:
                    settle(id, given, reply)
                alike.update(others)
                done += sum(any(id.endswith(one.id) for one in rows) for id in others)
    except (_Stop, EOFError):
        pass
    screen.line()
    screen.line(f"{done} settled, {len(rows) - done} still waiting.")
    if travels:
        screen.line(
            "They count in drill class report now. Pupils are told when they open your next"
        )
        screen.line(f"handout: {next_handout()}")


def _next_handout(store: Store) -> str:
    """What writes the handout again: of the deck that was handed out last, where that is known."""
    from drill.app.context import handed_out

    known = handed_out(store)
    return f"drill deck handout {quoted(one_line(known[-1]) if known else 'DECK')}"


def _reply(screen: Screen) -> str:
    """A line to the pupil; "" for none, also where nobody types any more."""
    from drill.model import LONGEST_REPLY

    try:
        while len(typed := screen.ask("A line to the pupil (Enter: none) > ")) > LONGEST_REPLY:
            screen.line(_too_long(typed))
    except EOFError:
        return ""
    typed = one_line(typed, LONGEST_REPLY)
    return {"stop": _STOP, "skip": ""}.get(typed.casefold(), typed)


def _too_long(reply: str) -> str:
    from drill.model import LONGEST_REPLY

    return f"A line has at most {LONGEST_REPLY} characters; this one has {len(reply)}."


def _also(screen: Screen, others: Sequence[str]) -> Sequence[str]:
    """Equal answers, when the person in charge says that they get the same marks."""
    if not others:
        return ()
    asks = f"{counted(len(others), 'equal answer')}: the same marks? yes or no > "
    while (reply := screen.ask(asks).strip().casefold()) not in ("yes", "y", "no", "n", ""):
        screen.line("Type yes or no.")
    return others if reply.startswith("y") else ()


class _Stop(Exception):
    """The word `stop` was typed."""


def _show(screen: Screen, row: Appeal, place: str) -> None:
    screen.line()
    screen.pair(f"{row.template} ({row.part})  {row.id}", place, style="bold")
    screen.rule()
    if row.ask is None or row.question is None:
        screen.line("This question can no longer be made as it was: its facts have changed.")
    else:
        screen.line(row.question)
        if row.picture:
            screen.line(IN_WORDS + row.picture)
        screen.line(row.ask)
        for option in row.options:
            screen.line(option, indent=2)
        screen.item("answer", row.model_answer or "")
    screen.item("learner", f"{row.learner} {row.name}".strip())
    screen.item("typed", row.answer or "(nothing)")
    if row.reason:
        screen.item("reason", row.reason)
    screen.item("marker", f"{row.marks} of {row.of}. {row.says}".strip())
    if row.why == "doubted":
        screen.line("A second reading of this answer disagrees with the scheme.")


def _decided(screen: Screen, row: Appeal) -> dict[str, int] | None:
    """Marks for every point; None when this one is left."""
    given: dict[str, int] = {}
    for point in row.points:
        told = " (not sure)" if point.unsure else ""
        screen.item("scheme", f"{point.says}: {point.marks} of {point.of}{told}")
        marks = _ask_point(screen, point, row.lines)
        if marks is None:
            return None
        given[point.id] = marks
    return given


def _ask_point(screen: Screen, point: AppealPoint, lines: Sequence[str]) -> int | None:
    most = point.of
    asks = "Earned? yes or no > " if most == 1 else f"Marks, 0 to {most} > "
    while True:
        word = screen.ask(asks).strip().casefold()
        if word == "stop":
            raise _Stop
        if word == "skip":
            return None
        if word == "?":
            screen.line(_EXPLAINED)
        if word == "lines":
            for line in lines or ("no line of the scheme met this answer",):
                screen.item("line", line)
        if word == "":
            return point.marks
        if most == 1 and word in ("yes", "y", "no", "n"):
            return int(word.startswith("y"))
        if len(word) <= _MOST_DIGITS and word.isascii() and word.isdecimal() and int(word) <= most:
            return int(word)
        if word not in ("?", "lines"):
            screen.line("Type yes or no." if most == 1 else f"Type a number from 0 to {most}.")
