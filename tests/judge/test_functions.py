"""The functions of formulas against the statistics module, and against their definitions."""

from __future__ import annotations

import statistics
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.judge.amounts import Amount
from drill.judge.cannot import Cannot
from drill.judge.functions import FUNCTIONS
from drill.judge.masses import atoms_of
from drill.judge.working import worked
from drill.quantities import FUNCTIONS as ENGINE
from drill.subjects import known, subject
from tests.judge.helpers import amounts, shown

LISTS = st.lists(st.fractions(0, 50, max_denominator=20), min_size=1, max_size=8)
DEFINED = {"mean": statistics.mean, "median": statistics.median, "sum": sum, "min": min,
           "max": max, "count": len, "range": lambda items: max(items) - min(items),
           "half_range": lambda items: (max(items) - min(items)) / 2}  # fmt: skip


@given(LISTS, st.sampled_from(list(DEFINED)))
def test_one_number_of_a_list(items, name):
    value = worked(f"{name}(x)", {"x": tuple(map(Amount, items))})
    assert isinstance(value, Amount)
    assert value.number == DEFINED[name](items)


@given(LISTS, st.fractions(0, 5, max_denominator=20))
def test_no_larger_or_closer_set_is_concordant(items, within):
    found = worked("concordant(x, w)", {"x": tuple(map(Amount, items)), "w": Amount(within)})
    assert isinstance(found, tuple)
    kept = [one.number for one in found if isinstance(one, Amount)]
    assert max(kept) - min(kept) <= within
    for size in range(len(kept), len(items) + 1):
        for other in combinations(items, size):
            spread = max(other) - min(other)
            assert spread > within or (size == len(kept) and spread >= max(kept) - min(kept))


@given(LISTS.filter(lambda items: len(items) > 2))
def test_the_anomaly_is_the_furthest_from_the_median(items):
    away = sorted(abs(one - statistics.median(items)) for one in items)
    try:
        found = worked("drop_anomaly(x)", {"x": tuple(map(Amount, items))})
    except Cannot:
        assert away[-1] == away[-2]
        return
    assert isinstance(found, tuple)
    assert len(found) == len(items) - 1
    assert all(abs(one.number - statistics.median(items)) < away[-1] for one in found)  # type: ignore[union-attr]


TITRES = amounts("24.60 24.10 24.05 24.30 cm3")


@pytest.mark.parametrize(
    ("text", "comes_to"),
    [
        ("concordant(t, 0.10)", "24.1 cm3 24.05 cm3"),
        ("concordant(t, 0.0001 in dm3)", "24.1 cm3 24.05 cm3"),
        ("drop(t, 24.10)", "24.6 cm3 24.05 cm3 24.3 cm3"),
        ("first(t)", "24.6 cm3"),
        ("last(t)", "24.3 cm3"),
        ("t.2", "24.1 cm3"),
        ("mean(t in dm3)", "0.02426 dm3"),
        ("max(0, first(t))", "24.6 cm3"),
        ("gradient(0 in s, 1 in g, 2 in s, 5 in g)", "2 g/s"),
        ("percent_of(3, 4)", "75 %"),
        ("percent_change(4, 3)", "-25 %"),
        ("percent_error(3, 4)", "25 %"),
        ("floor(7 / 2) + ceil(7 / 2)", "7"),
        ("abs(-2)", "2"),
        ("sqrt(4 in m^2)", "2 m"),
        ("log10(1000)", "3"),
        ("round(2.345, 2)", "2.35"),
        ("sig(2345, 2)", "2300"),
    ],
)
def test_the_other_functions(text, comes_to):
    assert shown(text, t=TITRES) == comes_to


def test_every_function_of_the_program_is_known():
    own = {name for science in known() for name in subject(science).functions}
    assert set(FUNCTIONS) | {"if", "M"} == set(ENGINE) | own


@pytest.mark.parametrize("text", ["1 in g + 1 in kg", "(1 in g) + (1 in kg)", "(1 in g) < (1 in s)",
                                  "mean(1)", "drop(t, 1)", "round(1, 0.5)", "1 / 0", '"a" < "b"',
                                  "M(1)", "sum(t) + 1", "t + 1", "nobody"])  # fmt: skip
def test_what_has_no_value(text):
    with pytest.raises(Cannot):
        worked(text, {"t": TITRES})


@pytest.mark.parametrize(
    ("formula", "atoms"),
    [
        ("CuSO4.5H2O", {"Cu": 1, "S": 1, "O": 9, "H": 10}),
        ("Cu2(OH)2CO3", {"Cu": 2, "O": 5, "H": 2, "C": 1}),
        ("(NH4)2SO4·FeSO4·6H2O", {"N": 2, "H": 20, "S": 2, "O": 14, "Fe": 1}),
        ("K4[Fe(CN)6]", {"K": 4, "Fe": 1, "C": 6, "N": 6}),
    ],
)
def test_atoms_of_a_formula(formula, atoms):
    assert dict(atoms_of(formula)) == atoms


@pytest.mark.parametrize("formula", ["", "cu", "Cu(", "H2O)", "2H2O", "Cu..5H2O", "1.5"])
def test_what_is_no_formula(formula):
    with pytest.raises(Cannot):
        atoms_of(formula)


def test_a_molar_mass_is_the_sum_of_its_atoms():
    table = {"H": amounts("1 g/mol")[0], "O": amounts("16 g/mol")[0]}
    assert worked('M("H2O") * 2', {"M": table}) == Amount(Fraction(36), table["H"].unit)
