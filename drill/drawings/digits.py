"""A digital display: digits of seven strokes."""

from __future__ import annotations

from collections.abc import Iterator

from drill.drawings.shapes import Area, Drawing, Polyline, Words, box
from drill.drawings.words import shown_digits
from drill.model import Scale

# strokes of a digit: top, upper left, upper right, middle, lower left, lower right, bottom
_LIT = {
    "0": "1110111", "1": "0010010", "2": "1011101", "3": "1011011", "4": "0111010",
    "5": "1101011", "6": "1101111", "7": "1010010", "8": "1111111", "9": "1111011",
    "-": "0001000",
}  # fmt: skip
_WIDE, _TALL, _GAP = 14, 26, 8


def display(scale: Scale) -> Drawing:
    """The digits in a frame, the unit beside them."""
    strokes: list[Polyline] = []
    filled: list[Area] = []
    x = 12.0
    for sign in shown_digits(scale):
        if sign == ".":
            filled.append(Area((box(x - 4, 8 + _TALL - 2, x - 2, 8 + _TALL),), solid=True))
            x += 4
            continue
        for one, beside in _strokes(sign, x, 8):
            strokes += [one, beside]
            filled.append(Area(((*one, *reversed(beside), one[0]),), solid=True))
        x += _WIDE + _GAP
    words = (Words(x + 2, 8 + _TALL - 2, scale.unit),)
    right = x + 16
    frame = box(0, 0, right, _TALL + 17)
    return Drawing(right + 1, _TALL + 18, (frame, *strokes), tuple(filled), words, exact=True)


def _strokes(sign: str, x: float, y: float) -> Iterator[tuple[Polyline, Polyline]]:
    """Each lit segment is two dots thick, so that a digit does not look like a stray line."""
    left, right, middle, low = x, x + _WIDE, y + _TALL / 2, y + _TALL
    ends = (
        ((left + 1, y), (right - 1, y)),
        ((left, y + 1), (left, middle - 1)),
        ((right, y + 1), (right, middle - 1)),
        ((left + 1, middle), (right - 1, middle)),
        ((left, middle + 1), (left, low - 1)),
        ((right, middle + 1), (right, low - 1)),
        ((left + 1, low), (right - 1, low)),
    )
    for (start, end), on in zip(ends, _LIT[sign], strict=True):
        level = start[1] == end[1]
        if on == "1":
            yield (start, end), tuple((px + (not level), py + level) for px, py in (start, end))
