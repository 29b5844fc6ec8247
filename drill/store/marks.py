"""A `Mark` as columns of a verdict, and back.

Fractions are written "p/q"; points as JSON `[[id, marks, of, because], …]`, `because` left out when
empty and null when it is what the whole mark says; the ids of those not sure of beside them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from drill.store.checksum import Cell
from drill.store.values import storable

if TYPE_CHECKING:
    from drill.model import Mark

COLUMNS = (
    "marks",
    "of",
    "says",
    "points",
    "unsure",
    "slip",
    "readable",
    "value",
    "carried",
    "self_marked",
)
_LONGEST_VALUE = 1000


def mark_columns(mark: Mark) -> dict[str, Cell]:
    """The columns of a verdict that hold its mark."""
    says = storable(mark.says)
    points = [[point.id, point.marks, point.of, point.because] for point in mark.points]
    return {
        "marks": mark.marks,
        "of": mark.of,
        "says": says,
        "points": brief(as_json(points), says),
        "unsure": as_json(list(mark.unsure)),
        "slip": mark.slip,
        "readable": int(mark.readable),
        "value": _value_text(mark.value),
        "carried": int(mark.carried),
        "self_marked": int(mark.self_marked),
    }


def mark_of(columns: Mapping[str, Any]) -> Mark:
    """The mark that `mark_columns` took apart."""
    from drill.model import Mark, PointMark

    unsure = set(json.loads(columns["unsure"]))
    value = columns["value"]
    return Mark(
        marks=columns["marks"],
        of=columns["of"],
        points=tuple(
            PointMark(id, marks, of, _reason(because, columns["says"]), id in unsure)
            for id, marks, of, *because in json.loads(columns["points"])
        ),
        says=columns["says"],
        slip=columns["slip"],
        readable=bool(columns["readable"]),
        value=None if value is None else Fraction(value),
        carried=bool(columns["carried"]),
        self_marked=bool(columns["self_marked"]),
    )


def brief(points: str, says: str) -> str:
    """The points without empty reasons, and null for a reason that is what the whole mark says.

    Raises:
        ValueError, TypeError: they are not points.
    """
    return as_json([_brief(point, says) for point in json.loads(points)])


def _brief(point: list[Any], says: str) -> list[Any]:
    *rest, because = point
    if len(rest) < 3 or because == "":
        return point if len(rest) < 3 else rest
    return [*rest, None if because == says else because]


def _reason(told: list[Any], says: str) -> Any:
    """The reason, from what may stand behind a point's numbers."""
    if len(told) > 1:
        raise ValueError("a point has one reason")
    if not told:
        return ""
    return says if told[0] is None else told[0]


def as_json(value: object) -> str:
    """Compact JSON that keeps letters readable."""
    return storable(json.dumps(value, ensure_ascii=False, separators=(",", ":")))


def _value_text(value: Fraction | None) -> str | None:
    """ "33/500"; None for a number no bench could give, too long to be carried forward."""
    if value is None:
        return None
    longest = max(abs(value.numerator), value.denominator)
    return str(value) if longest < 10**_LONGEST_VALUE else None
