"""A calculation of the shipped bank is hardly ever met twice with the same numbers."""

from __future__ import annotations

import pytest

from drill.bank import Entry
from drill.checking.variety import combinations, fingerprint
from drill.generate import generate
from drill.model import Question
from tests.common.shipped import shipped_bank, template

ENOUGH = 500
SEEDS = range(60)
DISTINCT = 51  # of 60 seeds: 57 are expected of 500 equally likely questions
FORMULAE = "one case for each formula or equation that schools use; the numbers are facts"
FEW = {
    "gases/equation-number": FORMULAE,
    "gases/state-equation": FORMULAE,
    "ions/charges-balance": FORMULAE,
    "ions/precipitate-equation": FORMULAE,
    "salts/atom-economy": FORMULAE,
    "salts/atom-economy-two-to-one": FORMULAE,
    "salts/balance-it": FORMULAE,
    "salts/balanced-equation": FORMULAE,
    "salts/formula-mass-of-hydrate": FORMULAE,
    "salts/formula-mass-of-reactant": FORMULAE,
    "salts/formula-mass-with-brackets": FORMULAE,
    "salts/formula-of-crystals": FORMULAE,
    "salts/formula-of-salt": FORMULAE,
    "salts/state-symbols": FORMULAE,
    "salts/water-in-crystals": FORMULAE,
}

ENTRIES = shipped_bank().entries()
CALCULATIONS = [entry for entry in ENTRIES if entry.side == "calculation"]


@pytest.mark.parametrize(
    "entry", [one for one in CALCULATIONS if one.id not in FEW], ids=lambda entry: entry.id
)
def test_a_calculation_has_500_instances(entry: Entry) -> None:
    asked = template(entry.id)
    made = [generate(asked, seed) for seed in SEEDS]
    distinct = {fingerprint(one) for one in made if isinstance(one, Question)}
    assert combinations(asked) >= ENOUGH
    assert len(distinct) >= DISTINCT


def test_no_reason_is_left_behind() -> None:
    assert set(FEW) <= {entry.id for entry in CALCULATIONS}


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.id)
def test_the_index_says_the_marks_that_are_drawn(entry: Entry) -> None:
    for seed in range(2):
        made = generate(template(entry.id), seed)
        assert not isinstance(made, Question) or sum(p.marks for p in made.parts) == entry.marks
