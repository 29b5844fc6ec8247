"""Words and figures of a tutor's report, and how they are cut to so many columns."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.planning.figures import Share

WIDTH = 80
"""Columns of a screen."""
_LEAST = 16
"""Columns in which a name can still be known again."""


def share(found: Share) -> str:
    """As "61 % (52 to 70)"."""
    return f"{percent(found.share)} ({100 * found.low:.0f} to {100 * found.high:.0f})"


def percent(value: float | None) -> str:
    """As "61 %"; "–" for what there is no figure for."""
    return "–" if value is None else f"{100 * value:.0f} %"


def on_lines(names: Sequence[tuple[str, str]], lines: int, width: int, first: str = "") -> str:
    """`first`, then as `some_of` on at most so many lines, as they wrap between words."""
    from textwrap import wrap

    rooms = range(lines * width - len(first), 0, -1)
    told = (first + some_of(names, room) for room in rooms)
    return next(
        (text for text in told if len(wrap(text, width, break_on_hyphens=False)) <= lines), first
    )


def some_of(names: Sequence[tuple[str, str]], width: int) -> str:
    """Names, each with what is told of it, and semicolons between, in so many columns.

    Names are cut before any is left out; then it says how many more there are.
    """
    for number in range(len(names), 0, -1):
        more = f" and {len(names) - number} more" if number < len(names) else ""
        told = [(one_line(name), one_line(tail)) for name, tail in names[:number]]
        line = _line(told, 2000)
        if len(line + more) > width:
            room = width - len(more) - len(_line([("", tail) for _, tail in told], 0))
            line = _line(told, max(_LEAST, _most(told, room - sum(1 for one in told if all(one)))))
        if len(line + more) <= width or number == 1:
            return fit(line, width - len(more)) + more
    return ""


def _line(told: Sequence[tuple[str, str]], most: int) -> str:
    return "; ".join(f"{fit(name, most)} {tail}".strip() for name, tail in told)


def _most(told: Sequence[tuple[str, str]], room: int) -> int:
    """The longest that a name may be for all of them to have room."""
    fits = (most for most in range(room, 0, -1) if sum(min(len(n), most) for n, _ in told) <= room)
    return next(fits, 0)


def day(iso: str) -> str:
    """As "3 Feb"."""
    found = date.fromisoformat(iso)
    return f"{found.day} {found:%b}"


def days(isos: Iterable[str]) -> str:
    """As "1 Feb, 3 Feb"; of more than three how many, and the last."""
    every = sorted(set(isos))
    if len(every) > 3:
        return f"{len(every)} days to {day(every[-1])}"
    return ", ".join(map(day, every))


def fit(text: str, width: int = WIDTH) -> str:
    """The text on one line of so many columns, cut at a word where it is longer."""
    line = one_line(text, 2000)
    width -= 2 * text.startswith("  ")
    if len(line) > width:
        cut = line[: width - 2].rpartition(" ")[0] or line[: width - 2]
        line = cut.rstrip(" ,;:") + " …"
    return "  " * text.startswith("  ") + line
