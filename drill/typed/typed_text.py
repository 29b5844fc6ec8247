"""Cleans typed text before anything reads it: length limit, plain signs, no hidden characters."""

from __future__ import annotations

import unicodedata

LONGEST = 4000  # characters of an answer that are read; a full page of handwriting is about 2,000

_SPACES = dict.fromkeys(
    map(
        ord,
        "\t\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006"
        "\u2007\u2008\u2009\u200a\u202f\u205f\u3000",
    ),
    " ",
)
_SAME = {
    **_SPACES,
    **{ord(c): "'" for c in "‘’‚‛′`´ʼ"},
    **{ord(c): '"' for c in "“”„‟″"},
    **{ord(c): "-" for c in "‐‑‒–—−﹣－"},
    ord("×"): " x ",
    ord("✕"): " x ",
    ord("÷"): "/",
    ord("⁄"): "/",
    ord("∕"): "/",
    ord("μ"): "µ",
    ord("º"): "°",
    ord("℃"): "°C",
    ord("Ω"): "Ω",
    ord("\r"): "\n",
}
_SUPER = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
_SUB = str.maketrans("₀₁₂₃₄₅₆₇₈₉₊₋", "0123456789+-")
_SUPERS = frozenset("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")
_HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


def tidy(typed: str) -> str:
    """`typed` cut at `LONGEST`, hidden characters gone, dashes, quotes and spaces of one kind.

    Case, sub- and superscripts are kept: in chemistry they mean something.
    """
    cut = typed[:LONGEST]
    if not (cut.isascii() and cut.isprintable()):
        cut = cut.translate(_SAME)
        cut = "".join(c for c in cut if c == "\n" or unicodedata.category(c) not in _HIDDEN)
    return cut.strip()


def flat(text: str) -> str:
    """Subscripts as plain digits, superscripts behind a `^`: "10⁻³" -> "10^-3"."""
    if text.isascii():
        return text
    out: list[str] = []
    for index, character in enumerate(text):
        raised = character in _SUPERS
        if raised and (index == 0 or text[index - 1] not in _SUPERS):
            out.append("^")
        out.append(character.translate(_SUPER) if raised else character.translate(_SUB))
    return "".join(out)
