"""What goes in comes out, whatever it is."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drill.errors import DrillError
from drill.model import Mark, PointMark
from drill.store import NewAsking, Store
from drill.store.marks import mark_columns, mark_of
from drill.store.values import moment, stamp, storable
from tests.store.making import (
    NOW,
    TEMPLATE,
    VERSION,
    asked,
    later,
    one_answer,
    only,
    rich_mark,
    sitting,
    typed,
)

TEXTS = st.text(alphabet=st.characters(exclude_categories=()))
ZONES = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
TIMES = st.datetimes(datetime(1970, 1, 2), datetime(9000, 1, 1), timezones=ZONES)  # noqa: DTZ001
POINTS = st.builds(
    PointMark,
    id=st.text("abcde-", min_size=1, max_size=5),
    marks=st.integers(0, 6),
    of=st.integers(0, 6),
    because=TEXTS.map(storable),
    unsure=st.booleans(),
)
MARKS = st.builds(
    Mark,
    marks=st.integers(0, 6),
    of=st.integers(0, 6),
    points=st.lists(POINTS, max_size=4, unique_by=lambda point: point.id).map(tuple),
    says=TEXTS.map(storable),
    slip=st.none() | st.text("abcde-"),
    readable=st.booleans(),
    value=st.none() | st.fractions(),
    carried=st.booleans(),
    self_marked=st.booleans(),
)


@settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(text=TEXTS, sure=st.none() | st.sampled_from(["guess", "fairly", "certain"]))
def test_any_text_comes_back_as_it_was_typed(store: Store, text: str, sure: str | None) -> None:
    who = store.learners()[0] if store.learners() else sitting(store)[0]
    begun = next(iter(store.open_sittings(who)), None)
    assert begun is not None
    asking = store.ask(NewAsking(begun.id, who, VERSION, TEMPLATE, 1, "s", False), NOW)
    store.answer(asking, "a", text, "answer", sure, 1.5, NOW)
    answer = one_answer(store, asking)
    assert (answer.text, answer.sure) == (storable(text), sure)
    assert store.verify() == []


@given(text=st.text())
def test_text_without_half_characters_is_kept_as_it_is(text: str) -> None:
    assert storable(text) == text


@given(text=TEXTS)
def test_what_is_kept_can_always_be_encoded_and_is_kept_once_and_for_all(text: str) -> None:
    kept = storable(text)
    kept.encode()
    assert storable(kept) == kept


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("caf\udce9", "caf[byte E9]"),
        ("\ud83d!", "[half character D83D]!"),
        ("CuSO₄·5H₂O 😀\x00", "CuSO₄·5H₂O 😀\x00"),
    ],
)
def test_half_characters_become_words(text: str, kept: str) -> None:
    assert storable(text) == kept


@given(when=TIMES)
def test_a_time_comes_back_to_the_millisecond_in_its_own_zone(when: datetime) -> None:
    back = moment(**stamp(when))
    assert timedelta(0) <= when - back < timedelta(milliseconds=1)
    assert back.utcoffset() == when.utcoffset()


def test_a_time_without_a_zone_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(ValueError, match="a stored time needs its zone, got 2027-03-01T17:00:00"):
        stamp(NOW.replace(tzinfo=None))


@settings(max_examples=100, deadline=None)
@given(mark=MARKS)
def test_any_mark_comes_back_the_same(mark: Mark) -> None:
    assert mark_of(mark_columns(mark)) == mark


def test_a_value_too_long_to_carry_forward_is_left_out() -> None:
    mark = Mark(0, 1, (), "", value=Fraction(10**5000))
    assert mark_of(mark_columns(mark)).value is None


def test_an_asking_comes_back_whole(store: Store) -> None:
    asking = asked(store, seed=2**62)
    first = store.answer(asking, "a", "66", "answer", "fairly", 12.3456, later(12))
    verdict = store.verdict(first, "engine", "3+ab12", rich_mark(), later(13))
    second = store.answer(asking, "b", "", "pass", None, 0, later(20))
    row = only(store.askings(store.learners()[0]))
    assert row == store.asking(asking)
    assert (row.id, row.template, row.version, row.seed) == (asking, TEMPLATE, VERSION, 2**62)
    assert (row.skill, row.shown, row.when, row.faulty) == ("calc.yield", False, NOW, False)
    assert [answer.id for answer in row.answers] == [first, second]
    answer = row.answers[0]
    assert (answer.seconds, answer.when, answer.mark) == (12.346, later(12), rich_mark())
    assert answer.verdict is not None
    assert (answer.verdict.id, answer.verdict.marker) == (verdict, "3+ab12")
    assert row.answers[1].verdict is None


@pytest.mark.parametrize(
    ("seconds", "kept"), [(-3, 0), (float("nan"), 0), (float("inf"), 0), (1e300, 1e9)]
)
def test_a_stopwatch_gone_wrong_never_stops_an_answer(
    store: Store, seconds: float, kept: float
) -> None:
    asking = asked(store)
    store.answer(asking, "a", "66", "answer", None, seconds, NOW)
    assert one_answer(store, asking).seconds == kept


def test_a_template_version_is_kept_once_word_for_word(store: Store) -> None:
    for _ in range(3):
        store.keep_template(VERSION, TEMPLATE, "format = 1\r\n# é", [], {})
    store.keep_template("ab", TEMPLATE, "another", [], {})
    assert store.counts()["template_version"] == 2
    assert store.template_text(VERSION) == "format = 1\r\n# é"
    with pytest.raises(KeyError, match="version cd was not kept"):
        store.template_text("cd")


def test_the_open_sitting_is_the_last_one_not_ended(store: Store) -> None:
    who, first = sitting(store)
    second = store.start_sitting(who, "autumn-salts", later(60), {})
    store.end_sitting(second, later(90), "done")
    row = next(iter(store.open_sittings(who)), None)
    assert row is not None
    assert (row.id, row.deck, row.when) == (first, "autumn-salts", NOW)
    assert row.goal == {"questions": 5, "minutes": None}
    asking = store.ask(NewAsking(first, who, VERSION, TEMPLATE, 1, "calc.yield", False), later(5))
    again = next(iter(store.open_sittings(who)), None)
    assert again is not None
    assert [one.id for one in again.askings] == [asking]
    store.end_sitting(first, later(99), "left")
    assert next(iter(store.open_sittings(who)), None) is None


def test_askings_since_a_time_and_by_time(store: Store) -> None:
    who, begun = sitting(store)
    for when in (later(100), NOW, later(50)):
        store.ask(NewAsking(begun, who, VERSION, TEMPLATE, 1, "s", False), when)
    assert [row.when for row in store.askings(who)] == [NOW, later(50), later(100)]
    assert [row.when for row in store.askings(who, since=later(50))] == [later(50), later(100)]


def test_seeds_used_by_one_learner_are_not_anothers(store: Store) -> None:
    who, begun = sitting(store)
    other = store.new_learner("Q9", NOW)
    store.keep_template("ab", TEMPLATE, "a later version", [], {})
    for version, seed in ((VERSION, 3), ("ab", 4), ("ab", 4)):
        store.ask(NewAsking(begun, who, version, TEMPLATE, seed, "s", False), NOW)
    assert store.used_seeds(who, TEMPLATE) == {3, 4}
    assert store.used_seeds(who, "salts/other") == set()
    assert store.used_seeds(other, TEMPLATE) == set()


def test_a_seed_beyond_64_bits_is_refused_in_words(store: Store) -> None:
    who, begun = sitting(store)
    with pytest.raises(DrillError, match="a seed is a whole number up to 9223372036854775807"):
        store.ask(NewAsking(begun, who, VERSION, TEMPLATE, 10**400, "s", False), NOW)


def test_what_the_planner_is_told_leaves_out_what_was_only_shown_or_left(store: Store) -> None:
    who, begun = sitting(store)
    times = {}
    for at, (kind, shown) in enumerate((("answer", False), ("hint", False), ("pass", False))):
        asking = store.ask(NewAsking(begun, who, VERSION, TEMPLATE, at, "s", shown), later(at))
        typed(store, asking, kind=kind)
        times[kind] = store.asking(asking).when
    store.ask(NewAsking(begun, who, VERSION, TEMPLATE, 9, "s", True), later(9))
    assert store.asked(who) == [
        ("s", TEMPLATE, times["answer"], 12.0),
        ("s", TEMPLATE, times["pass"], 12.0),
    ]


def test_of_many_askings_the_planner_is_told_the_latest_and_the_last_of_each_template(
    store: Store,
) -> None:
    who, begun = sitting(store)
    store.keep_template(VERSION, "salts/other", "", (), {})
    for at, template in enumerate(("salts/other", "salts/other", *[TEMPLATE] * 4)):
        typed(store, store.ask(NewAsking(begun, who, VERSION, template, at, "s", False), later(at)))
    every = store.asked(who)
    assert [template for _, template, _, _ in every] == ["salts/other"] * 2 + [TEMPLATE] * 4
    assert store.asked(who, recent=3) == [every[1], *every[-3:]]


def test_seconds_of_a_question_are_those_of_all_its_texts(store: Store) -> None:
    asking = asked(store)
    assert store.seconds_of(asking) == 0
    typed(store, asking)
    typed(store, asking, part="b")
    assert store.seconds_of(asking) == 24


def test_a_version_passed_here_is_remembered(store: Store) -> None:
    assert not store.passed(VERSION)
    store.keep_passed(VERSION, NOW)
    store.keep_passed(VERSION, NOW)
    assert store.passed(VERSION)
    assert store.counts()["passed"] == 1


def test_ids_sort_in_the_order_they_were_made(store: Store) -> None:
    asking = asked(store)
    ids = [typed(store, asking) for _ in range(50)]
    assert ids == sorted(ids)
    assert {len(id) for id in ids} == {16}


def test_a_callers_mistake_is_an_error_and_stores_nothing(store: Store) -> None:
    asking = asked(store)
    answer = typed(store, asking)
    before = store.counts()
    with pytest.raises(ValueError, match="one of answer, pass, fix, hint, paper, got 'sure'"):
        store.answer(asking, "a", "", "sure", None, 0, NOW)
    with pytest.raises(ValueError, match="learner, teacher, paper, got 'nobody'"):
        store.verdict(answer, "nobody", "1", rich_mark(), NOW)
    with pytest.raises(KeyError, match="no asking with the id 0000"):
        store.answer(b"\0" * 16, "a", "", "answer", None, 0, NOW)
    assert store.counts() == before
