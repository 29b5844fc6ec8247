"""A fault of each class, planted in the program, is noticed by the judge and gone again after."""

from __future__ import annotations

import pytest

from tests.bench.planted import Fault, planted
from tests.bench.planted_faults import Healthy, outcome
from tests.bench.planted_table import FAULTS
from tests.common.shipped import template
from tests.generate.making import question, written
from tests.judge.helpers import said

SEEDS = 4
PLANTED = {
    "× gives 0.1 % more": "energy/energy-of-mixing",
    "÷ holds like +": "salts/mass-of-solid-needed",
    "a conversion is off by ten": "salts/percentage-yield",
    "dm is a twentieth of a metre": "salts/moles-of-acid",
    "rounding cuts off": "energy/energy-of-mixing",
    "figures are one too few": "energy/energy-of-mixing",
    "mean leaves out the first": "titration/mean-titre",
    "drop_anomaly drops the last": "measure/repeated-weighings",
    "concordant takes the lowest two": "titration/concordant-table",
    "max is the last": "rates/anomaly-in-a-table",
    "range is last less first": "energy/missing-mean",
    "a mass in a table of facts is one too many": "salts/atom-economy",
    "one requirement is passed over": "chromatography/rf-value",
    "> always holds": "chromatography/rf-value",
    "if takes the other": "chromatography/rf-value",
    "== of words always holds": "salts/name-the-salt",
    "right_when is turned round": "energy/which-cup",
    "a wrong route is rounded": "salts/percentage-yield",
    "a whole division off is accepted": "energy/temperature-at-mixing",
    "a range begins half a step later": "chromatography/rf-value",
    "+ is printed for −": "measure/mass-by-difference",
}
TABLE = {fault.name: fault for fault in FAULTS}


def healthy(id_: str) -> Healthy:
    one = Healthy(template(id_), SEEDS)
    assert one.seen
    return one


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_fault_is_noticed_by_the_judge(name):
    one = healthy(PLANTED[name])
    with planted(TABLE[name]):
        assert outcome(one) == "judge"
    assert outcome(one) == "unchanged"


def test_a_fault_that_changes_nothing_is_told_apart():
    with planted(Fault("none", "none", "all", lambda engine: None)):
        assert outcome(healthy("salts/percentage-yield")) == "unchanged"


def test_every_group_has_faults_of_its_own_names():
    assert len(TABLE) == len(FAULTS)
    assert len({fault.group for fault in FAULTS}) >= 10


WEIGHED = """
[draw]
n = { from = 2, to = 9, step = 1 }
[work]
mass = { is = 'n * M("CuSO4.5H2O")', unit = "g/mol" }
[[part]]
kind = "number"
ask = "{n}"
answer = "mass"
"""


def test_a_molar_mass_that_is_off_is_noticed():
    of = written(WEIGHED)
    assert said(of, question(of, 1)) == []
    with planted(TABLE["M(…) is one too many"]):
        assert "mass" in said(of, question(of, 1))[0]
