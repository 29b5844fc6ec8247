"""Tables of facts: cells with their units, and the source of every shipped row."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.bank import read_facts
from drill.errors import Problem
from drill.places import bank_dir
from drill.quantities import PLAIN, FactsRow, Quantity, unit_of

SHIPPED = sorted((bank_dir() / "facts").glob("*.csv"))


def test_a_row_and_its_cells(good: Path) -> None:
    rows = read_facts(good / "facts" / "salts.csv")
    unit = unit_of("g/mol")
    assert unit is not None
    assert rows[0] == FactsRow(
        "salts",
        "CuO_H2SO4",
        {
            "base": "copper(II) oxide",
            "acid": "sulfuric acid",
            "class_use": "yes",
            "crystals": "CuSO4.5H2O",
            "M_crystals": Quantity(Fraction("249.5"), unit, 1),
            "salt_per_acid": Quantity(Fraction(1), PLAIN, 0),
        },
        2,
    )


def test_an_empty_number_is_not_known(good: Path) -> None:
    rows = read_facts(good / "facts" / "salts.csv")
    assert isinstance(rows[2], FactsRow)
    assert "M_crystals" not in rows[2].cells


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_every_shipped_fact_can_be_read_and_has_a_source(path: Path) -> None:
    rows = read_facts(path)
    assert rows
    assert [str(row) for row in rows if isinstance(row, Problem)] == []


@settings(max_examples=80, deadline=None)
@given(st.text(st.sampled_from('id,source"()\n gREADx1.5é\x00'), max_size=80))
def test_no_text_stops_it(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    path = tmp_path_factory.getbasetemp() / "random.csv"
    path.write_text(text, encoding="utf-8", newline="")
    for row in read_facts(path):
        assert isinstance(row, FactsRow) or row.line >= 1
