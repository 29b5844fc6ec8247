"""Four thousand cases drawn from every class; doubtful ones are left out."""

from __future__ import annotations

import random
from fractions import Fraction as F

from tests.bench.number_cases import right_cases, right_sentences, wrong_cases, wrong_units
from tests.bench.number_cases.exact import judge
from tests.bench.number_cases.keys import key_text
from tests.bench.number_cases.makers import MAKERS

SEED = 20240611
CLASSES = (right_cases, right_sentences, wrong_cases, wrong_units)  # each adds its makers


def doubtful(key, u, typed, digits, power, factor, right, decimals):
    if digits is None:
        return not right and abs(power / key - 1) < F(3, 100)
    if factor == "contra":
        return False
    v = F(digits) * F(10) ** power * factor
    if right:
        return False
    # a wrong number that a decimal comma, or a percentage read as a fraction, would make right
    for k in (3, -3):
        if (
            any(s in typed for s in (",", "\u2009"))
            and judge(digits, key, power - k, factor) != "wrong"
        ):
            return True
    if u in ("%", "") and any(judge(digits, key, power + k, factor) != "wrong" for k in (2, -2)):
        return True
    # more figures than an exact key has, and close to it: some examiners would let it pass
    return abs(v / key - 1) < F(1, 2000)


def cases() -> list[dict[str, object]]:
    """Every case, in an order of chance: key, unit, figures, decimals, typed, right and why."""
    chance = random.Random(SEED)
    seen: set[tuple[str, str, str]] = set()
    rows: list[dict[str, object]] = []
    wanted = {**_quota(True, 2400), **_quota(False, 1600)}
    for index in range(len(MAKERS)):
        made = 0
        while made < wanted[index]:
            row = _one(chance, *MAKERS[index])
            told = row and (str(row["key"]), str(row["unit"]), str(row["typed"]))
            if row is None or told in seen:
                continue
            seen.add(told)
            rows.append(row)
            made += 1
    chance.shuffle(rows)
    return rows


def _quota(right, total):
    """How many of each class that is right, or wrong: its own count, scaled to `total`."""
    group = [(index, one) for index, one in enumerate(MAKERS) if one[1] == right]
    own = sum(one[2] for _, one in group)
    quota = {index: one[2] * total // own for index, one in group}
    left = total - sum(quota.values())
    for index, _ in sorted(group, key=lambda pair: -pair[1][2])[:left]:
        quota[index] += 1
    return quota


def _one(chance, why, right, count, maker, more):
    """A case of a class; None when these numbers give none, or one that people would dispute."""
    made = maker(chance)
    if not made:
        return None
    key, unit, typed, digits, power, factor = made[:6]
    decimals = made[6] if more.get("dec") else None
    figures = None if decimals is not None else (3 if chance.random() < 0.25 else None)
    if _verdict(key, digits, power, factor) != ("right" if right else "wrong"):
        return None
    if doubtful(key, unit, typed, digits, power, factor, right, decimals):
        return None
    shown = key_text(key)
    if digits is None and chance.random() < 0.4:
        shown = f"{key.numerator}/{key.denominator}"
    return {
        "key": shown, "unit": unit, "figures": figures, "decimals": decimals, "typed": typed,
        "right": right, "why": why,
    }  # fmt: skip


def _verdict(key, digits, power, factor):
    if factor == "contra":  # the digits themselves are right: only the unit is not
        return "wrong" if judge(digits, key) == "right" else "unsure"
    if digits is None:
        return "right" if power == key else "wrong"
    return judge(digits, key, power, factor)
