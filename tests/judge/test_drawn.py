"""Drawn scales and graphs before the judge."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.frozen import replace
from drill.generate import PEOPLE, generate
from drill.generate.pictures import axes as engine
from drill.judge import Case, doubts
from drill.judge.axes import ACROSS, UP, numbers_for
from drill.judge.cannot import Cannot
from drill.model import Graph, Question, Scale, Template
from drill.places import bank_dir
from tests.common.shipped import shipped_bank

ENDS = st.fractions(-50, 500, max_denominator=50)


@settings(max_examples=150, deadline=None)
@given(ENDS, ENDS, st.sampled_from([(ACROSS, engine.ACROSS), (UP, engine.UP)]))
def test_axes_are_chosen_as_in_the_program(one, other, room):
    least, most = min(one, other), max(one, other)
    try:
        mine = numbers_for([most, least], room[0])
    except Cannot:
        with pytest.raises(ValueError, match="axis"):
            engine.numbers_for(least, most, room[1])
        return
    theirs = engine.numbers_for(least, most, room[1])
    assert (mine.low, mine.high, mine.step, mine.spaces) == tuple(theirs)


def shipped(id_: str, seed: int) -> tuple[Template, Question]:
    of = shipped_bank().template(id_)
    assert isinstance(of, Template)
    made = generate(of, seed)
    assert isinstance(made, Question)
    return of, made


def said(of: Template, made: Question) -> list[str]:
    return [one.says for one in doubts(Case(of.id, of.text, bank_dir(), PEOPLE), of, made)]


def graph_of(made: Question) -> Graph:
    assert made.graph is not None
    return made.graph


def up(points: object) -> tuple[tuple[Fraction, Fraction], ...]:
    return tuple((x, y + Fraction(1, 10**6)) for x, y in points)  # type: ignore[attr-defined]


CHANGES = {
    "the points of the graph": lambda graph: graph._replace(points=up(graph.points)),
    "a line of the graph": lambda graph: graph._replace(
        lines=(graph.lines[0]._replace(path=up(graph.lines[0].path)), *graph.lines[1:])
    ),
    "axis y": lambda graph: graph._replace(y=graph.y._replace(spaces=graph.y.spaces * 2)),
    "axis x": lambda graph: graph._replace(x=graph.x._replace(unit="dm3")),
    "to the second judge": lambda graph: graph._replace(title=graph.title + "."),
}


@pytest.mark.parametrize("about", CHANGES)
def test_a_graph_that_is_off_is_named(about):
    of, made = shipped("measure/density-from-a-graph", 2)
    assert said(of, made) == []
    changed = replace(made, graph=CHANGES[about](graph_of(made)))
    assert any(about in one for one in said(of, changed))


@pytest.mark.parametrize("number", ["reading", "low", "high", "division", "spaces"])
def test_a_scale_that_is_off_is_named(number):
    of, made = shipped("measure/read-cylinder", 2)
    assert said(of, made) == []
    scale = made.scale
    assert isinstance(scale, Scale)
    changed = replace(made, scale=replace(scale, **{number: getattr(scale, number) + 1}))
    assert any(number in one for one in said(of, changed))
