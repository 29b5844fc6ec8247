"""The wrong routes a teacher would look for are in the shipped bank, each named once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

import pytest

from drill.bank.reference.reference_files import read_slips
from drill.model import PartSpec, Template
from drill.places import bank_dir
from tests.common.shipped import templates

SHARED, _ = read_slips(bank_dir() / "slips.toml")


def numbers(template: Template) -> Iterator[PartSpec]:
    for part in template.parts:
        yield from (part, *part.cells.values())


def uses() -> dict[str, set[str]]:
    """Slip -> the templates that know it."""
    found: dict[str, set[str]] = defaultdict(set)
    for template in templates():
        for part in numbers(template):
            for slip in part.slips:
                found[slip.id].add(template.id)
    return found


USES = uses()


def test_every_shared_slip_is_used() -> None:
    assert sorted(set(SHARED) - set(USES)) == []


@pytest.mark.parametrize(
    ("slip", "least"),
    [
        ("cm3-not-changed", 5),
        ("inverted", 15),
        ("ratio-inverted", 3),
        ("container-not-subtracted", 4),
        ("rough-titre-included", 2),
        ("anhydrous-for-hydrate", 5),
        ("total-volume", 1),
        ("no-times-100", 10),
        ("anomaly-included", 3),
        ("parallax", 3),
        ("top-of-curve", 4),
        ("whole-divisions", 3),
        ("wrong-way", 1),
    ],
)
def test_a_common_slip_is_known_to_so_many_questions(slip: str, least: int) -> None:
    assert len(USES[slip]) >= least


def test_tables_ask_for_a_mean_an_anomaly_and_concordant_titres() -> None:
    cells = {name for one in templates() for part in one.parts for name in part.cells}
    assert {"mean", "range", "anomaly", "titres used", "mean titre"} <= cells


def test_every_number_of_the_bank_knows_a_wrong_route() -> None:
    """Where a value is worked out, some wrong way to it is likely, and the student is told."""
    without = [
        f"{template.id}: {part.ask[:40]}"
        for template in templates()
        for part in numbers(template)
        if part.kind == "number" and not part.slips and part.answer is not None
    ]
    assert without == []
