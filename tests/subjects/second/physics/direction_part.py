"""A kind of part of the second subject: up, down, left or right."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from drill.frozen import replace
from drill.model import MadeKey, Mark, Part, PartSpec, SubjectKey
from drill.model.field import Field
from drill.quantities import Fault
from drill.subjects.interface import AuthorReader, PartValues, SubjectKind, Where
from drill.typed.awarding import nothing, whole

WAYS = ("up", "down", "left", "right")


class DirectionKey(SubjectKey, frozen=True):
    way: str


def _read(spec: PartSpec, clean: Mapping[str, Any], where: Where, reader: AuthorReader) -> PartSpec:
    (points_to,) = reader.texts([clean["points_to"] or ""], (*where, "points_to"))
    if points_to == "nowhere":
        reader.fault((*where, "points_to"), "an arrow points somewhere.", "Write down.")
    return replace(spec, own={"points_to": points_to})


def _make(spec: PartSpec, values: PartValues) -> MadeKey | Fault:
    way = values.fill(spec.own["points_to"], spec.line)
    if way not in WAYS:
        return Fault(f"{way} is no direction", hint=f"One of {', '.join(WAYS)}.")
    return MadeKey.whole(spec, DirectionKey(way), f"the arrow points {way}", way)


def _mark(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    assert isinstance(part.key, DirectionKey)
    said = typed.lower().removesuffix("wards")
    if said not in WAYS:
        return nothing(part, "Up, down, left or right?", readable=False)
    return whole(part, said == part.key.way, f"It points {part.key.way}.")


KIND = SubjectKind(
    (Field("points_to", "text", "Where it points.", 'points_to = "down"', required=True,
        kinds=("direction",)),),
    _read, _make, _mark, seconds=15,
    worked=lambda made: ["A weight pulls towards the ground.", made.model_answer],
)  # fmt: skip
