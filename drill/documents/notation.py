"""Typed notation as a printed page sets it: digits raised or lowered, arrows, no ugly line ends.

"cm3" and "10^-3" raise, "H2O", "SO4(2-)" and "Mg^2+" lower and raise as a formula does, "->" is an
arrow. A formula and a number with its unit stay on one line. Nothing else is changed, so that a
page says what a screen says.
"""

from __future__ import annotations

import re
from typing import NamedTuple

Runs = tuple["Run", ...]

_UNIT = r"(?:cm3|dm3|mm3|m3|cm2|mm2|m2|mg|kg|g|mol|kJ|J|kV|mV|V|mA|A|°C|K|%|min|ms|s|h|mm|cm|km|m)"
_COUNT = r"(?:[1-9]\d*)?"
_ATOMS = rf"(?:[A-Z][a-z]?{_COUNT})+"
_FORMULA = (
    rf"(?<![A-Za-z0-9])\d{{0,2}}(?:[A-Z][a-z]?{_COUNT}|[(\[]{_ATOMS}[)\]]{_COUNT})+"
    rf"(?:\.[\dxn]{{0,2}}{_ATOMS})?"
    r"(?:\^\d?[+-]|\(\d?[+-]\)|\d?[+-](?![\w+-]))?(?![a-z])"
)
_TOKEN = re.compile(
    rf"(?P<quantity>(?<![\w.])(?:= )?\d[\d.]* (?:{_UNIT})(?:/(?:{_UNIT}))?(?![A-Za-z0-9]))"
    rf"|(?P<unit>(?<![A-Za-z])(?:mol/|mg/|kg/|g/|kJ/|J/)?(?:c|d|m|k)?m[23](?:/s|/min)?(?![A-Za-z0-9]))"
    r"|(?P<power>(?<=\d)\^-?\d+)"
    r"|(?P<symbol>(?<![A-Za-z])(?:[xy][12]|[RAM][fr])(?![A-Za-z0-9]))"
    r"|(?P<electron>(?<![A-Za-z0-9])\d?e-(?![\w-]))"
    rf"|(?P<formula>{_FORMULA})"
    r"|(?P<arrow><=>|->)"
)
_ARROWS = {"->": "\N{RIGHTWARDS ARROW}", "<=>": "\N{RIGHTWARDS HARPOON OVER LEFTWARDS HARPOON}"}


_RAISED = str.maketrans("23", "²³")


def in_characters(text: str) -> str:
    """The same with raised digits of units as characters, for where nothing can be set."""
    return re.sub(r"(?<![A-Za-z])([cdk]?m)([23])(?![A-Za-z0-9])", _character, text)


def _character(found: re.Match[str]) -> str:
    return found[1] + found[2].translate(_RAISED)


class Run(NamedTuple):
    """A stretch of text: `place` is "", "sup" or "sub"; `kept`: no line ends in it or around it."""

    text: str
    place: str = ""
    kept: bool = False


def runs(text: str) -> Runs:
    """The text in stretches, in order; put together they say the same."""
    found: list[Run] = []
    at = 0
    for token in _TOKEN.finditer(text):
        pieces = _set(token.lastgroup or "", token[0])
        if pieces is not None:
            found += [Run(text[at : token.start()]), *pieces]
            at = token.end()
    found.append(Run(text[at:]))
    return tuple(run for run in found if run.text)


def _set(kind: str, token: str) -> list[Run] | None:
    if kind == "arrow":
        return [Run(_ARROWS[token])]
    if kind == "power":
        return [Run(token[1:].replace("-", "\N{MINUS SIGN}"), "sup", True)]
    if kind == "symbol":
        return [Run(token[0], "", True), Run(token[1:], "sub", True)]
    if kind == "electron":
        return [Run(token[:-1], "", True), Run("\N{MINUS SIGN}", "sup", True)]
    if kind in ("unit", "quantity"):
        return _raised(token)
    return _formula(token)


def _raised(token: str) -> list[Run]:
    """A unit, or a number with one: the power of a length is raised."""
    pieces = re.split(r"(?<=m)([23])(?![0-9])", token.replace(" ", "\N{NO-BREAK SPACE}"))
    return [Run(one, "sup" if place % 2 else "", True) for place, one in enumerate(pieces) if one]


def _formula(token: str) -> list[Run] | None:
    """A formula; None for a word of capitals and for a single letter with a number, as A4."""
    if not re.search(r"\d|[+-]$|\)$", token) or re.fullmatch(r"[A-BDEGJL-MQ-RT-UX-Z]\d+", token):
        return None
    body, charge = _charged(token)
    found: list[Run] = []
    for place, piece in enumerate(re.split(r"(?<=[A-Za-z)\]])(\d+)", body.replace(".", "·"))):
        if piece:
            found.append(Run(piece, "sub" if place % 2 else "", True))
    if charge:
        found.append(Run(charge.replace("-", "\N{MINUS SIGN}"), "sup", True))
    return found


def _charged(token: str) -> tuple[str, str]:
    """The formula and its charge: in "Cu2+" the 2 is the charge's, in "NO3-" the 3 is not."""
    written = re.fullmatch(r"(.*?)(?:\^(\d?[+-])|\((\d?[+-])\))", token)
    if written:
        return written[1], written[2] or written[3]
    if token[-1] not in "+-":
        return token, ""
    one = re.fullmatch(r"([A-Z][a-z]?|.*\d)(\d)([+-])", token)
    return (one[1], one[2] + one[3]) if one else (token[:-1], token[-1])
