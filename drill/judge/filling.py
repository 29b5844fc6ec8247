"""Fills an author's text with its numbers, and checks that the printed text agrees.

Only numbers and units are judged, not English: a capital letter or an article may differ.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache

from drill.judge.amounts import Amount, Value
from drill.judge.cannot import Cannot
from drill.judge.working import looked_up

Env = Mapping[str, Value]
Ways = tuple[str, ...]

_PIECE = re.compile(r"\{\{|\}\}|\{[^{}]*\}|[^{}]+")


def filled(text: str, env: Env) -> str:
    """The text with its slots filled, each in the first permitted form.

    Raises:
        Cannot: a name is not known.
    """
    return "".join(ways[0] for ways in pieces_of(text, env)) if "{" in text else text


def says(printed: str, text: str, env: Env) -> bool:
    """Whether what was printed is the text with these values in it.

    Raises:
        Cannot: a name is not known.
    """
    if "{" not in text and "}" not in text:
        return printed == text
    at = [0]
    for ways in pieces_of(text, env):
        ends = [start + len(way) for start in at for way in ways if printed.startswith(way, start)]
        at = list(dict.fromkeys(ends))
    return len(printed) in at


def names_in(text: str) -> frozenset[str]:
    """The names a text prints."""
    slots = [piece for piece in _pieces(text) if not isinstance(piece, str)]
    return frozenset(slot[-1] for slot in slots)


def pieces_of(text: str, env: Env) -> list[Ways]:
    """Each piece of the text with the forms in which it may be printed."""
    return [
        (piece,) if isinstance(piece, str) else _slot(piece[:-1], piece[-1], env)
        for piece in _pieces(text)
    ]


@lru_cache(maxsize=4096)
def _pieces(text: str) -> tuple[str | Sequence[str], ...]:
    """Plain pieces, and slots as their words: the ways they are shown, last the name."""
    out: list[str | Sequence[str]] = []
    for piece in _PIECE.findall(text):
        if piece in ("{{", "}}"):
            out.append(piece[0])
        elif piece[0] == "{":
            out.append(tuple(word.strip() for word in piece[1:-1].split(":")))
        else:
            out.append(piece)
    return tuple(out)


def _slot(how: Sequence[str], name: str, env: Env) -> Ways:
    ways: Ways = (shown(looked_up(name, env), unit="bare" not in how),)
    for word in reversed(how):
        if word == "a":
            ways = tuple(f"{article} {way}" for way in ways for article in _articles(way))
        elif word == "cap":
            ways = tuple(dict.fromkeys(w for way in ways for w in (way[:1].upper() + way[1:], way)))
    return ways


def _articles(text: str) -> Ways:
    """Both, the likelier one first."""
    return ("an", "a") if text[:1].lower() in tuple("aeiou8") else ("a", "an")


def shown(value: Value, unit: bool = True) -> str:
    """A value in words or figures; numbers of a list name their unit once."""
    if isinstance(value, Amount):
        return value.shown(unit)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Mapping):
        raise Cannot("a row of facts has no text of its own")
    if isinstance(value, str):
        return value
    words = [one if isinstance(one, str) else one.shown(unit=False) for one in value]
    last = value[-1] if value else ""
    symbol = last.unit.symbol if unit and isinstance(last, Amount) else ""
    joined = " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else "".join(words)
    return f"{joined} {symbol}".strip()
