"""English grammar for filled texts: articles, capitals, lists, replaced words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

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
    """The text with a school's own names for things, articles, capitals and plurals put right.

    "An evaporating basin" with {"evaporating basin": "dish"} becomes "A dish". A name put in is
    not looked at again, so that two names may change places.
    """
    own = {old.casefold(): new for old, new in names.items() if old.strip()}
    if not own:
        return text
    return _finder(tuple(own)).sub(lambda match: _instead(match, own), text)


@lru_cache(maxsize=64)
def _finder(names: tuple[str, ...]) -> re.Pattern[str]:
    """Any of the names as a whole word, the longest first, with an article and a plural s."""
    listed = "|".join(re.escape(name) for name in sorted(names, key=len, reverse=True))
    return re.compile(rf"(?<!\w)(?:(an?)\s+)?({listed})(s?)(?!\w)", re.IGNORECASE)


def _instead(match: re.Match[str], names: Mapping[str, str]) -> str:
    before, old, several = match.groups()
    word = names[old.casefold()]
    if old[0].isupper():
        word = capital(word)
    if several:
        word += "es" if word.endswith(("s", "x", "ch", "sh")) else "s"
    if not before:
        return word
    said = article(word)
    return f"{capital(said) if before[0].isupper() else said} {word}"
