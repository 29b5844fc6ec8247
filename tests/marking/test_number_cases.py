"""Thousands of typed numbers: spellings x units x figures x slips x carried forward.

What each deserves is worked out here with `Decimal`, by the rules in words: any correct rounding
to two figures or more, equal quantities in other units, values carried forward. None of it comes
from the marker.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from drill.marking import mark
from drill.model import Part
from tests.marking.making import chain, number, number_key

D = Decimal


@dataclass(frozen=True)
class Case:
    part: Part
    typed: str
    marks: int
    slip: str | None = None
    earlier: dict[str, Fraction] = field(default_factory=dict)


def fixed(value: Decimal, places: int) -> str:
    return str(value.quantize(D(1).scaleb(-places), ROUND_HALF_UP))


def figures(value: Decimal, count: int) -> str:
    return fixed(value, count - 1 - value.adjusted())


def spellings(text: str, unit: str) -> list[str]:
    """One number with its unit, as people type it."""
    return [
        text, f"{text} {unit}", f"{text}{unit}", f"  {text}   {unit} ", f"= {text} {unit}",
        f"answer: {text} {unit}", f"x = {text}{unit}", f"about {text} {unit}", f"so {text} {unit}",
        f"{text} {unit}.", f"it is {text} {unit}", f"+{text} {unit}", f"~{text}",
        f"{text} ± 0.01 {unit}", f"{text} {unit} (3 s.f.)", f"{text}e0 {unit}",
        f"{text} x 10^0 {unit}", f"The answer is {text} {unit}",
    ]  # fmt: skip


def masses() -> Iterator[tuple[Decimal, Decimal]]:
    """Basin and crystals, in g."""
    for index in range(12):
        yield D("38.17") + D("1.83") * index, D("2.57") + D("0.37") * index


def by_difference() -> Iterator[Case]:
    for basin, crystals in masses():
        total = basin + crystals
        links = chain(
            {"basin": (str(basin), "g"), "total": (str(total), "g")}, {"m": ("total - basin", "g")}
        )
        slips = [("whole", "total", 0), ("empty", "basin", 0)]
        part = number(number_key(links, "m", "g", slips=slips, decimals=2))
        yield from (Case(part, typed, 1) for typed in spellings(str(crystals), "g"))
        yield Case(part, f"{total} - {basin} = {crystals} g", 1)
        yield Case(part, f"{total}-{basin}={crystals}", 1)
        yield Case(part, f"{crystals * 1000:f} mg", 1)
        yield Case(part, f"{crystals / 1000:f} kg", 1)
        yield Case(part, f"{figures(crystals, 2)} g", 1)
        yield Case(part, f"{crystals}0 g", 1)
        yield Case(part, f"{crystals + D('0.01')} g", 0)
        yield Case(part, f"{crystals - D('0.02')}", 0)
        yield Case(part, f"{crystals} cm3", 0, "unit")
        yield Case(part, f"{crystals} or {crystals + 1}", 0)
        yield Case(part, str(crystals).replace(".", ","), 0)
        yield Case(part, f"-{crystals} g", 0, "sign")
        yield Case(part, f"{crystals * 10} g", 0, "power-of-ten")
        yield from (Case(part, typed, 0, "whole") for typed in spellings(str(total), "g")[:8])
        yield from (Case(part, typed, 0, "empty") for typed in spellings(str(basin), "g")[:4])


def percentages() -> Iterator[Case]:
    for basin, crystals in masses():
        conc, volume, molar = D("1.20"), D("30.0"), D("249.5")
        theory = conc * volume / 1000 * molar
        links = chain(
            {
                "basin": (str(basin), "g"), "total": (str(basin + crystals), "g"),
                "conc": (str(conc), "mol/dm3"), "volume": (str(volume), "cm3"),
                "molar": (str(molar), "g/mol"),
            },
            {
                "crystals": ("round(total - basin, 2)", "g"),
                "theory": ("conc * (volume in dm3) * molar", "g"),
                "percent": ("100 * crystals / theory", "%"),
            },
            {"a": "crystals"},
        )  # fmt: skip
        slips = [("inverted", "100 * theory / crystals", 0), ("difference", "theory - crystals", 1)]
        part = number(
            number_key(links, "percent", "%", award={"method": 1, "value": 1}, slips=slips)
        )
        percent = 100 * crystals / theory
        for count in (2, 3, 4, 5):
            yield from (Case(part, typed, 2) for typed in spellings(figures(percent, count), "%"))
        early = 100 * crystals / D(figures(theory, 3))
        yield Case(part, figures(early, 3), 2)
        yield Case(part, f"{crystals} / {fixed(theory, 2)} x 100 = {figures(percent, 3)} %", 2)
        yield Case(part, f"{crystals} / {fixed(theory, 3)} x 100 = 12.3", 1)
        yield Case(part, figures(percent * D("1.05"), 3), 0)
        yield Case(part, f"{figures(percent, 3)} g", 1, "unit")
        yield Case(part, figures(percent / 100, 3), 1, "no-times-100")
        yield Case(part, figures(100 * theory / crystals, 3), 0, "inverted")
        yield Case(part, figures(theory - crystals, 3), 1, "difference")
        for own in (crystals + D("0.50"), crystals * 10):
            earlier = {"a": Fraction(own)}
            right = 100 * own / theory
            for count in (2, 3, 4):
                yield Case(part, f"{figures(right, count)} %", 2, None, earlier)
            yield Case(part, figures(percent, 3), 2, None, earlier)
            yield Case(part, figures(100 * theory / own, 3), 0, "inverted", earlier)


def amounts() -> Iterator[Case]:
    for conc, volume in ((D("0.10"), D("23.95")), (D("0.050"), D("18.40")), (D("1.5"), D("35.0"))):
        links = chain(
            {"conc": (str(conc), "mol/dm3"), "volume": (str(volume), "cm3")},
            {"n": ("conc * (volume in dm3)", "mol")},
        )
        award = {"value": 1, "unit": 1}
        slips = [("divided", "conc / volume", 0)]
        part = number(number_key(links, "n", "mol", award=award, slips=slips, printed=False))
        amount = conc * volume / 1000
        for count in (2, 3, 4):
            text = figures(amount, count)
            yield from (Case(part, typed, 2) for typed in spellings(text, "mol") if "mol" in typed)
            yield Case(part, text, 1)
            yield Case(part, f"{text} moles", 2)
            yield Case(part, f"{text} g", 1)
            power = amount.adjusted()
            mantissa = figures(amount.scaleb(-power), count)
            for times in ("x", "×", "*", " x "):
                yield Case(part, f"{mantissa}{times}10^{power} mol", 2)
            yield Case(part, f"{mantissa}e{power} mol", 2)
            yield Case(part, f"{mantissa} × 10⁻{str(-power).translate(RAISED)} mol", 2)
            yield Case(part, f"{figures(amount * 1000, count)} mmol", 2)
        yield Case(part, f"{figures(amount * 1000, 3)} mol", 1, "power-of-ten")
        yield Case(part, f"{figures(conc / volume, 3)} mol", 1, "divided")


RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


def means() -> Iterator[Case]:
    for index in range(8):
        first = D("21.35") + D("0.85") * index
        second = first + D("0.10")
        links = chain(
            {"t1": (str(first), "cm3"), "t2": (str(second), "cm3"), "rough": ("30.10", "cm3")},
            {"mean": ("(t1 + t2) / 2", "cm3")},
        )
        slips = [("all-three", "(t1 + t2 + rough) / 3", 0), ("not-divided", "t1 + t2", 0)]
        award = {"value": 1, "figures": 1}
        part = number(number_key(links, "mean", "cm3", award=award, slips=slips, decimals=2))
        mean = (first + second) / 2
        yield from (Case(part, typed, 2) for typed in spellings(fixed(mean, 2), "cm3"))
        yield Case(part, f"({first} + {second}) / 2 = {fixed(mean, 2)}", 2)
        yield Case(part, f"{fixed(mean, 2)} ml", 2)
        yield Case(part, fixed(mean, 3), 1)
        yield Case(part, fixed(mean, 1), 1)
        yield Case(part, fixed((first + second + D("30.10")) / 3, 2), 0, "all-three")
        yield Case(part, fixed(first + second, 2), 0, "not-divided")
        yield Case(part, f"{fixed(mean, 2)} g", 0, "unit")


def cases() -> list[Case]:
    return [*by_difference(), *percentages(), *amounts(), *means()]


def test_at_least_995_in_1000_are_marked_as_they_deserve():
    every = cases()
    assert len(every) >= 1000
    wrong = [case for case in every if not _as_deserved(case)]
    shown = [(case.typed, mark(case.part, case.typed, case.earlier)) for case in wrong[:5]]
    assert len(wrong) <= 0.005 * len(every), shown


def test_no_slip_earns_every_mark():
    for case in cases():
        verdict = mark(case.part, case.typed, case.earlier)
        if verdict.slip is not None:
            assert verdict.marks < verdict.of, case


def _as_deserved(case: Case) -> bool:
    verdict = mark(case.part, case.typed, case.earlier)
    return verdict.marks == case.marks and (case.slip is None or verdict.slip == case.slip)
