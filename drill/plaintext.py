"""Plain text: others' words made harmless for a terminal, counts, letters and near words.

What a learner types and what a file holds may carry terminal escapes, control characters,
right-to-left overrides or a megabyte on one line. It is shown, never obeyed.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import BinaryIO

_KEPT = {"\n", "\t"}
# Cc control, Cf format (bidi marks, zero width), Cs surrogates, Co private use, Cn unassigned
_HIDDEN = {"Cc", "Cf", "Cs", "Co", "Cn"}


def harmless(text: str, most: int = 2000) -> str:
    """`text` with every unprintable character shown as U+FFFD, cut at `most` characters."""
    cut = text[:most]
    if not (cut.isascii() and cut.isprintable()):
        cut = "".join(_shown(character) for character in cut)
    return cut + " …" if len(text) > most else cut


def one_line(text: str, most: int = 200) -> str:
    """The same on a single line, white space folded."""
    return " ".join(harmless(text, most).split())


def escaped(text: str, most: int = 20_000) -> str:
    """`text` made harmless, for a page: no character of it can be markup."""
    from html import escape

    return escape(harmless(text, most))


def short_lines(file: BinaryIO, most: int) -> Iterator[bytes]:
    """The lines of a file; of one longer than `most` bytes its beginning, a byte more than that."""
    while line := file.readline(most + 1):
        yield line
        while len(line) > most and not line.endswith(b"\n"):
            line = file.readline(most + 1)
            if not line:
                return


def counted(number: int, noun: str, many: str = "") -> str:
    """As "1 mark", "3 marks"; `many` is the noun for more than one where an s will not do."""
    return f"{number} {noun if number == 1 else many or noun + 's'}"


def listed(names: Sequence[str]) -> str:
    """Names in a row, with commas; with semicolons where a name holds a comma itself."""
    return ("; " if any("," in name for name in names) else ", ").join(names)


def part_letter(index: int) -> str:
    """The id of a part by its place in the file: a, b … z, then aa, ab …; nobody writes so many."""
    return chr(97 + index) if index < 26 else chr(96 + index // 26) + chr(97 + index % 26)


def nearest(wrong: str, known: Iterable[str], cutoff: float = 0.6) -> str:
    """The known word most like a wrong one, capitals aside; "" when none is near.

    Looks at the first 3000 words and the first 80 characters: the wrong word may be anything.
    """
    from difflib import get_close_matches  # only ever needed for a message

    choices = sorted(set(known))
    folded = {choice.casefold(): choice for choice in choices}
    if same := folded.get(wrong.casefold()):
        return same
    return next(iter(get_close_matches(wrong[:80], choices[:3000], 1, cutoff)), "")


def _shown(character: str) -> str:
    if character in _KEPT or unicodedata.category(character) not in _HIDDEN:
        return character
    return "\ufffd"
