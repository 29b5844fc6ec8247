"""An author's `[graph]`: its examples are read, and what is wrong with one is said at its line."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from drill.bank.schema.graph_schema import AXIS, GRAPH, LINE, POINTS
from drill.bank.schema.part_schema import PART
from drill.bank.schema.template_schema import TEMPLATE
from drill.model import Template

Read = Callable[[str], Template]
Problems = Callable[[str], list[str]]

AXES = """\
title = "Gas made"
x = { quantity = "time", unit = "s" }
y = { quantity = "volume of gas", unit = "cm3" }
"""
DRAW = """\
[draw]
slope = { from = 0.4, to = 0.7, step = 0.1 }
off = { readings = 3, centre = 0, spread = 1, step = 0.5 }
[work]
high = { is = "slope * 30" }
low = { is = "slope * 10" }
"""
PART_TEXT = '[[part]]\nkind = "number"\nask = "How much?"\nanswer = "high - low"\n'


def with_graph(graph: str, part: str = PART_TEXT) -> str:
    return f"{DRAW}[graph]\n{AXES}{graph}\n{part}"


def example(keys: tuple[object, ...], name: str) -> str:
    return next(key.example for key in keys if key.name == name)  # type: ignore[attr-defined]


@pytest.mark.parametrize("key", GRAPH, ids=lambda key: key.name)
def test_the_examples_of_the_docs_are_read(key: object, read: Read) -> None:
    lines = [example(GRAPH, name) for name in ("title", "x", "y", "points")]
    name = key.name  # type: ignore[attr-defined]
    if name == "line":
        lines.append(example(GRAPH, name))
    assert read("[graph]\n" + "\n".join(lines) + "\n" + PART_TEXT.replace("high - low", "1"))


@pytest.mark.parametrize("key", AXIS, ids=lambda key: key.name)
def test_an_axis(key: object, read: Read) -> None:
    text = ", ".join(
        {example(AXIS, "quantity"): 1, key.example: 1}  # type: ignore[attr-defined]
    )
    y = 'y = { quantity = "volume of gas", unit = "cm3" }'
    graph = f"[graph]\n{example(GRAPH, 'title')}\nx = {{ {text} }}\n{y}\n{example(GRAPH, 'points')}"
    assert read(f"{graph}\n{PART_TEXT.replace('high - low', '1')}").graph is not None


@pytest.mark.parametrize("key", LINE, ids=lambda key: key.name)
def test_a_line(key: object, read: Read) -> None:
    name, text = key.name, key.example  # type: ignore[attr-defined]
    rest = [example(LINE, one) for one in ("y", "from", "to")]
    lines = [text] if name in ("through", "at") else list(dict.fromkeys([*rest, text]))
    template = read(with_graph("[[graph.line]]\n" + "\n".join(lines)))
    assert template.graph is not None
    assert len(template.graph.lines) == 1


def test_points_and_a_value_read_off(read: Read) -> None:
    points = ", ".join(key.example for key in POINTS)
    text = with_graph(f"points = {{ {points} }}", PART_TEXT + example(PART, "read_off"))
    template = read(text)
    assert template.parts[0].read_off == {"high": "y", "low": "y"}


def test_the_example_of_the_question(read: Read) -> None:
    assert read(example(TEMPLATE, "graph") + "\n" + PART_TEXT.replace("high - low", "1"))


@pytest.mark.parametrize(
    ("graph", "message"),
    [
        ("", "nothing is drawn"),
        ('points = { x = "[1, 2]", y = "slop * x" }', 'no draw or step is called "slop"'),
        ('points = { x = "[x, 2]", y = "x" }', 'no draw or step is called "x"'),
        ('points = { x = "[1, 2]" }', "y is missing"),
        ('[[graph.line]]\ny = "x"', "from and to stand with y"),
        ('[[graph.line]]\nat = "1"\nto = "2"', "from and to stand with y"),
        ('[[graph.line]]\ny = "x"\nat = "2"', "got y and at"),
        ("[[graph.line]]\ndashed = true", "got none"),
        ('[[graph.lines]]\ny = "x"', 'unknown key "lines"'),
    ],
)
def test_a_fault_is_said(graph: str, message: str, problems: Problems) -> None:
    assert any(message in problem for problem in problems(with_graph(graph)))


def test_an_unknown_unit_of_an_axis(problems: Problems) -> None:
    text = with_graph('points = { x = "[1, 2]", y = "x" }').replace('"cm3"', '"cubits"')
    assert any('unknown unit "cubits"' in problem for problem in problems(text))


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ('read_off = { hihg = "y" }', 'no draw or step is called "hihg"'),
        ('read_off = { high = "z" }', "high is read on x or y"),
        ('read_off = { high = "y" }\nbetween = ["1", "2"]', "both say what is accepted"),
    ],
)
def test_a_fault_of_read_off(line: str, message: str, problems: Problems) -> None:
    text = with_graph('points = { x = "[1, 2]", y = "x" }', PART_TEXT + line)
    assert any(message in problem for problem in problems(text))


def test_without_a_graph_nothing_is_read_off(problems: Problems) -> None:
    text = DRAW + PART_TEXT + 'read_off = { high = "y" }'
    assert any("no graph to read" in problem for problem in problems(text))


def test_a_draw_called_x_is_refused(problems: Problems) -> None:
    text = with_graph('points = { x = "[1, 2]", y = "x" }').replace("slope =", "x =")
    text = text.replace("slope *", "2 *")
    assert any("x is the place along the bottom" in problem for problem in problems(text))
