"""Repeats the draws of a seed from the author's file."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from math import floor
from pathlib import Path
from typing import NamedTuple

from drill.judge.amounts import Amount, Value, turned
from drill.judge.author import Raw, exact, formula, is_number, places
from drill.judge.cannot import Cannot
from drill.judge.filling import filled
from drill.judge.stream import below, mixed
from drill.judge.tables import rows_of
from drill.judge.units import PLAIN, unit_of
from drill.judge.working import number

_MOST_PLACES = 6  # shown where neither the author nor the step tells


class Turn(NamedTuple):
    """One draw of one seed: its stream is named after it and the number of the try."""

    raw: Raw
    env: Mapping[str, Value]
    seed: int
    stream: str
    folders: Sequence[Path]
    people: Sequence[str]

    def below(self, n: int, name: str = "") -> int:
        return below(self.seed, self.stream + name, n)


def drawn(turn: Turn) -> Value:
    """The value of a draw.

    Raises:
        Cannot: there is nothing to draw.
    """
    kind = next((key for key in _KINDS if key in turn.raw), "")
    if turn.seed == 0 and "first" in turn.raw:
        return _first(turn, kind)
    return _KINDS[kind](turn)


def _first(turn: Turn, kind: str) -> Value:
    first = turn.raw["first"]
    if kind == "row_of":
        rows = _rows(turn)
        if first not in rows:
            raise Cannot(f"no row {first}")
        return rows[first]
    return _written(turn, first)


def _range(turn: Turn) -> Value:
    """From the start in whole steps, never beyond the end."""
    start, stop, step = (_number(turn, key) for key in ("from", "to", "step"))
    if step <= 0 or stop < start:
        raise Cannot("nothing to draw from")
    value = start + turn.below(floor((stop - start) / step) + 1) * step
    shown = shown_places(turn.raw)
    if shown is None:
        shown = max(_ends_after(start), _ends_after(step))
    return Amount(value, unit_of(turn.raw.get("unit", "")), shown)


def _one_of(turn: Turn) -> Value:
    offered = turn.raw["one_of"]
    return _written(turn, offered[turn.below(len(offered))])


def _row_of(turn: Turn) -> Value:
    rows = list(_rows(turn).values())
    if not rows:
        raise Cannot("no row meets the conditions")
    return rows[turn.below(len(rows))]


def _person(turn: Turn) -> Value:
    taken = [value for value in turn.env.values() if isinstance(value, str)]
    free = [name for name in turn.people if name not in taken]
    if not free:
        raise Cannot("no name is left")
    return free[turn.below(len(free))]


def _shuffle(turn: Turn) -> Value:
    return _listed(turn, mixed(turn.seed, turn.stream, turn.raw["shuffle"]))


def _pick(turn: Turn) -> Value:
    return _listed(turn, mixed(turn.seed, turn.stream, turn.raw["of"])[: turn.raw["pick"]])


def _readings(turn: Turn) -> Value:
    """Whole numbers of steps within `spread` of the centre; an anomaly is 5 to 9 spreads off."""
    centre, spread, step = (_number(turn, key) for key in ("centre", "spread", "step"))
    how_many = turn.raw["readings"]
    if step <= 0 or spread < 0 or how_many < 1:
        raise Cannot("no readings can be drawn")
    wide, middle = floor(spread / step), round(centre / step)
    steps = [middle - wide + turn.below(2 * wide + 1, f"/{i}") for i in range(how_many)]
    if turn.raw.get("anomaly"):
        odd = turn.below(how_many, "/odd")
        far = max(1, wide) * (turn.below(5, "/far") + 5)
        down = turn.below(2, "/side") == 0 and far < middle
        steps[odd] = middle - far if down else middle + far
    shown = shown_places(turn.raw)
    shown = _ends_after(step) if shown is None else shown
    unit = unit_of(turn.raw.get("unit", ""))
    return tuple(Amount(one * step, unit, shown) for one in steps)


_KINDS: Mapping[str, Callable[[Turn], Value]] = {
    "from": _range,
    "one_of": _one_of,
    "row_of": _row_of,
    "person": _person,
    "shuffle": _shuffle,
    "pick": _pick,
    "readings": _readings,
}


def _number(turn: Turn, key: str) -> Fraction:
    """A number in the draw's unit; a plain number is taken to be in that unit."""
    if is_number(turn.raw[key]):
        return exact(turn.raw[key])
    amount, unit = number(formula(turn.raw[key]), turn.env), unit_of(turn.raw.get("unit", ""))
    return amount.number if amount.unit is PLAIN else turned(amount, unit).number


def _written(turn: Turn, value: object) -> Value:
    if isinstance(value, str):
        return filled(value, turn.env)
    if not is_number(value):
        raise Cannot("neither a number nor text")
    shown = turn.raw.get("decimals", places(value))
    return Amount(exact(value), unit_of(turn.raw.get("unit", "")), shown)


def _listed(turn: Turn, values: Sequence[object]) -> Value:
    if all(isinstance(value, str) for value in values):
        return tuple(str(value) for value in values)
    return tuple(one for value in values if isinstance(one := _written(turn, value), Amount))


def _rows(turn: Turn) -> Mapping[str, Mapping[str, Amount | str]]:
    """The rows of the table that meet all of the author's conditions."""
    found = rows_of(turn.raw["row_of"], *turn.folders)
    for column, wanted in turn.raw.get("where", {}).items():
        allowed = wanted if isinstance(wanted, list) else [wanted]
        found = {
            id_: row
            for id_, row in found.items()
            if any(_is(id_ if column == "id" else row.get(column), one) for one in allowed)
        }
    return found


def _is(cell: Amount | str | None, wanted: object) -> bool:
    if isinstance(cell, Amount):
        return is_number(wanted) and exact(wanted) == cell.number
    return cell is not None and cell == wanted


def shown_places(raw: Raw) -> int | None:
    """The places an author wrote, else the most of the written numbers, if the step is one."""
    if "decimals" in raw:
        return int(raw["decimals"])
    if not is_number(raw.get("step")):
        return None
    return max(places(raw[key]) for key in ("from", "to", "step") if is_number(raw.get(key)))


def _ends_after(value: Fraction) -> int:
    """Places that show a value exactly, at most six."""
    return next((n for n in range(_MOST_PLACES) if value * 10**n % 1 == 0), _MOST_PLACES)
