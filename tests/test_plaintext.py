"""What learners and files hold reaches the terminal harmless."""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from drill.plaintext import harmless, one_line


@given(st.text())
def test_nothing_unprintable_is_left(text: str) -> None:
    for character in harmless(text):
        assert character in "\n\t" or not unicodedata.category(character).startswith("C")


def test_escapes_and_overrides_are_shown_not_obeyed() -> None:
    assert harmless("\x1b[2Jgone\u202e") == "\ufffd[2Jgone\ufffd"


def test_chemistry_stays_as_it_is() -> None:
    assert harmless("CuSO₄·5H₂O, 25 cm³, 40 °C, −3 µm") == "CuSO₄·5H₂O, 25 cm³, 40 °C, −3 µm"


def test_long_text_is_cut() -> None:
    assert len(harmless("x" * 1_000_000)) < 2100
    assert one_line("a\n b\tc") == "a b c"
