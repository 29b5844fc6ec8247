"""`drill lab`: simulated learners against policies of practice, for the curious."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING, Annotated

import typer

from drill.cli.common import AsJson, Plain, rows_as_json

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.lab import Row

app = typer.Typer(help="Simulated learners against policies of practice.", no_args_is_help=True)

Scenarios = Annotated[
    str, typer.Option("--scenario", help="four-weeks, ten-weeks, one-week; with commas.")
]
Learners = Annotated[str, typer.Option("--learner", help="Families of learners, with commas.")]
Policies = Annotated[str, typer.Option("--policy", help="Policies, with commas.")]
Seeds = Annotated[int, typer.Option("--seeds", help="People of each family.", min=1, max=1000)]
First = Annotated[int, typer.Option("--first-seed", help="The seed of the first of them.", min=0)]
Jobs = Annotated[int, typer.Option("--jobs", help="Processes; 0: one a processor.", min=0)]
References = Annotated[
    bool,
    typer.Option(
        "--references/--no-references",
        help="Also what could be reached by knowing more than any policy can (slow).",
    ),
]


@app.callback()
def lab() -> None:
    """Simulated learners against policies of practice."""


@app.command()
def compare(
    scenario: Scenarios = "",
    learner: Learners = "",
    policy: Policies = "",
    seeds: Seeds = 5,
    first_seed: First = 1,
    jobs: Jobs = 0,
    references: References = True,
    as_json: AsJson = False,
    plain: Plain = False,
) -> None:
    """Compare policies by the exam-day share they lead to, on the same simulated people.

    Left out, every scenario, learner and policy takes part; that takes some minutes.
    """
    from drill.cli.screen import Screen
    from drill.lab import BOUND, LEARNERS, POLICIES, REFERENCES, SCENARIOS, as_rows
    from drill.lab import compare as compared

    names = _names(policy) or [*POLICIES]
    if references:
        names += [name for name in (*REFERENCES, BOUND) if name not in names]
    rows = compared(
        _names(scenario) or [*SCENARIOS],
        _names(learner) or [*LEARNERS],
        names,
        range(first_seed, first_seed + seeds),
        jobs or os.cpu_count() or 1,
        _progress,
    )
    if as_json:
        rows_as_json(as_rows(rows))
    else:
        _show(Screen(plain), rows, seeds)


def _names(text: str) -> list[str]:
    return [name.strip() for name in text.split(",") if name.strip()]


def _progress(done: int, of: int) -> None:
    """One line on standard error, written over; only at the end when that is no terminal."""
    if sys.stderr.isatty():
        sys.stderr.write(f"\r{done} of {of} people" + ("\n" if done == of else ""))
        sys.stderr.flush()
    elif done == of or done % 20 == 0:
        sys.stderr.write(f"{done} of {of} people\n")


def _show(screen: Screen, rows: list[Row], seeds: int) -> None:
    """A table a scenario: all learners together, then the share with each family."""
    screen.line("Exam-day share by policy, in per cent of the marks", style="bold")
    for place in dict.fromkeys(row.scenario for row in rows):
        here = [row for row in rows if row.scenario == place]
        families = list(dict.fromkeys(row.learner for row in here))
        together = families[-1]
        screen.line()
        screen.line(place, style="bold")
        head = ("policy", "share", "way", "ours more", "minutes", *(f[:5] for f in families[:-1]))
        screen.table(head, _table(here, families[:-1], together))
    screen.line()
    screen.line(
        f"{seeds} simulated people of each family; ± is half a 95 % interval. Way: the part of the "
        "way from no practice to the best plan known. Ours more: by how much our planner is above, "
        "on the same people. The bound is only there for learners and scenarios that have one, and "
        "no plan can pass it."
    )


def _table(here: list[Row], families: list[str], together: str) -> list[tuple[str, ...]]:
    table = []
    cells = {(row.policy, row.learner): row for row in here}
    for policy in dict.fromkeys(row.policy for row in here):
        each = [cells.get((policy, family)) for family in families]
        shown = tuple(f"{100 * row.share:.1f}" if row else "" for row in each)
        row = cells.get((policy, together))
        whole = ("", "", "", "")
        if row is not None:
            whole = (
                f"{100 * row.share:.1f} ± {100 * row.off:.1f}",
                f"{100 * row.way:.0f}",
                f"{100 * row.ours_more:+.1f} ± {100 * row.ours_off:.1f}",
                f"{row.minutes:.0f}" if row.minutes else "",
            )
        table.append((policy, *whole, *shown))
    return table
