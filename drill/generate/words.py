"""Small matters of English: articles, capitals, lists, words put in place of others."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

_SOUNDS_LIKE_A_CONSONANT = re.compile(r"(?:uni(?!n)|us[aeu]|eu|one\b|once\b|u\b|U-|ura|uti)", re.I)
_SOUNDS_LIKE_A_VOWEL = re.compile(r"(?:hour|honest|heir|8|11(?:\D|$)|18(?:\D|$))", re.I)


def article(text: str) -> str:
    """ "a" or "an", by the sound the text begins with: an 8.0 g mass, a unit, an hour."""
    if _SOUNDS_LIKE_A_VOWEL.match(text):
        return "an"
    if _SOUNDS_LIKE_A_CONSONANT.match(text):
        return "a"
    return "an" if text[:1].lower() in tuple("aeiou") else "a"


def capital(text: str) -> str:
    """First letter upper, the rest as it stands; "pH" is left alone."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]


def listed(items: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} and {items[-1]}"


def renamed(text: str, names: Mapping[str, str]) -> str:
    """The text with a school's own names for things, articles and capitals put right.

    "An evaporating basin" with {"evaporating basin": "dish"} becomes "A dish".
    """
    for old, new in names.items():
        found = re.compile(rf"\b(?:(an?)\s+)?({re.escape(old)})\b", re.IGNORECASE)
        text = found.sub(lambda match, new=new: _instead(match, new), text)  # type: ignore[misc]
    return text


def _instead(match: re.Match[str], new: str) -> str:
    word = capital(new) if match[2][0].isupper() else new
    if not match[1]:
        return word
    before = article(word)
    return f"{capital(before) if match[1][0].isupper() else before} {word}"
