"""Formulae and equations: hundreds of spellings, what is right and what is not."""

from __future__ import annotations

import csv
import re
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.marking import mark
from drill.places import bank_dir
from tests.marking.making import equation, formula, marks, points_of, verdict

# accepted formula -> other ways of typing the same one
SAME = {
    "H2O": ["H2O", "H₂O", " H2O ", "H2O.", "= H2O", "H 2 O"],
    "CO2": ["CO2", "CO₂", "the formula is CO2"],
    "NaCl": ["NaCl", "Na Cl", "NaCl."],
    "MgO": ["MgO"],
    "CuSO4": ["CuSO4", "CuSO₄", "Cu(SO4)", "Cu[SO4]"],
    "CuSO4.5H2O": ["CuSO4.5H2O", "CuSO4·5H2O", "CuSO₄·5H₂O", "CuSO4 . 5H2O", "CuSO4*5H2O",
                   "CuSO4•5H2O", "Cu(SO4).5H2O", "CuSO4.5(H2O)"],
    "Mg(NO3)2": ["Mg(NO3)2", "Mg(NO₃)₂", "Mg (NO3)2", "Mg[NO3]2"],
    "Ca(OH)2": ["Ca(OH)2", "Ca(OH)₂"],
    "Cu2(OH)2CO3": ["Cu2(OH)2CO3", "Cu₂(OH)₂CO₃"],
    "(NH4)2SO4": ["(NH4)2SO4", "(NH₄)₂SO₄", "[NH4]2SO4"],
    "Al2(SO4)3": ["Al2(SO4)3", "Al₂(SO₄)₃"],
    "Na2CO3": ["Na2CO3", "Na₂CO₃"],
    "ZnSO4.7H2O": ["ZnSO4.7H2O", "ZnSO4·7H2O"],
    "Cu^2+": ["Cu^2+", "Cu2+", "Cu²⁺", "Cu^(2+)", "Cu^+2", "Cu++", "Cu 2+", "Cu^{2+}",
              "Cu(2+)", "Cu+2", "Cu²+", "Cu2 +"],
    "Al^3+": ["Al^3+", "Al3+", "Al³⁺", "Al+++", "Al 3+", "Al(3+)"],
    "SO4^2-": ["SO4^2-", "SO42-", "SO₄²⁻", "SO4 2-", "(SO4)2-", "SO4--", "[SO4]2-", "SO4^-2",
              "SO₄2-", "SO₄ 2-", "SO4(2-)", "SO4²-", "SO₄₂₋", "SO4-2", "SO4 ^2-"],
    "NO3^-": ["NO3^-", "NO3-", "NO₃⁻", "NO3^1-"],
    "Cl^-": ["Cl^-", "Cl-", "Cl⁻", "Cl 1-"],
    "H^+": ["H^+", "H+", "H⁺"],
    "OH^-": ["OH^-", "OH-", "(OH)-", "OH⁻"],
    "NH4^+": ["NH4^+", "NH4+", "NH₄⁺"],
    "CO3^2-": ["CO3^2-", "CO32-", "CO₃²⁻"],
    "[Cu(H2O)6]^2+": ["[Cu(H2O)6]^2+", "Cu(H2O)6^2+", "[Cu(H2O)6]2+", "[Cu(H₂O)₆]²⁺"],
    "CH3COOH": ["CH3COOH", "CH₃COOH"],
    "C2H5OH": ["C2H5OH", "C₂H₅OH"],
}  # fmt: skip
# accepted formula -> what is not that formula
OTHER = {
    "CO2": ["CO", "Co2", "co2", "C2O", "CO3", "CO²", "2CO", "2CO2", "C O two"],
    "NaCl": ["nacl", "NACL", "NaCl2", "NaCI", "Na", "KCl"],
    "Mg(NO3)2": ["MgNO3", "MgN2O6", "Mg2NO3", "Mg(NO3)", "Mg(NO2)2", "MgNO32"],
    "CuSO4.5H2O": ["CuSO4", "CuSO4.H2O", "CuSO4.5HO2", "CuSO4+5H2O", "CuSO9H10"],
    "Cu^2+": ["Cu", "Cu+", "Cu^2-", "Cu3+", "cu2+"],
    "SO4^2-": ["SO4", "SO4-", "SO3^2-", "SO4^2+", "S2-"],
    "H2O": ["HO", "H2O2", "h2o", "2H2O", "OH2", "H2", "H²O"],
    "Ca(OH)2": ["CaOH2", "CaOH", "CaO2H2", "Ca2OH"],
    "CH3COOH": ["C2H4O2", "CH3COO", "ch3cooh"],
}  # fmt: skip
ARROWS = ["->", "-->", "→", "=", "⇌", " -> ", "--->", "=>"]
EQUATIONS = [
    (["MgO", "2HCl"], ["MgCl2", "H2O"]),
    (["CuO", "H2SO4"], ["CuSO4", "H2O"]),
    (["CaCO3", "2HCl"], ["CaCl2", "H2O", "CO2"]),
    (["2H^+", "2e^-"], ["H2"]),
    (["Zn", "CuSO4"], ["ZnSO4", "Cu"]),
    (["2NaOH", "H2SO4"], ["Na2SO4", "2H2O"]),
]


