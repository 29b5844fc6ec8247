"""The calculations among what was typed: what each comes to, and what was written as its result.

    "0.8x0.04=0.032, 0.032 mol x 79.5 = 2.54"  ->  0.032 written 0.032; 2.544 written 2.54

A calculation without brackets that were meant ("57.51 + 57.52 / 2" on a plain calculator) comes to
two values: by the rules, and from left to right.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from drill.marking.numeric.number_reading import TypedNumber, numbers_in
from drill.quantities import Fault, Quantity, evaluate, parse

_MOST_NUMBERS = 60
_MOST_IN_A_SUM = 24
_GIVES = re.compile(r"=|≈|≃|→|⇒|⟶|->|\b(?:is|gives?|giving|makes?|comes to|equals?)\b", re.I)
_BREAK = re.compile(
    r"[,;:\n?]|\.\s|\b(?:and|or|so|then|therefore|thus|hence|because|not|but)\b", re.I
)
_WORD = re.compile(r"[^\W\d_][^\W_]*'?[^\W\d_]*")
_TIMES_SIGN = re.compile(r"(?<![^\W_])x(?![^\W_])")
_OPERATORS = re.compile(r"[\s()]*(?:[-+*/^][\s()]*|\)\s*\([\s(]*|\([\s(]*)")


@dataclass(frozen=True)
class Calculation:
    """`values` it comes to, several when its brackets are missing; `result` as typed behind it.

    `shown` is its text. A number that stands alone has one value and is no `sum`.
    """

    shown: str
    values: tuple[Fraction, ...]
    sum: bool
    numbers: tuple[TypedNumber, ...]
    result: TypedNumber | None = None


def calculations(text: str) -> tuple[Calculation, ...]:
    """Every calculation and every number that stands alone, in the order typed."""
    groups = list(_groups(text))
    found: list[Calculation] = []
    for index, (group, gives) in enumerate(groups):
        after = groups[index + 1][0] if gives and index + 1 < len(groups) else None
        result = after[0] if after else None
        made = _calculation(text, group, result)
        if made is not None:
            found.append(made)
    return tuple(found)


def _groups(text: str) -> Iterator[tuple[list[TypedNumber], bool]]:
    """Numbers joined by signs of a sum, each with whether a result is written behind it."""
    numbers = numbers_in(text)[:_MOST_NUMBERS]
    group = [*numbers[:1]]
    for left, right in pairwise(numbers):
        between = text[left.end : right.start]
        if _joins(between, right):
            group.append(right)
            continue
        yield group, bool(_GIVES.search(between)) and not _ends_first(between)
        group = [right]
    if group:
        yield group, False


def _joins(between: str, right: TypedNumber) -> bool:
    """Whether what stands between two numbers makes one calculation of them."""
    if _GIVES.search(between) or _BREAK.search(between):
        return False
    signs = _WORD.sub(" ", _TIMES_SIGN.sub("*", between))
    if not signs.strip("() \t") and right.raw[:1] in "+-":  # "5 -3": the sign is the operator
        return not _WORD.search(between)
    return bool(_OPERATORS.fullmatch(signs))


def _ends_first(between: str) -> bool:
    """Whether the calculation ends before the sign: "0.8 x 0.04, mass = 3" gives nothing."""
    gives, stop = _GIVES.search(between), _BREAK.search(between)
    return bool(gives and stop and stop.start() < gives.start())


def _calculation(
    text: str, group: list[TypedNumber], result: TypedNumber | None
) -> Calculation | None:
    shown = " ".join(text[group[0].start : group[-1].end].split())[:60]
    if len(group) == 1:
        one = group[0]
        return Calculation(shown, (one.value,), False, (one,), result)
    if len(group) > _MOST_IN_A_SUM:
        return None
    signs = _signs(text, group)
    sums = [_balanced("".join(signs)), _from_left(signs)]
    values = dict.fromkeys(value for one in sums if (value := _worth(one)) is not None)
    return Calculation(shown, tuple(values), True, tuple(group), result) if values else None


def _signs(text: str, group: list[TypedNumber]) -> list[str]:
    """Numbers and what joins them, in turn, with the brackets round them."""
    before = text[: group[0].start].rstrip()
    out = ["(" * (len(before) - len(before.rstrip("("))) + _exact(group[0])]
    for left, right in pairwise(group):
        joined = _WORD.sub(" ", _TIMES_SIGN.sub("*", text[left.end : right.start]))
        if not joined.strip("() ") and right.raw[:1] in "+-":
            out += [f"{joined}{right.raw[0]}", _exact(right, absolute=True)]
        else:
            implied = "*" if not joined.strip(") \t").strip() or joined.strip()[:1] == "(" else ""
            out += [_implied(joined) if implied else joined, _exact(right)]
    after = text[group[-1].end :].lstrip()
    out[-1] += ")" * (len(after) - len(after.lstrip(")")))
    return out


def _implied(joined: str) -> str:
    """ "2(3" and ")(" mean times."""
    return re.sub(r"\(", "*(", joined, count=1)


def _exact(number: TypedNumber, absolute: bool = False) -> str:
    value = abs(number.value)
    sign = "-" if number.value < 0 and not absolute else ""
    return f"({sign}{value.numerator}/{value.denominator})"


def _balanced(sum_: str) -> str:
    """A sum whose brackets do not pair is read without those typed: numbers keep their own."""
    depth = 0
    for sign in sum_:
        depth += (sign == "(") - (sign == ")")
        if depth < 0:
            break
    if depth == 0:
        return sum_
    return re.sub(r"\((?![-\d]+/\d+\))|(?<!\d)\)|(?<=\))\)", "", sum_)


def _from_left(signs: list[str]) -> str:
    """The sum as a plain calculator works it: one sign after the other; "" with brackets in it."""
    plain = [re.sub(r"\s", "", one) for one in signs]
    if any(sign not in {"+", "-", "*", "/"} for sign in plain[1::2]):
        return ""
    out = plain[0]
    for sign, number in zip(plain[1::2], plain[2::2], strict=True):
        out = f"({out}{sign}{number})"
    return out


def _worth(sum_: str) -> Fraction | None:
    if not sum_ or not re.fullmatch(r"[\d\s.+\-*/^()]*", sum_):
        return None
    tree = parse(sum_)
    if isinstance(tree, Fault) or tree.names:
        return None
    value = evaluate(tree, {})
    return value.value if isinstance(value, Quantity) else None
