"""The disappearing cross in the bank, against published rules and data.

* OpenStax Chemistry 2e, section 12.5: many reactions about double their rate for a rise of 10 °C.
* Regulation (EC) 1272/2008, Annex VI, 016-011-00-9: sulfur dioxide is toxic if inhaled.
* CRC Handbook of Chemistry and Physics: sulfur melts at 115.2 °C and boils at 444.6 °C.
* The equation, with relative masses of Prohaska and others, Standard atomic weights 2021.
"""

from __future__ import annotations

import csv
import re
from itertools import pairwise

import pytest

from drill.bank import read_template
from drill.generate import generate
from drill.model import Question, Template
from drill.places import bank_dir
from drill.quantities import Fault
from drill.subjects.chemistry.formulae import parse_formula

EQUATIONS = {
    "hydrochloric acid": ("Na2S2O3 + 2HCl", "2NaCl + S + SO2 + H2O"),
    "sulfuric acid": ("Na2S2O3 + H2SO4", "Na2SO4 + S + SO2 + H2O"),
}
NAMES = {"NaCl": "sodium chloride", "Na2SO4": "sodium sulfate", "S": "sulfur",
         "SO2": "sulfur dioxide", "H2O": "water"}  # fmt: skip


def question(id: str, seed: int) -> Question:
    template = read_template(bank_dir() / f"{id}.toml", bank_dir())
    assert isinstance(template, Template)
    drawn = generate(template, seed)
    assert isinstance(drawn, Question)
    return drawn


def atoms(side: str) -> dict[str, int]:
    total: dict[str, int] = {}
    for species in side.split(" + "):
        bare = species.lstrip("0123456789")
        parsed = parse_formula(bare)
        assert not isinstance(parsed, Fault)
        for element, count in parsed.atoms.items():
            times = int(species.removesuffix(bare) or 1)
            total[element] = total.get(element, 0) + times * int(count)
    return total


@pytest.mark.parametrize("seed", range(30))
def test_ten_degrees_about_double_the_rate(seed: int) -> None:
    text = question("cross/relative-rate", seed).text
    times = [float(n) for n in re.findall(r"°C: (\d+) s", text)]
    assert len(times) == 4
    for cooler, warmer in pairwise(times):
        assert 1.6 < cooler / warmer < 2.4


@pytest.mark.parametrize("seed", range(6))
def test_the_products_are_those_of_a_balanced_equation(seed: int) -> None:
    text = question("cross/products", seed).text
    (acid,) = [name for name in EQUATIONS if f"thiosulfate + {name}" in text]
    left, right = EQUATIONS[acid]
    assert atoms(left) == atoms(right)
    named = " + ".join(NAMES[species.lstrip("0123456789")] for species in right.split(" + "))
    assert f"→ {named}" in text


def test_each_question_with_the_mixture_warns_of_a_toxic_gas() -> None:
    for path in (bank_dir() / "cross").glob("*.toml"):
        gas = "A toxic gas forms" if path.stem == "products" else "Sulfur dioxide is toxic"
        assert gas in question(f"cross/{path.stem}", 0).safety  # products asks which gas it is


def test_no_rule_lets_the_mixture_reach_the_melting_point_of_sulfur() -> None:
    with (bank_dir() / "facts" / "cross_aims.csv").open(encoding="utf-8", newline="") as file:
        values = {row["id"]: row["values"] for row in csv.DictReader(file)}
    warmest = max(int(n) for n in re.findall(r"\d+", values["temp"]))
    assert warmest <= 55 < 115.2
