"""An equation as people type it: arrows, plus signs that may be charges, numbers and states."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from drill.subjects.chemistry.capitals import recased
from drill.subjects.chemistry.typed_formulae import Species, readings
from drill.typed.typed_text import flat

LONGEST = 400
_ARROW = re.compile(r"<?[-–—=~]+>|⇌|→|⟶|⇒|↔|⇔|<=>|\bgoes to\b|\bgives\b|\bmakes\b|=")
_MINUS_ELECTRONS = re.compile(r"\s-\s*(\d?)\s*e(?:\^?-|⁻)?(?![a-zA-Z])")
_MOST_OPEN = 6  # plus signs that may be either
_MOST_READINGS = 200

Side = tuple[Species, ...]


@dataclass(frozen=True)
class TypedEquation:
    """Both sides, each species read one way. `recased` holds what was typed without capitals."""

    left: Side
    right: Side
    recased: tuple[tuple[str, str], ...] = ()

    @property
    def sides(self) -> tuple[Side, Side]:
        return self.left, self.right


def equations(text: str, known: tuple[str, ...] = ()) -> list[TypedEquation]:
    """Every way to read the text as an equation; [] when there is none.

    Args:
        known: formulae of the key, for what was typed without its capital letters.
    """
    line = flat(text)[:LONGEST].replace("\n", " ").strip().rstrip(".")
    found: list[TypedEquation] = []
    for parts in _halves(line):
        found += _read(parts, known)
    return found[:_MOST_READINGS]


def _halves(line: str) -> list[tuple[str, str]]:
    """The two sides; in "2Cl--->" a dash may be a charge, so a long arrow is cut in each way."""
    arrows = list(_ARROW.finditer(line))
    if len(arrows) != 1:
        return []
    start, end = arrows[0].span()
    arrow = arrows[0][0]
    longest = min(2, len(arrow) - 2) if arrow.startswith("--") else 0
    cuts = [(line[: start + kept], line[end:]) for kept in range(longest + 1)]
    return [cut for cut in cuts if cut[0].strip() and cut[1].strip()]


def _read(parts: tuple[str, str], known: tuple[str, ...]) -> list[TypedEquation]:
    (left, moved_right), (right, moved_left) = (_without_lost_electrons(part) for part in parts)
    found: list[TypedEquation] = []
    for one in _side(left + moved_left, known):
        for other in _side(right + moved_right, known):
            found.append(TypedEquation(one[0], other[0], one[1] + other[1]))
            if len(found) >= _MOST_READINGS:
                return found
    return found


def _without_lost_electrons(side: str) -> tuple[str, str]:
    """ "Zn - 2e-" is Zn, with 2e- to be written on the other side."""
    moved = "".join(f" + {match[1]}e-" for match in _MINUS_ELECTRONS.finditer(f" {side}"))
    return _MINUS_ELECTRONS.sub(" ", f" {side}"), moved


_Read = tuple[Side, tuple[tuple[str, str], ...]]


def _side(text: str, known: tuple[str, ...]) -> list[_Read]:
    """Ways to read one side; the first way of splitting it that reads at all comes first."""
    found: list[_Read] = []
    for pieces in _splits(text):
        each = [_one(piece, known) for piece in pieces]
        if not all(each):
            continue
        for chosen in product(*each):
            side = tuple(species for species, _ in chosen)
            found.append((side, tuple(pair for _, pair in chosen if pair)))
            if len(found) >= _MOST_READINGS:
                return found
    return found


def _one(piece: str, known: tuple[str, ...]) -> list[tuple[Species, tuple[str, str] | None]]:
    """Readings of one species, and what it was re-cased to when only capitals are missing."""
    read: list[tuple[Species, tuple[str, str] | None]] = [(one, None) for one in readings(piece)]
    match = re.match(
        r"\s*(\d*(?:/\d+|\.\d+)?)\s*(.*?)\s*(\((?:s|l|g|aq)\))?\s*$", piece, re.I | re.S
    )
    if match is None:
        return read
    meant = recased(match[2], known)
    if meant is not None:
        whole = f"{match[1]}{meant}{match[3] or ''}"
        read += [(one, (match[2], meant)) for one in readings(whole)]
    return read


def _splits(text: str) -> Iterator[list[str]]:
    """The side cut at its plus signs; one that touches what stands before it may be a charge."""
    places = [match.start() for match in re.finditer(r"\+", text)]
    open_ = [at for at in places if at and not text[at - 1].isspace() and text[at - 1] != "+"]
    if len(open_) > _MOST_OPEN:
        open_ = []
    for charges in product((False, True), repeat=len(open_)):
        kept = {at for at, is_charge in zip(open_, charges, strict=True) if is_charge}
        pieces, start = [], 0
        for at in places:
            if at in kept:
                continue
            pieces.append(text[start:at])
            start = at + 1
        pieces.append(text[start:])
        if all(piece.strip() for piece in pieces):
            yield pieces


def totals(side: Side) -> dict[str, Fraction]:
    """Atoms of each element on a side, and its charge under "charge"."""
    found: dict[str, Fraction] = {}
    for species in side:
        for symbol, amount in species.atoms.items():
            found[symbol] = found.get(symbol, Fraction(0)) + species.count * amount
        found["charge"] = found.get("charge", Fraction(0)) + species.count * species.charge
    return {name: amount for name, amount in found.items() if amount}


def is_balanced(equation: TypedEquation) -> bool:
    """Whether atoms and charge are the same on both sides."""
    return totals(equation.left) == totals(equation.right)
