"""A mark taken apart: what was marked and what the learner decided add up, and never mix."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from drill.model import Mark, PointMark


@st.composite
def marks(draw) -> Mark:
    worths = draw(st.lists(st.integers(1, 3), min_size=1, max_size=4))
    points = tuple(
        PointMark(str(index), draw(st.sampled_from([0, worth])), worth)
        for index, worth in enumerate(worths)
    )
    of = draw(st.integers(1, sum(worths)))
    return Mark(min(of, sum(point.marks for point in points)), of, points, "")


@given(marks(), st.sets(st.sampled_from("0123")))
def test_the_shares_of_a_mark_add_up_to_it(mark, decided):
    shares = mark.shares(decided)
    assert (shares.marks + shares.own, shares.of + shares.own_of) == (mark.marks, mark.of)
    assert 0 <= shares.marks <= shares.of
    if not decided:
        assert (shares.own, shares.own_of) == (0, 0)
    if len(decided) == 4:
        assert (shares.marks, shares.of) == (0, 0)


def test_an_extended_answer_is_the_learners_alone():
    point = PointMark("level", 4, 6)
    assert Mark(4, 6, (point,), "", self_marked=True).shares() == (0, 0, 4, 6)
    open_ = PointMark("level", 4, 6, unsure=True)
    assert Mark(4, 6, (open_,), "", self_marked=True).shares() == (0, 0, 0, 0)
