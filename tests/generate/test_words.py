"""Articles go by sound, lists read as English."""

from __future__ import annotations

import pytest

from drill.generate import article
from drill.generate.words import capital, listed


@pytest.mark.parametrize(
    ("word", "expected"),
    [
        ("acid", "an"), ("beaker", "a"), ("indicator", "an"), ("oxide", "an"), ("unit", "a"),
        ("universal indicator", "a"), ("uncertainty", "an"), ("unknown salt", "an"),
        ("uninsulated cup", "an"), ("hour", "an"), ("hydrate", "a"), ("useful result", "a"),
        ("upright tube", "an"), ("8 g", "an"), ("80 cm3", "an"), ("11.5 g", "an"), ("18 cm3", "an"),
        ("180 s", "a"), ("110 g", "a"), ("1.8 g", "a"), ("25 cm3", "a"), ("one-to-one ratio", "a"),
        ("European", "a"), ("", "a"),
    ],
)  # fmt: skip
def test_articles(word, expected):
    assert article(word) == expected


def test_lists_and_capitals():
    assert listed([]) == ""
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert capital("pH rises") == "pH rises"
    assert capital("acid rises") == "Acid rises"
    assert capital("") == ""
