"""Some of what tests/bench/mutations.py tries two thousand times: spoilt questions, proved."""

from __future__ import annotations

import pytest

from drill.places import bank_dir
from tests.bench.mutations import LONGEST, run


@pytest.mark.parametrize("number", range(40))
def test_a_spoilt_question_of_the_bank_is_told_in_words_and_soon(number: int) -> None:
    done = run(number, bank_dir())
    assert done.became != "traceback", done.said
    assert done.seconds < LONGEST, done.said
