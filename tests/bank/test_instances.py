"""A calculation of the shipped bank is hardly ever met twice with the same numbers."""

from __future__ import annotations

import pytest

from drill.bank import Bank, Entry
from drill.checking.variety import combinations, fingerprint
from drill.generate import generate
from drill.model import Question, Template
from drill.places import bank_dir

ENOUGH = 500
SEEDS = range(120)
DISTINCT = 100  # of 120 seeds: 107 are expected of 500 equally likely questions
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

BANK = Bank.open(bank_dir())
CALCULATIONS = [entry for entry in BANK.entries() if entry.side == "calculation"]


@pytest.mark.parametrize(
    "entry", [one for one in CALCULATIONS if one.id not in FEW], ids=lambda entry: entry.id
)
def test_a_calculation_has_500_instances(entry: Entry) -> None:
    template = BANK.template(entry.id)
    assert isinstance(template, Template)
    made = [generate(template, seed) for seed in SEEDS]
    distinct = {fingerprint(one) for one in made if isinstance(one, Question)}
    assert combinations(template) >= ENOUGH
    assert len(distinct) >= DISTINCT


def test_no_reason_is_left_behind() -> None:
    assert set(FEW) <= {entry.id for entry in CALCULATIONS}


@pytest.mark.parametrize("entry", BANK.entries(), ids=lambda entry: entry.id)
def test_the_index_says_the_marks_that_are_drawn(entry: Entry) -> None:
    template = BANK.template(entry.id)
    assert isinstance(template, Template)
    for seed in range(4):
        made = generate(template, seed)
        assert not isinstance(made, Question) or sum(p.marks for p in made.parts) == entry.marks
