"""Which text belongs to which cell of a table: by the cells' names, else by their places.

"mean = 23.95, range 0.4", "0.4 is the range; 23.95 the mean", "23.95, 0.4", a line for each
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise, zip_longest

from drill.marking.numeric.number_reading import numbers_in, plain

_BETWEEN = re.compile(r"[\n;|]|,\s|\s(?:and|&)\s")
_GAP = re.compile(r"\s*[,;|]\s*|,?\s+(?:and|&)\s+|\s+")
# ", and the moles of" in front of the next cell's name
_BEFORE_NAME = re.compile(
    r"(?:\s*(?:[,&]|\band\b)[^\W\d_]*(?:\s+[^\W\d_]+)*|\s+(?:number of )?[^\W\d_]+\s+of)\s*$",
    re.IGNORECASE,
)
_EQUALS = r"\s*[=:]"
_SIGN = r"\s*(?:\([^)]*\)\s*)?(?:=+|:|->|→|\b(?:is|are|was|were)\b|-(?=\s))?\s*"
_ALSO = {"mean": "average", "anomaly": "anomalous", "titre": "titer", "number": "no"}
_SHORT = 3  # letters of a single word that may stand for a cell's whole name


def cells_of(names: tuple[str, ...], typed: str) -> dict[str, str]:
    """Cell -> what was typed for it; {} when neither names nor places tell."""
    pieces = [piece.strip() for piece in _BETWEEN.split(typed) if piece.strip()]
    ways = (
        _labelled(names, typed, _EQUALS),
        _named_behind(names, pieces),
        _labelled(names, typed, _SIGN),
    )
    found = max(ways, key=len)
    if found:
        bare = _unnamed(names, pieces, found)
        own = {name: _BETWEEN.split(text)[0] if bare else text for name, text in found.items()}
        return {**bare, **own}
    if len(names) == 1:
        return {names[0]: typed}
    pieces = [piece for piece in pieces if numbers_in(plain(piece))] or pieces
    if len(pieces) != len(names):
        pieces = _in_a_row(typed)
    return dict(zip(names, pieces, strict=True)) if len(pieces) == len(names) else {}


def _unnamed(names: tuple[str, ...], pieces: list[str], found: dict[str, str]) -> dict[str, str]:
    """Cells without a name by their places, where the others have one: "3.6, 6.8, mean 5.2"."""
    left = [name for name in names if name not in found]
    known = "|".join(re.escape(way) for way, _ in _spellings(names))
    held = [piece for piece in pieces if numbers_in(plain(piece))]
    bare = [piece for piece in held if not re.search(rf"\b(?:{known})\b", piece.lower())]
    led = [piece for piece in held if re.match(rf"\W*(?:{known})\b", piece.lower())]
    whole = len(bare) == len(left) and len(led) == len(found) == len(held) - len(bare)
    return dict(zip(left, bare, strict=True)) if whole else {}


def _labelled(names: tuple[str, ...], typed: str, named_by: str) -> dict[str, str]:
    """What stands behind each name, up to the next name, semicolon or line, if numbers do."""
    known = dict(_spellings(names))
    any_name = "|".join(re.escape(name) for name in sorted(known, key=len, reverse=True))
    labels = list(re.finditer(rf"(?<!\w)({any_name})(?!\w){named_by}", typed, re.IGNORECASE))
    found: dict[str, str] = {}
    for label, after in zip_longest(labels, labels[1:]):
        text = typed[label.end() : after.start() if after else len(typed)]
        text = re.split(r"[\n;]", text, maxsplit=1)[0]
        text = _BEFORE_NAME.sub("", text) if after else text
        if named_by == _SIGN and not _begins_with_number(text):
            continue
        found.setdefault(known[label[1].lower()], text.strip().rstrip(",").strip())
    return found


def _begins_with_number(text: str) -> bool:
    """Whether a value follows at once: "mean 23.95", not "mean of 23.9 and 24.0"."""
    return bool(re.match(r"\W*(?:about\s+)?[-+(.]*\d", plain(text)))


def _spellings(names: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Every way to call a cell: its name, the word it alone has, and the same in other words."""
    for name in names:
        yield from ((way, name) for way in _in_other_words(name.lower()))
    for name in names:
        others = {word for other in names if other != name for word in other.lower().split()}
        for word in name.lower().split():
            if word not in others and len(word) > _SHORT and word.isalpha():
                yield from ((way, name) for way in _in_other_words(word))


def _in_other_words(name: str) -> set[str]:
    ways = {name}
    for word, also in _ALSO.items():
        ways |= {re.sub(rf"\b{word}\b", also, way) for way in ways}
    return ways


def _named_behind(names: tuple[str, ...], pieces: list[str]) -> dict[str, str]:
    """ "23.95 is the mean, 0.4 the range": every piece names one cell, each another."""
    found: dict[str, str] = {}
    known = dict(_spellings(names))
    for piece in pieces:
        ways = [way for way in known if re.search(rf"\b{re.escape(way)}\b", piece.lower())]
        named = {known[way] for way in ways}
        for way in ways:  # the 1 of "run 1" is no value
            piece = (
                re.sub(rf"\b{re.escape(way)}\b", "", piece, flags=re.I)
                if _has_digit(way)
                else piece
            )
        if len(named) == 1 and numbers_in(plain(piece)):
            found.setdefault(named.pop(), piece)
    return found if len(found) == len(names) else {}


def _has_digit(name: str) -> bool:
    return any(letter.isdecimal() for letter in name)


def _in_a_row(typed: str) -> list[str]:
    """Numbers with nothing but a comma, "and" or room between them, each with its unit.

    "1,5" may be one number.
    """
    numbers = numbers_in(typed)
    for one, other in pairwise(numbers):
        between = typed[one.end : other.start]
        if not _GAP.fullmatch(between) or (between == "," and "." not in one.raw + other.raw):
            return []
    return [typed[number.start : number.end].strip() for number in numbers]