def sides(terms: tuple[list[str], list[str]]) -> str:
    return " -> ".join(" + ".join(side) for side in terms)


def spelt_formulae() -> list[tuple[str, str, int]]:
    right = [(key, typed, 1) for key, ways in SAME.items() for typed in ways]
    wrong = [(key, typed, 0) for key, ways in OTHER.items() for typed in ways]
    return right + wrong


def spelt_equations() -> list[tuple[str, str, int]]:
    found = []
    for terms in EQUATIONS:
        for left in permutations(terms[0]):
            for right in permutations(terms[1]):
                for arrow in ARROWS:
                    text = f"{' + '.join(left)} {arrow} {' + '.join(right)}"
                    found.append((sides(terms), text, 2))
                    found.append((sides(terms), text.replace("^", ""), 2))
                    found.append((sides(terms), _pretty(text), 2))
                    if "+ e" not in text and "^" not in text:
                        found.append((sides(terms), text.replace(" ", ""), 2))
    return found


def _pretty(text: str) -> str:
    """Numbers within formulae set low, as in print."""
    low = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
    out = ""
    for character in text:
        follows = out and (out[-1].isalpha() or out[-1] in ")₀₁₂₃₄₅₆₇₈₉")
        out += character.translate(low) if character.isdigit() and follows else character
    return out


def test_at_least_99_in_100_spellings_are_marked_as_they_deserve():
    cases = spelt_formulae() + spelt_equations()
    assert len(cases) >= 500
    wrong = [
        case
        for case in cases
        if mark(equation(case[0]) if "->" in case[0] else formula(case[0]), case[1]).marks
        != case[2]
    ]
    assert len(wrong) <= 0.01 * len(cases), wrong


@pytest.mark.parametrize(
    ("typed", "slip", "says"),
    [
        ("co2", "capitals", "Capital letters matter: CO2."),
        ("Co2", "capitals", "Capital letters matter: CO2."),
        ("2CO2", "number-in-front", "The formula alone, without a number in front: CO2."),
        ("CO3", "numbers", "Right elements, numbers not: CO2."),
        ("CO²", "raised", "Numbers of atoms are written low, not raised: CO2."),
    ],
)
def test_a_wrong_formula_is_told_why(typed, slip, says):
    found = verdict(formula("CO2"), typed)
    assert (found.marks, found.slip) == (0, slip)
    assert found.says.startswith(says)


def test_groups_are_kept_together():
    found = verdict(formula("Mg(NO3)2"), "MgN2O6")
    assert found.says == "Right atoms, but groups are kept together: Mg(NO3)2."


def test_a_wrong_charge_is_named():
    assert verdict(formula("SO4^2-"), "SO4-").slip == "charge"


SALT = equation("MgO + 2HCl -> MgCl2 + H2O")
STATES = equation(
    "MgO(s) + 2HNO3(aq) -> Mg(NO3)2(aq) + H2O(l)", award={"species": 1, "balance": 1, "states": 1}
)
HALF = equation("2Cl^- -> Cl2 + 2e^-")


def test_a_multiple_is_right():
    assert marks(SALT, "2MgO + 4HCl -> 2MgCl2 + 2H2O") == 2
    assert marks(SALT, "1/2MgO + HCl -> 1/2MgCl2 + ½H2O") == 2
    assert "Simplest numbers" in verdict(SALT, "2MgO + 4HCl -> 2MgCl2 + 2H2O").says


def test_right_species_not_balanced():
    found = verdict(SALT, "MgO + HCl -> MgCl2 + H2O")
    assert points_of(SALT, "MgO + HCl -> MgCl2 + H2O") == {"species": 1, "balance": 0}
    assert found.says == "Not balanced: Cl: 1 on the left, 2 on the right."


def test_a_formula_changed_to_balance_earns_nothing():
    found = verdict(SALT, "MgO + HCl -> MgCl + H2O")
    assert found.marks == 0
    assert found.says == "MgCl does not belong here; MgCl2 is missing: MgO + 2HCl -> MgCl2 + H2O."


def test_a_product_too_many_or_too_few():
    assert verdict(SALT, "MgO + 2HCl -> MgCl2 + H2").says.startswith("H2 does not belong here; H2O")
    assert verdict(SALT, "MgO + 2HCl -> MgCl2").says.startswith("H2O is missing")


def test_sides_the_wrong_way_round():
    assert verdict(SALT, "MgCl2 + H2O -> MgO + 2HCl").says == "The sides are the wrong way round."


def test_capitals_left_out_lose_the_species_and_keep_the_balance():
    found = verdict(SALT, "mgo + 2hcl -> mgcl2 + h2o")
    assert {one.id: one.marks for one in found.points} == {"species": 0, "balance": 1}
    assert found.slip == "capitals"


