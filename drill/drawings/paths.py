"""The `d` of a path: moves, lines, cubic curves and arcs, flattened to polylines.

Only capital (absolute) letters are read: M L H V C A Z. Arcs: the conversion from end points to
centre of W3C, SVG 1.1 (Second Edition), appendix F.6.
"""

from __future__ import annotations

import re
from math import atan2, ceil, cos, hypot, pi, radians, sin, sqrt

from drill.drawings.shapes import Dot, Polyline

LONGEST = 8000
_TOKEN = re.compile(r"\s*,?\s*(?:([A-Za-z])|([-+]?(?:\d{1,6}(?:\.\d{0,6})?|\.\d{1,6})))", re.ASCII)
_SPACE = re.compile(r"[\s,]*")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "A": 7, "Z": 0}
_PIECES = 16  # straight pieces a cubic curve is cut into


class NotADrawing(Exception):
    """The file is not a drawing in drill's format; the text says why."""


def numbers(text: str) -> list[float]:
    """The numbers of a list, separated by spaces or commas.

    Raises:
        NotADrawing: something else stands between them.
    """
    found = _tokens(text)
    if any(isinstance(token, str) for token in found):
        raise NotADrawing("a letter stands among the numbers.")
    return [token for token in found if isinstance(token, float)]


def _tokens(text: str) -> list[str | float]:
    if len(text) > LONGEST:
        raise NotADrawing(f"more than {LONGEST} characters in one element.")
    found: list[str | float] = []
    at = 0
    while at < len(text):
        match = _TOKEN.match(text, at)
        if match is None:
            end = _SPACE.match(text, at)
            if end is not None and end.end() == len(text):
                break
            raise NotADrawing(f'"{text[at : at + 20].strip()}" is no number or letter of a path.')
        found.append(match[1] or float(match[2]))
        at = match.end()
    return found


def path_lines(text: str) -> tuple[Polyline, ...]:
    """The polylines of a path.

    Raises:
        NotADrawing: a letter that is not read, too few numbers, or no M at the start.
    """
    pen = _Pen()
    letter = ""
    tokens = _tokens(text)
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if isinstance(token, str):
            letter, at = token, at + 1
            if letter not in _TAKES:
                raise NotADrawing(f'"{letter}" is not read in a path: M L H V C A Z are.')
        elif letter in ("", "Z"):
            raise NotADrawing("a number stands where a letter must.")
        count = _TAKES[letter]
        taken = tokens[at : at + count]
        given = [one for one in taken if isinstance(one, float)]
        if len(given) < count:
            raise NotADrawing(f"{letter} needs {count} numbers.")
        pen.draw(letter, given)
        letter = "L" if letter == "M" else letter
        at += count
    return pen.done()


class _Pen:
    """Where the pen is, and the polylines it has drawn."""

    def __init__(self) -> None:
        self._done: list[Polyline] = []
        self._now: list[Dot] = []

    def draw(self, letter: str, n: list[float]) -> None:
        if letter == "M":
            self._lift()
            self._now = [(n[0], n[1])]
            return
        if not self._now:
            raise NotADrawing("a path begins with M.")
        x, y = self._now[-1]
        if letter == "Z":
            self._now.append(self._now[0])
        elif letter == "L":
            self._now.append((n[0], n[1]))
        elif letter == "H":
            self._now.append((n[0], y))
        elif letter == "V":
            self._now.append((x, n[0]))
        elif letter == "C":
            self._now.extend(_cubic((x, y), n))
        else:
            self._now.extend(_arc((x, y), n))

    def _lift(self) -> None:
        if len(self._now) > 1:
            self._done.append(tuple(self._now))

    def done(self) -> tuple[Polyline, ...]:
        self._lift()
        self._now = []
        return tuple(self._done)


def _cubic(start: Dot, n: list[float]) -> list[Dot]:
    """Bernstein's form at equal steps."""
    (x0, y0), (x1, y1, x2, y2, x3, y3) = start, n
    found = []
    for i in range(1, _PIECES + 1):
        t = i / _PIECES
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        found.append((a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3))
    return found


def _arc(start: Dot, n: list[float]) -> list[Dot]:
    """An elliptical arc from where the pen is; radii too small are made as large as needed."""
    rx, ry, turn, large, sweep, x2, y2 = n
    x1, y1 = start
    rx, ry = abs(rx), abs(ry)
    if rx == 0 or ry == 0 or (x1, y1) == (x2, y2):
        return [(x2, y2)]
    c, s = cos(radians(turn)), sin(radians(turn))
    px, py = c * (x1 - x2) / 2 + s * (y1 - y2) / 2, c * (y1 - y2) / 2 - s * (x1 - x2) / 2
    grow = sqrt(max(1.0, (px / rx) ** 2 + (py / ry) ** 2))
    rx, ry = rx * grow, ry * grow
    below = (rx * py) ** 2 + (ry * px) ** 2
    root = sqrt(max(0.0, (rx * ry) ** 2 / below - 1)) if below else 0.0
    root = root if (large != 0) != (sweep != 0) else -root
    qx, qy = root * rx * py / ry, -root * ry * px / rx
    cx, cy = c * qx - s * qy + (x1 + x2) / 2, s * qx + c * qy + (y1 + y2) / 2
    first = atan2((py - qy) / ry, (px - qx) / rx)
    swept = atan2((-py - qy) / ry, (-px - qx) / rx) - first
    if sweep and swept < 0:
        swept += 2 * pi
    elif not sweep and swept > 0:
        swept -= 2 * pi
    pieces = max(4, min(64, ceil(abs(swept) * sqrt(hypot(rx, ry)))))
    found = []
    for i in range(1, pieces):
        t = first + swept * i / pieces
        u, v = rx * cos(t), ry * sin(t)
        found.append((c * u - s * v + cx, s * u + c * v + cy))
    return [*found, (x2, y2)]
