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
    seeds: Seeds = 3,
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


_HEAD = ("policy", "share", "way", "ours above it by", "minutes")
_BY_LEARNER = ("kind of learner", "nothing", "equal", "other", "ours", "known", "bound")


def _show(screen: Screen, rows: list[Row], seeds: int) -> None:
    """Two tables a scenario: policies over all learners, then the learners one by one."""
    from drill.lab import SCENARIOS

    screen.line("Share of the exam's marks that practice leads to, in per cent", style="bold")
    for name in dict.fromkeys(row.scenario for row in rows):
        here = [row for row in rows if row.scenario == name]
        families = list(dict.fromkeys(row.learner for row in here))
        together, place = families[-1], SCENARIOS[name]
        screen.line()
        screen.line(
            f"{name}: {len(place.skills)} skills, {place.days} days of "
            f"{place.minutes_per_day:.0f} minutes, {100 * place.missed:.0f} % of days missed",
            style="bold",
        )
        screen.table(_HEAD, [_policy(row) for row in here if row.learner == together])
        if len(families) > 1:
            screen.line()
            cells = {(row.learner, row.policy): row for row in here}
            screen.table(_BY_LEARNER, [_learner(cells, family) for family in families[:-1]])
    screen.line()
    screen.line(
        f"{_people(seeds)} "
        "Way: how far a policy comes, in per cent, from no practice to the best plan that was run. "
        'Names with a comma are no rivals: "knowing" plans look into the head, "family" plans know '
        "what kind of learner it is. Equal: equal spacing; other: the best policy that does not "
        "know the learner, ours left out; known: the best plan that was run. Bound: no plan can "
        "pass it; it is only there for learners and scenarios that have one."
    )


def _people(seeds: int) -> str:
    if seeds == 1:
        return "1 simulated person of each kind: too few for intervals."
    return f"{seeds} simulated people of each kind; ± is half a 95 % interval, on the same people."


def _policy(row: Row) -> tuple[str, ...]:
    return (
        row.policy,
        f"{100 * row.share:.1f}{_off(row.off)}",
        f"{100 * row.way:.0f}",
        f"{100 * row.ours_more:+.1f}{_off(row.ours_off)}",
        f"{row.minutes:.0f}" if row.minutes else "",
    )


def _off(half: float) -> str:
    """Half an interval; nothing where there is none, as with one person."""
    return f" ± {100 * half:.1f}" if half else ""


def _learner(cells: dict[tuple[str, str], Row], family: str) -> tuple[str, ...]:
    """One kind of learner under what is most worth knowing; empty where it was not run."""
    from drill.lab import BOUND, POLICIES

    shares = {policy: row.share for (one, policy), row in cells.items() if one == family}
    rivals = [name for name in POLICIES if name not in ("nothing", "ours") and name in shares]
    plans = [name for name in shares if name != BOUND]
    other = max(rivals, key=shares.__getitem__, default="")
    known = max(plans, key=shares.__getitem__)
    names = ("nothing", "equal spacing", other, "ours", known, BOUND)
    return family, *(f"{100 * shares[name]:.1f}" if name in shares else "" for name in names)
