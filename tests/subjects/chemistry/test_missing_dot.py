"""Only the dot of a hydrate is missing: the formula is right."""

from __future__ import annotations

import pytest

from drill.marking import mark
from tests.marking.making import formula


@pytest.mark.parametrize("typed", ["Na2SO4 10H2O", "Na2SO4  10H2O", "Na2SO4.10H2O", "Na2SO4·10H2O"])
def test_a_hydrate_without_its_dot(typed):
    assert mark(formula("Na2SO4.10H2O"), typed).marks == 1
    assert mark(formula("Na2SO4.7H2O"), typed).marks == 0
