"""Method marks for working that was typed: a calculation that leads to the key earns them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from drill.marking.numeric.carry_forward import worked
from drill.marking.numeric.number_reading import TypedNumber, numbers_in
from drill.model import NumberKey
from drill.quantities import Fault, Quantity, evaluate, parse

_TIMES = re.compile(r"(?<=[\d\s)])\s*[xX×·]\s*(?=[\d\s(.])")
_MOST_PIECES = 12
_TOLERANCE = Fraction(1, 200)


@dataclass(frozen=True)
class Method:
    """Marks that typed working earns, and the calculations read for them."""

    marks: int = 0
    read: tuple[str, ...] = ()

    @property
    def because(self) -> str:
        """The calculations, in quotes: what the mark was given for."""
        return "; ".join(f'"{piece}"' for piece in self.read)


def method_read(key: NumberKey, pieces: Iterable[str]) -> Method:
    """Marks for method: all when a calculation gives the answer, one for each value on the way."""
    most = key.award.get("method", 0)
    if not most:
        return Method()
    wanted = _on_the_way(key)
    reached: dict[Fraction, str] = {}
    for piece in list(pieces)[:_MOST_PIECES]:
        value = _result(piece)
        if value is None:
            continue
        if _is_near(value, key.value):
            return Method(most, (_shown(piece),))
        for one in wanted:
            if _is_near(value, one):
                reached.setdefault(one, _shown(piece))
    return Method(min(most, len(reached)), tuple(dict.fromkeys(reached.values()))[:most])


def _shown(piece: str) -> str:
    return " ".join(piece.split())[:60]


def _on_the_way(key: NumberKey) -> set[Fraction]:
    """Values worked out before the answer, those that were given left out."""
    given = {v.value for v in key.chain.givens.values() if isinstance(v, Quantity)}
    every = worked(key.chain)
    between = [every[step.name] for step in key.chain.steps if step.name in every]
    return {v.value for v in between if isinstance(v, Quantity)} - given - {Fraction(0)}


def _is_near(value: Fraction, exact: Fraction) -> bool:
    """The same but for rounding on the way."""
    return abs(value - exact) <= _TOLERANCE * abs(exact)


def _result(piece: str) -> Fraction | None:
    """What a typed calculation comes to, units left out; None when it is not one."""
    found = numbers_in(piece)
    if len(found) < 2:
        return None
    text = _sum_of(piece, found)
    if text is None:
        return None
    tree = parse(text)
    if isinstance(tree, Fault) or tree.names:
        return None
    value = evaluate(tree, {})
    return value.value if isinstance(value, Quantity) else None


def _sum_of(piece: str, found: tuple[TypedNumber, ...]) -> str | None:
    """The calculation from its first to its last number, with nothing but numbers and signs."""
    out: list[str] = []
    for index, number in enumerate(found):
        between = piece[found[index - 1].end : number.start] if index else _opening(piece, number)
        out += [_TIMES.sub("*", f" {between} ").replace("x", "*").replace("X", "*"), _exact(number)]
    out.append(_closing(piece, found[-1]))
    text = "".join(out)
    return text if re.fullmatch(r"[\d\s.+\-*/^()]*", text) else None


def _exact(number: TypedNumber) -> str:
    value = abs(number.value)
    sign = "-" if number.value < 0 else ""
    return f"{sign}({value.numerator}/{value.denominator})"


def _opening(piece: str, number: TypedNumber) -> str:
    before = piece[: number.start].rstrip()
    return "(" * (len(before) - len(before.rstrip("(")))


def _closing(piece: str, number: TypedNumber) -> str:
    after = piece[number.end :].lstrip()
    return ")" * (len(after) - len(after.lstrip(")")))
