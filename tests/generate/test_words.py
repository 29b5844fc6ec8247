"""Articles go by sound, lists read as English."""

from __future__ import annotations

import pytest

from drill.generate import article
from drill.generate.text.articles import capital, listed, renamed


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


def test_names_are_put_in_at_once_whole_and_in_the_plural():
    swap = {"basin": "dish", "dish": "basin", "evaporating basin": "bowl"}
    assert renamed("Evaporating basins, a basin and two dishs", swap) == (
        "Bowls, a dish and two basins"
    )
    assert renamed("two basins", swap) == "two dishes"
    assert renamed("basinet", swap) == "basinet"
    assert renamed("A basin", {}) == "A basin"
    assert renamed("A basin", {"": "x"}) == "A basin"
