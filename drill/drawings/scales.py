"""Instruments with a reading on them, drawn in the dots of the screen so that lines stay sharp.

Along a tube one small division is one row of cells (4 dots), along a ruler two columns, so that on
any terminal a level half-way between two lines can be distinguished from one at a line.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, sin

from drill.drawings.digits import display
from drill.drawings.shapes import Area, Dot, Drawing, Polyline, Words, box
from drill.drawings.window import Window, window
from drill.model import Scale

STEP = 4  # dots a division
TALL, WIDE = 14, 34  # divisions that fit upright, and across


def scale_drawing(scale: Scale) -> Drawing:
    """The stretch of the scale round its reading.

    Raises:
        KeyError: a shape that is not drawn.
    """
    return SHAPES[scale.shape](scale)


# ------------------------------------------------------------------ upright tubes


def _cylinder(scale: Scale) -> Drawing:
    return _tube(scale, width=60, down=False)


def _burette(scale: Scale) -> Drawing:
    return _tube(scale, width=44, down=True)


def _upright(scale: Scale, down: bool) -> tuple[Window, float, Callable[[float], float]]:
    """The stretch, its height in dots, and the dot row of a place counted from its first line."""
    stretch = window(scale, TALL)
    last = len(stretch.lines) - 1
    height = (last + 2) * STEP
    return stretch, height, lambda place: STEP * (1 + (place if down else last - place)) + 1


def _tube(scale: Scale, width: int, down: bool) -> Drawing:
    """Glass walls, lines from the left wall with numbers outside, a curved surface."""
    stretch, height, row = _upright(scale, down)
    left, right = 20, 20 + width
    lines: list[Polyline] = [((left, 0), (left, height)), ((right, 0), (right, height))]
    words: list[Words] = [Words(left - 4, 1, scale.unit, "end")]
    for place, line in enumerate(stretch.lines):
        y = row(place)
        lines.append(((left, y), (left + (7, 11, 15)[line.length], y)))
        if line.number:
            words.append(Words(left - 4, y, line.number, "end"))
    level = row(float(stretch.place))
    surface = _meniscus(left + 1, right - 1, level)
    areas = (Area((box(left + 18, level + 1, right, height),), solid=False),)  # clear of the lines
    return Drawing(right + 2, height, (*lines, surface), areas, tuple(words), exact=True)


def _meniscus(left: float, right: float, level: float) -> Polyline:
    """A surface that climbs the walls by one division, flat in between."""
    rise = ((0, 4), (1, 3), (3, 2), (6, 1), (10, 0))
    climbing = [(left + x, level - y) for x, y in rise]
    return (*climbing, *((right - (x - left), y) for x, y in reversed(climbing)))


def _thermometer(scale: Scale) -> Drawing:
    """A thread of liquid in a stem, lines to its right with numbers."""
    stretch, height, row = _upright(scale, down=False)
    left, right = 14, 20
    lines: list[Polyline] = [((x, 0), (x, height)) for x in (left - 6, right + 26)]
    words = [Words(right + 24, 1, scale.unit, "end")]
    for place, line in enumerate(stretch.lines):
        y = row(place)
        lines.append(((right + 3, y), (right + 3 + (5, 8, 11)[line.length], y)))
        if line.number:
            words.append(Words(right + 24, y, line.number, "end"))
    thread = box(left, row(float(stretch.place)), right, height)
    lines += [((left, 0), (left, height)), ((right, 0), (right, height)), thread]
    return Drawing(
        right + 28, height, tuple(lines), (Area((thread,), solid=True),), tuple(words), exact=True
    )


# ------------------------------------------------------------------ lying scales


def _lying(
    scale: Scale, top: float, number: float
) -> tuple[list[Polyline], list[Words], float, float]:
    """Lines that hang from `top`, numbers at `number`; the reading's x, and the last line's."""
    stretch, left = window(scale, WIDE), 8
    lines: list[Polyline] = []
    words: list[Words] = []
    for place, line in enumerate(stretch.lines):
        x = left + STEP * place
        lines.append(((x, top), (x, top + (5, 8, 11)[line.length])))
        if line.number:
            words.append(Words(x + 1, number, line.number, "middle"))
    at = left + STEP * float(stretch.place)
    return lines, words, at, left + STEP * (len(stretch.lines) - 1)


def _ruler(scale: Scale) -> Drawing:
    """A strip lying along the upper edge; it ends at the reading."""
    lines, words, at, last = _lying(scale, top=12, number=27)
    strip, right = box(0, 0, at, 9), last + 8
    lines += [box(0, 12, right, 35), strip, ((at, 0), (at, 11))]
    words.append(Words(right - 2, 33, scale.unit, "end"))
    return Drawing(
        right + 1, 36, tuple(lines), (Area((strip,), solid=False),), tuple(words), exact=True
    )


def _syringe(scale: Scale) -> Drawing:
    """A barrel with the plunger's edge at the reading; its gas lies to the left."""
    lines, words, at, last = _lying(scale, top=8, number=3)
    right = last + 8
    plunger = box(at, 20, at + 8, 44)
    lines += [((0, 8), (right, 8)), ((0, 47), (right, 47)), ((at, 8), (at, 47))]
    lines += [((at + 8, y), (right, y)) for y in (30, 34)]
    words.append(Words(right - 2, 42, scale.unit, "end"))
    area = Area((plunger,), solid=True)
    return Drawing(right + 1, 48, tuple(lines), (area,), tuple(words), exact=True)


# ------------------------------------------------------------------ dials

_RADIUS, _ARC = 180, 11  # dots; dots a division along the arc
_DIAL = 12  # divisions of a dial that are drawn


def _meter(scale: Scale) -> Drawing:
    """Part of a dial: lines that stand on an arc, numbers above, a pointer from below."""
    stretch = window(scale, _DIAL)
    count = len(stretch.lines) - 1
    centre = 12 + _ARC * count / 2

    def on(place: float, out: float) -> Dot:
        turn = (place - count / 2) * _ARC / _RADIUS
        return centre + (_RADIUS + out) * sin(turn), 20 + _RADIUS - (_RADIUS + out) * cos(turn)

    lines: list[Polyline] = [tuple(on(i / 2, 0) for i in range(2 * count + 1))]
    words: list[Words] = []
    for place, line in enumerate(stretch.lines):
        lines.append((on(place, 0), on(place, (5, 8, 11)[line.length])))
        if line.number:
            x, y = on(place, 17)
            words.append(Words(x + 1, y, line.number, "middle"))
    at = float(stretch.place)
    lines.append((on(at, -40), on(at, 6)))
    bottom = max(on(0, 0)[1], on(count, 0)[1])
    height = max(bottom, 20 + 40) + 4
    words.append(Words(centre, height - 3, scale.unit, "middle"))
    return Drawing(2 * centre, height, tuple(lines), (), tuple(words), exact=True)


SHAPES: dict[str, Callable[[Scale], Drawing]] = {
    "cylinder": _cylinder,
    "burette": _burette,
    "thermometer": _thermometer,
    "ruler": _ruler,
    "syringe": _syringe,
    "meter": _meter,
    "display": display,
}
