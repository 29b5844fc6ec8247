"""Rates in the bank, against a published rate, the gas law and molar masses.

* OpenStax Chemistry 2e, section 12.1: from 18.00 to 24.00 h a concentration falls from 0.125 to
  0.0625 mol/dm3, a mean rate of 0.010 mol/(dm3 h): the change is divided by the time it took.
* Gas constant 8.314 J/(mol K) (CODATA); at 20 °C and 101.325 kPa a mole of gas takes up 24.06 dm3.
* Relative masses: Prohaska and others, Standard atomic weights 2021: CaCO3 100.09, ZnCO3 125.39,
  MgCO3 84.31, Mg 24.305.
"""

from __future__ import annotations

import re

import pytest

from tests.published.shipped import question, value

MOLAR_VOLUME = 8.314 * 293.15 / 101.325
MASSES = {"powdered marble": 100.09, "zinc carbonate": 125.39, "magnesium carbonate": 84.31}


def mean_rate(before: float, after: float, start: float, end: float) -> float:
    return (before - after) / (end - start)


def test_the_law_gives_the_published_rate() -> None:
    assert mean_rate(0.125, 0.0625, 18.00, 24.00) == pytest.approx(0.010, abs=0.0005)


@pytest.mark.parametrize("seed", range(20))
def test_loss_of_mass_is_worked_as_published(seed: int) -> None:
    asked = question("rates/loss-of-mass", seed)
    readings = re.findall(r"At (\d+)\D+?([\d.]+) g", asked.text)
    (t1, m1), (t2, m2) = ((float(t), float(m)) for t, m in readings[1:3])
    assert value(asked, 1) == pytest.approx(mean_rate(m1, m2, t1, t2), rel=1e-6)


@pytest.mark.parametrize("seed", range(40))
def test_a_carbonate_gives_no_more_gas_than_it_holds(seed: int) -> None:
    text = question("rates/how-much-gas", seed).text
    found = re.search(r"([\d.]+) g of (.+?) reacts.+? ([\d.]+) cm\S* of gas", text)
    assert found
    most = float(found[1]) / MASSES[found[2]] * MOLAR_VOLUME * 1000
    assert 0.85 * most < float(found[3]) <= most


@pytest.mark.parametrize("seed", range(20))
def test_a_ribbon_gives_the_gas_of_the_gas_law(seed: int) -> None:
    asked = question("rates/ribbon-to-gas", seed)
    gas = value(asked, 0) / 24.305 * MOLAR_VOLUME * 1000
    assert value(asked, 2) == pytest.approx(gas, rel=0.02)
