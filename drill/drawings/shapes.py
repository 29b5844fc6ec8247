"""What a drawing is made of: lines, filled areas and words, on a plane whose y points down."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

Dot = tuple[float, float]
Polyline = tuple[Dot, ...]


@dataclass(frozen=True)
class Area:
    """A closed outline, filled: `solid` all over, else with a loose pattern (a liquid)."""

    outline: tuple[Polyline, ...]
    solid: bool


@dataclass(frozen=True)
class Words:
    """Text whose `anchor` ("start", "middle", "end") stands at (x, y), y at half its height."""

    x: float
    y: float
    text: str
    anchor: str = "start"


@dataclass(frozen=True)
class Drawing:
    """`lines` are polylines, a closed one with its first point again at the end.

    `exact` drawings are made in the dots of the screen and never scaled.
    """

    width: float
    height: float
    lines: tuple[Polyline, ...] = ()
    areas: tuple[Area, ...] = ()
    words: tuple[Words, ...] = ()
    exact: bool = False


@dataclass(frozen=True)
class Picture:
    """A drawing of apparatus and the words that stand for it where it cannot be seen."""

    drawing: Drawing
    words: str


def circle(x: float, y: float, radius: float) -> Polyline:
    """A circle as a closed polyline, finer the larger it is."""
    count = max(24, min(96, int(radius * 4)))
    turns = (2 * pi * i / count for i in range(count + 1))
    return tuple((x + radius * cos(t), y + radius * sin(t)) for t in turns)


def box(left: float, top: float, right: float, bottom: float) -> Polyline:
    """An upright rectangle as a closed polyline."""
    return ((left, top), (right, top), (right, bottom), (left, bottom), (left, top))
