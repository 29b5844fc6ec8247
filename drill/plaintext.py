"""Text that somebody else wrote, made harmless for a terminal.

What a learner types and what a file holds may carry terminal escapes, control characters,
right-to-left overrides or a megabyte on one line. It is shown, never obeyed.
"""

from __future__ import annotations

import unicodedata

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


def _shown(character: str) -> str:
    if character in _KEPT or unicodedata.category(character) not in _HIDDEN:
        return character
    return "\ufffd"
