"""Whether a record from outside could have been written by this program.

Imported rows are read back like local ones, so anything that reading could not handle is rejected:
types, ranges, kinds, the JSON inside.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from drill.errors import DrillError
from drill.plaintext import one_line
from drill.store.checksum import Cell
from drill.store.limits import LONGEST_TEXT, is_goal, is_known, is_moment, is_sound
from drill.store.marks import mark_of
from drill.store.order import LAST
from drill.store.people import is_code
from drill.store.sittings import JUDGES, KINDS
from drill.store.values import moment, storable

_TYPES = {"INTEGER": int, "TEXT": str, "BLOB": bytes}
_WORDS = {"INTEGER": "a whole number", "TEXT": "text", "BLOB": "an id"}
_LARGEST = 2**63
_LONGEST_NUMBER = 2100
_MOST_MARKS = 1000
_LONGEST_NAME = 200

if TYPE_CHECKING:
    from drill.model import PointMark


class Unfit(DrillError):
    """A record that is rejected; its text says why."""


def fit(
    table: str, values: Mapping[str, Cell], types: Mapping[str, str], optional: frozenset[str]
) -> dict[str, Cell]:
    """The values as they may be stored.

    Raises:
        Unfit: something is missing, left over, or not what it should be.
    """
    if extra := values.keys() - types.keys():
        raise Unfit(f'{table}: "{one_line(min(extra))}" is not known here')
    fitting = {
        name: _typed(table, name, type, values.get(name), name in optional)
        for name, type in types.items()
    }
    for name, value in fitting.items():
        check = _CHECKS.get((table, name))
        if check is not None and value is not None and not _holds(check, value):
            raise Unfit(f'{table}: {name} cannot be "{one_line(str(value), 60)}"')
    _whole(table, fitting)
    return fitting


def _typed(table: str, name: str, type: str, value: Cell, optional: bool) -> Cell:
    if value is None and optional:
        return None
    wanted = _TYPES[type]
    sound = isinstance(value, wanted) and not isinstance(value, bool)
    if not sound or (isinstance(value, int) and not -_LARGEST <= value < _LARGEST):
        seen = "nothing" if value is None else f'"{one_line(str(value), 60)}"'
        raise Unfit(f"{table}: {name} must be {_WORDS[type]}, got {seen}")
    return storable(value) if isinstance(value, str) else value


def _whole(table: str, values: Mapping[str, Cell]) -> None:
    """What only several columns together can tell."""
    try:
        if "at" in values and not is_moment(
            moment(int(values["at"] or 0), int(values["zone"] or 0))
        ):
            raise ValueError("outside the calendar")
        if table == "setting" and not (
            is_known(str(values["name"])) and is_sound(str(values["name"]), str(values["value"]))
        ):
            raise Unfit(
                f"setting: {one_line(str(values['name']), 40)} cannot be "
                f'"{one_line(str(values["value"]), 60)}" here'
            )
        if table == "verdict":
            if int(values["marks"] or 0) > int(values["of"] or 0):
                raise ValueError("more marks than there are")
            _points(mark_of(values).points)
    except (ValueError, TypeError, OverflowError, RecursionError) as error:
        raise Unfit(f"{table}: its values do not go together") from error


def _points(points: Iterable[PointMark]) -> None:
    for point in points:
        texts, numbers = (point.id, point.because), (point.marks, point.of)
        if not all(type(text) is str for text in texts):
            raise TypeError("the words of a marking point are text")
        if not all(type(number) is int and 0 <= number <= _MOST_MARKS for number in numbers):
            raise ValueError("marks are whole numbers")


def _holds(check: Callable[[str], bool], value: Cell) -> bool:
    try:
        return check(str(value))
    except (ValueError, RecursionError):
        return False


def _is_number(text: str) -> bool:
    """A whole number or "p/q" as `Fraction` writes it; never "1e9999999", which it would read."""
    top, slash, bottom = text.removeprefix("-").partition("/")
    parts = [top, bottom] if slash else [top]
    digits = all(part.isascii() and part.isdigit() for part in parts)
    return digits and len(text) <= _LONGEST_NUMBER and (not slash or int(bottom) > 0)


def _is_json(kind: type) -> Callable[[str], bool]:
    return lambda text: isinstance(json.loads(text), kind)


def _is_count(text: str) -> bool:
    return 0 <= int(text) <= _MOST_MARKS


def _is_place(text: str) -> bool:
    return 0 <= int(text) <= LAST


def _is_short(text: str) -> bool:
    return len(text) <= _LONGEST_NAME


def _is_typed(text: str) -> bool:
    return len(text) <= LONGEST_TEXT


_FLAG = ("0", "1").__contains__
_CHECKS: dict[tuple[str, str], Callable[[str], bool]] = {
    ("learner_name", "code"): is_code,
    ("learner_name", "count"): _is_place,
    ("setting", "count"): _is_place,
    ("setting", "name"): _is_short,
    ("answer", "count"): _is_place,
    ("answer", "part"): _is_short,
    ("answer", "text"): _is_typed,
    ("verdict", "count"): _is_place,
    ("verdict", "marker"): _is_short,
    ("verdict", "says"): _is_typed,
    ("verdict", "note"): _is_typed,
    ("appeal", "count"): _is_place,
    ("appeal", "reason"): _is_typed,
    ("acceptance", "count"): _is_place,
    ("reading", "name"): _is_short,
    ("reading", "text"): _is_typed,
    ("faulty", "note"): _is_typed,
    ("asking", "skill"): _is_short,
    ("asking", "template"): _is_short,
    ("sitting", "deck"): _is_short,
    ("sitting_end", "how"): _is_short,
    ("template_version", "rows"): _is_json(list),
    ("template_version", "slips"): _is_json(dict),
    ("sitting", "goal"): is_goal,
    ("asking", "shown"): _FLAG,
    ("answer", "kind"): KINDS.__contains__,
    ("answer", "ms"): lambda text: int(text) >= 0,
    ("verdict", "judge"): JUDGES.__contains__,
    ("verdict", "marks"): _is_count,
    ("verdict", "of"): _is_count,
    ("verdict", "points"): _is_json(list),
    ("verdict", "unsure"): _is_json(list),
    ("verdict", "value"): _is_number,
    ("verdict", "readable"): _FLAG,
    ("verdict", "carried"): _FLAG,
    ("verdict", "self_marked"): _FLAG,
}