def test_only_the_wrong_states_are_named():
    found = verdict(STATES, "MgO(s) + 2HNO3 -> Mg(NO3)2(aq) + H2O(aq)")
    assert found.says == "State symbols: HNO3 is (aq), H2O is (l)."
    because = {one.id: one.because for one in found.points}
    assert because == {"species": "", "balance": "", "states": found.says}


def test_states_have_a_mark_of_their_own():
    right = "MgO(s) + 2HNO3(aq) -> Mg(NO3)2(aq) + H2O(l)"
    assert marks(STATES, right) == 3
    assert marks(STATES, right.replace("(aq)", " (AQ)").replace("(l)", "(L)")) == 3
    assert points_of(STATES, right.replace("(l)", "(aq)"))["states"] == 0
    assert marks(STATES, "MgO + 2HNO3 -> Mg(NO3)2 + H2O") == 2
    assert verdict(STATES, "MgO + 2HNO3 -> Mg(NO3)2 + H2O").slip == "states"


@pytest.mark.parametrize(
    "typed",
    ["2Cl- -> Cl2 + 2e-", "2Cl⁻ → Cl₂ + 2e⁻", "2Cl- - 2e- -> Cl2", "Cl- -> 1/2Cl2 + e-",
     "2Cl--->Cl2+2e-"],
)  # fmt: skip
def test_half_equations(typed):
    assert marks(HALF, typed) == 2


@pytest.mark.parametrize(
    "typed", ["Cl- + e- -> Cl", "2Cl- + 2e- -> Cl2", "2Cl- -> Cl2 + e-", "2Cl -> Cl2"]
)
def test_wrong_half_equations(typed):
    assert marks(HALF, typed) < 2


def test_what_is_no_equation_may_be_typed_again():
    assert verdict(SALT, "MgO + 2HCl").readable is False
    assert verdict(SALT, "it fizzes").readable is False


def known_equations() -> list[str]:
    """The equations of the salts in the bank, and those above."""
    rows = csv.DictReader((bank_dir() / "facts" / "salts.csv").read_text("utf-8").splitlines())
    return [*(sides(terms) for terms in EQUATIONS), *{row["equation"] for row in rows}]


@st.composite
def rewritten(draw) -> tuple[str, str]:
    """An equation, and the same with sides in another order, multiplied, and typed otherwise."""
    text = draw(st.sampled_from(sorted(known_equations())))
    times = draw(st.integers(1, 6))
    gap = draw(st.sampled_from([" ", "  "]))
    written = []
    for side in text.split(" -> "):
        terms = []
        for term in draw(st.permutations(side.split(" + "))):
            front, body = re.fullmatch(r"(\d*)(.*)", term).groups()
            count = times * int(front or 1)
            split = draw(st.booleans()) and count > 1
            for one in (1, count - 1) if split else (count,):
                number = "" if one == 1 else f"{one}{draw(st.sampled_from(['', ' ']))}"
                terms.append(number + draw(st.sampled_from([body, _pretty(body), _raised(body)])))
        written.append(f"{gap}+{gap}".join(terms))
    return text, f"{written[0]} {draw(st.sampled_from(ARROWS))} {written[1]}"


def _raised(body: str) -> str:
    """The charge behind ^ set high, as in print."""
    high = str.maketrans("0123456789+-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻")
    return re.sub(r"\^(\d?[+-])", lambda match: match[1].translate(high), body)


@settings(max_examples=150, deadline=None)
@given(rewritten())
def test_a_balanced_equation_rewritten_stays_right(pair):
    text, typed = pair
    award = {"species": 1, "balance": 1, **({"states": 1} if "(" in text else {})}
    found = verdict(equation(text, award=award), typed)
    assert found.marks == sum(award.values()), (text, typed, found.says)


@settings(max_examples=100, deadline=None)
@given(rewritten(), st.data())
def test_one_number_changed_is_not_balanced(pair, data):
    text, typed = pair
    left, arrow, right = re.split(r"(\s(?:<?[-=~]+>|→|⇌|=)\s)", typed, maxsplit=1)
    terms = re.split(r"\s+\+\s+", left)
    terms[data.draw(st.integers(0, len(terms) - 1))] += f" + {terms[0]}"
    made = equation(text)
    assert points_of(made, f"{' + '.join(terms)}{arrow}{right}")["balance"] == 0


def test_word_equations():
    words = equation(
        "magnesium oxide + hydrochloric acid -> magnesium chloride + water", award={"species": 1}
    )
    assert marks(words, "Magnesium oxide and hydrochloric acid → water + magnesium chloride") == 1
    assert marks(words, "magnesum oxide + hydrocloric acid -> magnesium chloride + water") == 1
    assert marks(words, "magnesium oxide + hydrochloric acid -> magnesium chloride + hydrogen") == 0
    assert marks(words, "magnesium oxide + hydrochloric acid -> magnesium chlorate + water") == 0
