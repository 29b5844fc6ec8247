"""A drawing as rows of text: each character cell is 2 by 4 dots of the braille alphabet.

Words are written over the dots. Braille patterns are U+2800 plus one bit per dot (The Unicode
Standard, chapter 21, "Braille Patterns").
"""

from __future__ import annotations

from itertools import pairwise

from drill.drawings.shapes import Area, Drawing, Polyline, Words

ACROSS, DOWN = 2, 4  # dots in a cell
_BITS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))


def cells(drawing: Drawing, columns: int, rows: int) -> tuple[str, ...]:
    """The drawing in at most `columns` by `rows` cells, without blanks at the ends of rows.

    An exact drawing keeps its size and loses what does not fit.
    """
    scale = 1.0 if drawing.exact else _scale(drawing, columns, rows)
    wide = min(columns, _whole(drawing.width * scale, ACROSS))
    high = min(rows, _whole(drawing.height * scale, DOWN))
    canvas = Canvas(wide, high)
    for area in drawing.areas:
        canvas.fill(area, scale)
    for line in drawing.lines:
        canvas.line(line, scale)
    for words in drawing.words:
        canvas.write(words, scale)
    return canvas.rows()


def _scale(drawing: Drawing, columns: int, rows: int) -> float:
    """The largest scale factor at which the outermost dots still lie inside."""
    across = (columns * ACROSS - 1) / max(drawing.width, 1)
    down = (rows * DOWN - 1) / max(drawing.height, 1)
    return min(across, down)


def _whole(length: float, dots: int) -> int:
    return max(1, int(length) // dots + 1)


class Canvas:
    """Dots and letters of a window of `columns` by `rows` cells."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.high = columns, rows
        self.dots = [bytearray(columns) for _ in range(rows)]
        self.letters: dict[tuple[int, int], str] = {}

    def dot(self, x: int, y: int) -> None:
        """Set one dot; outside the window it is lost."""
        if 0 <= x < self.columns * ACROSS and 0 <= y < self.high * DOWN:
            self.dots[y // DOWN][x // ACROSS] |= _BITS[y % DOWN][x % ACROSS]

    def line(self, path: Polyline, scale: float) -> None:
        """A polyline, one dot wide."""
        ends = [(round(x * scale), round(y * scale)) for x, y in path]
        for (x1, y1), (x2, y2) in pairwise(ends):
            steps = max(abs(x2 - x1), abs(y2 - y1), 1)
            if steps > 20_000:
                continue  # no screen is so large
            for i in range(steps + 1):
                self.dot(round(x1 + (x2 - x1) * i / steps), round(y1 + (y2 - y1) * i / steps))

    def fill(self, area: Area, scale: float) -> None:
        """An area by the even-odd rule, row of dots by row of dots."""
        for y in range(self.high * DOWN):
            ends = crossings(area, y, scale)
            for left, right in zip(ends[::2], ends[1::2], strict=False):
                last = min(self.columns * ACROSS - 1, int(right))
                for x in range(max(0, int(left + 0.999)), last + 1):
                    if area.solid or (y % 4 == 1 and (x + y) % 6 < 2):
                        self.dot(x, y)

    def write(self, words: Words, scale: float) -> None:
        """Letters over the dots, a cell each."""
        row = round(words.y * scale) // DOWN
        before = {"middle": len(words.text) / 2, "end": len(words.text)}.get(words.anchor, 0)
        column = round(words.x * scale / ACROSS - before)
        for place, letter in enumerate(words.text, column):
            if 0 <= place < self.columns and 0 <= row < self.high:
                self.letters[row, place] = letter

    def rows(self) -> tuple[str, ...]:
        """The window as text, from its first row with something on it to its last."""
        made = [
            "".join(self._sign(row, column) for column in range(self.columns)).rstrip()
            for row in range(self.high)
        ]
        used = [place for place, row in enumerate(made) if row]
        return tuple(made[used[0] : used[-1] + 1]) if used else ()

    def _sign(self, row: int, column: int) -> str:
        letter = self.letters.get((row, column))
        if letter is not None:
            return letter
        dots = self.dots[row][column]
        return chr(0x2800 + dots) if dots else " "


def crossings(area: Area, y: float, scale: float) -> list[float]:
    """Where the outlines cross row `y` of dots, from left to right, in dots."""
    height = (y + 0.001) / scale
    found = []
    for path in area.outline:
        for (x1, y1), (x2, y2) in pairwise(path):
            if (y1 <= height) != (y2 <= height):
                found.append((x1 + (x2 - x1) * (height - y1) / (y2 - y1)) * scale)
    return sorted(found)
