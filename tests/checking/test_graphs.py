"""A graph that cannot be read, or an answer without room for reading it, is a problem first."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.bank import read_template
from drill.checking.graphs import graph_can_be_read
from drill.frozen import replace
from drill.generate import generate
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir

SHIPPED = sorted(
    path for path in bank_dir().glob("*/*.toml") if "\n[graph]\n" in path.read_text("utf-8")
)
GRADIENT = bank_dir() / "rates" / "rate-from-a-tangent.toml"


def made(path: object = GRADIENT, seed: int = 1) -> tuple[Template, Question]:
    template = read_template(path, bank_dir())  # type: ignore[arg-type]
    assert isinstance(template, Template)
    question = generate(template, seed)
    assert isinstance(question, Question)
    return template, question


def says(template: Template, question: Question) -> list[str]:
    return [finding.says for finding in graph_can_be_read(template, question)]


def with_key(question: Question, **changes: object) -> Question:
    part = question.parts[0]
    assert isinstance(part.key, NumberKey)
    key = replace(part.key, **changes)  # type: ignore[arg-type]
    return replace(question, parts=(replace(part, key=key), *question.parts[1:]))


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_shipped_graphs_can_be_read(path: object) -> None:
    for seed in range(2):  # a pass holds for a thousand
        assert says(*made(path, seed)) == []


def test_there_are_shipped_graphs() -> None:
    assert len(SHIPPED) >= 10


def test_a_graph_and_a_picture() -> None:
    template, question = made()
    assert "not both" in says(template, replace(question, picture="beaker"))[0]


def test_a_graph_too_large_for_the_screen() -> None:
    template, question = made()
    graph = question.graph
    assert graph is not None
    fine = graph._replace(y=graph.y._replace(spaces=100))
    assert "does not fit a screen" in says(template, replace(question, graph=fine))[0]


def test_a_long_label() -> None:
    template, question = made()
    graph = question.graph
    assert graph is not None
    long = graph._replace(y=graph.y._replace(quantity="volume of gas " * 9))
    assert "characters long" in says(template, replace(question, graph=long))[0]


def test_a_point_outside() -> None:
    template, question = made()
    graph = question.graph
    assert graph is not None
    out = graph._replace(points=((Fraction(5), graph.y.high + 1),))
    assert "lies outside its axes" in says(template, replace(question, graph=out))[0]


def test_no_room() -> None:
    template, question = made()
    key = question.parts[0].key
    assert isinstance(key, NumberKey)
    for changes in ({"low": None}, {"low": key.value}, {"high": key.value}):
        assert "has no tolerance" in says(template, with_key(question, **changes))[0]


def test_a_slip_within_the_room() -> None:
    template, question = made()
    key = question.parts[0].key
    assert isinstance(key, NumberKey)
    slips = (replace(key.slips[0], value=key.value), *key.slips[1:])
    assert "within the tolerance" in says(template, with_key(question, slips=slips))[0]
