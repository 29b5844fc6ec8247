"""Rf values and what follows from them, held against published definitions.

Sources, each typed in here apart from the bank's own tables:

* IUPAC, Compendium of Chemical Terminology (Gold Book), "retardation factor, RF": the distance of
  the centre of the spot divided by that of the front, both from the start line, at most 1; from
  memory.
* JCGM 100:2008 (GUM), 4.3.7: a reading rounded to a step lies within half a step of it; from
  memory.
* Department for Education, Biology, chemistry and physics: GCSE subject content (June 2015):
  chromatography parts a mobile from a stationary phase, and Rf values are worked out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from drill.bank import read_template
from drill.generate import generate
from drill.model import NumberKey, Question, TableKey, Template
from drill.places import bank_dir

SEEDS = 40


def questions(name: str) -> Iterator[tuple[Question, list[Fraction]]]:
    """Instances of a shipped question, each with the decimal numbers that it prints."""
    read = read_template(bank_dir() / f"chromatography/{name}.toml", bank_dir())
    assert isinstance(read, Template), read
    for seed in range(SEEDS):
        question = generate(read, seed)
        assert isinstance(question, Question), question
        text = "\n".join((question.text, question.parts[0].ask))
        yield question, [Fraction(one) for one in re.findall(r"\d+\.\d+", text)]


def number(question: Question, part: int) -> Fraction:
    key = question.parts[part].key
    assert isinstance(key, NumberKey)
    return key.value


def retardation_factor(start: Fraction, spot: Fraction, front: Fraction) -> Fraction:
    return (spot - start) / (front - start)


def test_an_rf_value_is_the_published_quotient_and_at_most_one() -> None:
    for question, (start, spot, front) in questions("rf-value"):
        assert number(question, 0) == retardation_factor(start, spot, front)
        assert 0 < number(question, 0) <= 1


def test_a_table_of_rf_values_keeps_to_the_same_quotient() -> None:
    for question, (run, moved_p, rf_q, moved_r, *_) in questions("rf-table"):
        key = question.parts[0].key
        assert isinstance(key, TableKey)
        cells = dict(key.cells)
        assert cells["Rf of P"].value == moved_p / run
        assert cells["distance of Q"].value == rf_q * run
        assert cells["Rf of R"].value == moved_r / run


def test_the_range_of_an_rf_value_is_that_of_readings_rounded_to_a_step() -> None:
    for question, (dye, step, half, solvent) in questions("rf-range"):
        assert half == step / 2
        corners = [
            (dye + one) / (solvent + other) for one in (-half, half) for other in (-half, half)
        ]
        assert number(question, 0) == max(corners)
        assert number(question, 1) == min(corners)


def test_a_run_as_long_as_asked_parts_the_dyes_by_as_much_as_asked() -> None:
    for question, (low, high, _, apart) in questions("run-needed"):
        assert (high - low) * number(question, 0) == apart
