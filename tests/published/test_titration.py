"""Titration questions of the bank, against published worked examples, colours and a standard.

* OpenStax Chemistry 2e, example 4.14: 35.23 cm3 of 0.250 mol/dm3 NaOH neutralise 50.00 cm3 of
  HCl, so it is 0.176 mol/dm3. Exercise of section 4.5: 1.7 cm3 of 0.0811 mol/dm3 NaOH neutralise
  20.0 cm3 of rain with H2SO4, 0.0034 mol/dm3.
* OpenStax Chemistry 2e, section 14.7: methyl orange is red in acid, yellow in base; phenolphthalein
  is colourless in acid, pink in base. Litmus red and blue: common practice.
* ISO 385:2005: the divisions of a 50 cm3 burette are 0.1 cm3.
"""

from __future__ import annotations

import csv
import re

import pytest

from drill.bank import read_template
from drill.generate import generate
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir

COLOURS = {
    "methyl orange": ("red", "yellow"),
    "phenolphthalein": ("colourless", "pink"),
    "litmus": ("red", "blue"),
}


def rows(table: str) -> list[dict[str, str]]:
    with (bank_dir() / "facts" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def acid(alkali_conc: float, alkali: float, titre: float, alkali_per_acid: int) -> float:
    return alkali_conc * alkali / alkali_per_acid / titre


def test_the_law_gives_the_worked_examples() -> None:
    assert acid(0.250, 35.23, 50.00, 1) == pytest.approx(0.176, abs=0.0005)
    assert acid(0.0811, 1.7, 20.0, 2) == pytest.approx(0.0034, abs=0.0001)


@pytest.mark.parametrize("seed", range(30))
def test_the_acid_found_follows_the_worked_examples(seed: int) -> None:
    template = read_template(bank_dir() / "titration/find-the-acid.toml", bank_dir())
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    portion, conc, titre = (float(n) for n in re.findall(r"\d+\.\d+", question.text)[:3])
    ratio = 2 if "H2SO4" in question.text else 1
    key = question.parts[1].key
    assert isinstance(key, NumberKey)
    assert float(key.value) == pytest.approx(acid(conc, portion, titre, ratio), rel=1e-6)


@pytest.mark.parametrize("row", rows("titration_indicators"), ids=lambda row: row["id"])
def test_indicators_have_their_published_colours(row: dict[str, str]) -> None:
    assert (row["in_acid"], row["in_alkali"]) == COLOURS[row["indicator"]]


def test_a_burette_is_divided_as_the_standard_says() -> None:
    (burette,) = [row for row in rows("instruments") if row["id"] == "burette_50"]
    assert (burette["division ()"], burette["high ()"]) == ("0.1", "50")
