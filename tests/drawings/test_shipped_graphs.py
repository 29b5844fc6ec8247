"""Every graph of the bank, read by ear: what is asked follows from its words, not said there."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from functools import cache
from itertools import pairwise

import pytest

from drill.bank import read_facts
from drill.drawings import graph_as_svg, graph_in_words, graph_rows
from drill.generate import generate
from drill.model import NumberKey, Question
from drill.places import bank_dir
from drill.quantities import FactsRow, Quantity
from tests.common.desk import drill
from tests.common.shipped import template
from tests.drawings.graphs import number
from tests.drawings.test_on_screen import shown

BANK = bank_dir()
SEEDS = range(3)
NAMES = sorted(
    path.relative_to(BANK).with_suffix("").as_posix()
    for path in BANK.glob("*/*.toml")
    if "\n[graph]\n" in path.read_text("utf-8")
)
# where a part reads a height at a known place: the line it is read on, and how to find the place
HEIGHTS = {
    "rates/odd-point": ("straight line", r"(?=.*at that concentration)()"),
    "salts/read-solubility": ("smooth curve", r"water at ([\d.]+)"),
    "measure/density-from-a-graph": ("straight line", r"(?=.*empty beaker)()"),
    "energy/temperature-at-mixing": ("dashed straight line", r"At ([\d.]+) min"),
}


@cache
def made(name: str, seed: int) -> Question:
    question = generate(template(name), seed)
    assert isinstance(question, Question)
    return question


def told(words: str, line: str) -> list[tuple[Fraction, Fraction]]:
    """The values told of a line, as an ear takes them down."""
    after = re.split(rf"A {line}[^\n]*Read on it:\n", words)[1]
    found = []
    for row in after.splitlines():
        match = re.fullmatch(r"([−\d.]+)[^:]*: ([−\d.]+).*", row)
        if match is None:
            break
        found.append((number(match[1]), number(match[2])))
    return found


def height_heard(words: str, line: str, at: Fraction) -> Fraction:
    """Straight between the two values told beside the place, or on beyond them."""
    values = told(words, line)
    beside = [pair for pair in pairwise(values) if pair[0][0] <= at <= pair[1][0]]
    nearest = (values[0], values[-1]) if line.endswith("straight line") else values[:2]
    (x1, y1), (x2, y2) = beside[0] if beside else nearest
    return y1 + (y2 - y1) * (at - x1) / (x2 - x1)


@pytest.mark.parametrize("name", HEIGHTS)
def test_a_height_that_is_asked_follows_from_the_words(name: str) -> None:
    line, place = HEIGHTS[name]
    for seed in SEEDS:
        question = made(name, seed)
        assert question.graph is not None
        words = graph_in_words(question.graph)
        part, match = next(
            (part, match) for part in question.parts if (match := re.search(place, part.ask))
        )
        key = part.key
        assert isinstance(key, NumberKey)
        assert key.low is not None
        assert key.high is not None
        asked_before = question.parts[0].model_answer.split()[0] if "that" in part.ask else "0"
        heard = height_heard(words, line, number(match[1] or asked_before))
        assert key.low <= heard <= key.high, (seed, float(heard), float(key.value))


@pytest.mark.parametrize("name", ["rates/rate-from-a-tangent", "measure/density-from-a-graph"])
def test_a_gradient_follows_from_the_words_and_is_not_in_them(name: str) -> None:
    for seed in SEEDS:
        question = made(name, seed)
        assert question.graph is not None
        words = graph_in_words(question.graph)
        values = told(words, "straight line")
        (x1, y1), (x2, y2) = values[0], values[-1]
        key = question.parts[0].key
        assert isinstance(key, NumberKey)
        assert key.low is not None
        assert key.high is not None
        assert key.low <= (y2 - y1) / (x2 - x1) <= key.high
        assert question.parts[0].model_answer not in words


def test_where_two_lines_cross_follows_from_the_words() -> None:
    for seed in SEEDS:
        question = made("titration/crossing-lines", seed)
        assert question.graph is not None
        up, down = graph_in_words(question.graph).split("A straight line")[1:]
        (x1, y1), (x2, y2) = _ends(up)
        (x3, y3), (x4, y4) = _ends(down)
        first, second = (y2 - y1) / (x2 - x1), (y4 - y3) / (x4 - x3)
        crossing = (y3 - second * x3 - y1 + first * x1) / (first - second)
        key = question.parts[0].key
        assert isinstance(key, NumberKey)
        assert key.low is not None
        assert key.high is not None
        assert key.low <= crossing <= key.high, (seed, float(crossing), float(key.value))


def _ends(words: str) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    values = told(f"A straight line{words}", "straight line")
    return values[0], values[-1]


@pytest.mark.parametrize("name", NAMES)
def test_on_a_screen_in_words_and_on_a_page(name: str) -> None:
    for seed in SEEDS:
        graph = made(name, seed).graph
        assert graph is not None
        for columns, rows in ((80, 17), (120, 33)):
            drawn = graph_rows(graph, columns, rows)
            assert drawn is not None
            assert len(drawn) <= rows
            assert max(map(len, drawn)) <= columns
        assert graph_as_svg(graph).startswith("<svg ")


@pytest.mark.parametrize("name", NAMES)
def test_what_is_asked_stands_below_the_graph_on_one_screen(name: str) -> None:
    """From the first row of the graph to the end of the first part, with a row for the answer."""
    lines = shown(name).splitlines()
    label = next(row for row, line in enumerate(lines) if " / " in line and "⡇" in "".join(lines))
    question = made(name, 3)
    asked = -(-len(question.parts[0].ask) // 80) + 1 + _options(question)
    assert len(lines) - label + asked + 1 <= 24


def _options(question: Question) -> int:
    key = question.parts[0].key
    return len(getattr(key, "options", ()))


def test_a_graph_does_not_grow_without_end() -> None:
    rows = shown("rates/initial-rate", width=400).splitlines()
    assert max(len(row) for row in rows if "⡇" in row) <= 120


@pytest.mark.parametrize("name", NAMES)
def test_a_screen_reader_and_a_script_get_the_words(name: str) -> None:
    question = made(name, 3)
    assert question.graph is not None
    told_plain = shown(name, plain=True)
    assert not any(0x2800 < ord(sign) <= 0x28FF for sign in told_plain)
    words = graph_in_words(question.graph)
    folded = " ".join(told_plain.split())
    assert all(" ".join(row.split()) in folded for row in words.splitlines())
    assert json.loads(drill("ask", name, "--seed", "3", "--json").stdout)["picture"] == words


def test_the_curves_are_those_of_the_table_of_solubilities() -> None:
    def rows(name: str) -> list[FactsRow]:
        return [row for row in read_facts(BANK / "facts" / name) if isinstance(row, FactsRow)]

    def value(row: FactsRow, name: str) -> Fraction:
        cell = row.cells[name]
        assert isinstance(cell, Quantity)
        return cell.value

    table = {row.id: row for row in rows("solubility.csv")}
    curves = rows("solubility_curves.csv")
    assert len(curves) >= 2
    for curve in curves:
        for place in "123456":
            source = table[f"{curve.id}_{value(curve, f't{place}')}"]
            assert value(curve, f"s{place}") == value(source, "per_100g_water")
            assert source.cells["hydrate"] == "none"  # its crystals hold no water
