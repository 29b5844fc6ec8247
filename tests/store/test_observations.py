"""What is observed: every clause of the rule has its test."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from drill.frozen import replace
from drill.model import Mark
from drill.store import Observation, PartInfo, Store, observations
from tests.store.making import NOW, TEMPLATE, asked, later, mark

ONE = {"a": PartInfo("calc.yield", "number", 2)}
TWO = {**ONE, "b": PartInfo("calc.yield", "number", 3)}
APART = {**ONE, "b": PartInfo("plan.control", "choice", 1, 0.25)}


class Desk:
    """One asked question that is answered step by step, a second apart."""

    def __init__(self, store: Store, shown: bool = False) -> None:
        self.store, self.asking, self.at = store, asked(store, shown=shown), 0

    def types(
        self, given: Mark | None = None, part: str = "a", kind: str = "answer", by: str = "engine"
    ) -> Desk:
        """Something typed, and its verdict unless there is none."""
        self.at += 1
        self.last = self.store.answer(self.asking, part, "x", kind, None, 5.0, later(self.at))
        return self.judged(given, by) if given is not None else self

    def judged(self, given: Mark, by: str = "teacher") -> Desk:
        """A further verdict on what was typed last."""
        self.at += 1
        self.store.verdict(self.last, by, "3", given, later(self.at))
        return self

    def sees(self, parts: Mapping[str, PartInfo] = ONE) -> tuple[Observation, ...]:
        return observations(self.store.asking(self.asking), parts)

    def score(self, parts: Mapping[str, PartInfo] = ONE) -> float | None:
        (only,) = self.sees(parts)
        return only.score


@pytest.fixture
def desk(store: Store) -> Desk:
    return Desk(store)


def test_marks_over_maximum_with_all_that_memory_needs(desk: Desk) -> None:
    assert desk.types(mark(1, 2)).sees() == (
        Observation("calc.yield", TEMPLATE, NOW, 0.5, 0.0, 5.0),
    )


def test_parts_of_one_skill_make_one_observation(desk: Desk) -> None:
    desk.types(mark(2, 2)).types(mark(1, 3), "b")
    assert desk.sees(TWO) == (Observation("calc.yield", TEMPLATE, NOW, 3 / 5, 0.0, 10.0),)


def test_each_skill_has_its_own_and_the_seconds_go_with_the_scheduled_one(desk: Desk) -> None:
    desk.types(mark(1, 2)).types(mark(1, 1), "b")
    assert desk.sees(APART) == (
        Observation("calc.yield", TEMPLATE, NOW, 0.5, 0.0, 10.0),
        Observation("plan.control", TEMPLATE, NOW, 1.0, 0.25, 0.0),
    )


def test_guessing_floors_of_one_skill_are_weighted_by_marks(desk: Desk) -> None:
    parts = {"a": PartInfo("s", "choice", 1, 0.25), "b": PartInfo("s", "number", 3, 0.0)}
    (seen,) = desk.types(mark(1, 1)).types(mark(0, 3), "b").sees(parts)
    assert seen.floor == 0.25 / 4


def test_carried_forward_marks_count(desk: Desk) -> None:
    assert desk.types(mark(2, 2, carried=True)).score() == 1.0


def test_a_pass_is_no_marks(desk: Desk) -> None:
    assert desk.types(mark(2, 2), kind="pass").score() == 0.0


def test_a_pass_that_was_never_marked_is_no_marks_either(desk: Desk) -> None:
    assert desk.types(kind="pass").score() == 0.0


def test_stopping_before_an_answer_shows_nothing(desk: Desk) -> None:
    assert desk.sees() == ()


def test_stopping_after_one_part_shows_that_part_only(desk: Desk) -> None:
    assert desk.types(mark(1, 2)).score(TWO) == 0.5


def test_an_answer_nothing_has_judged_shows_nothing_yet(desk: Desk) -> None:
    assert desk.types().sees() == ()


def test_after_a_hint_no_marks_are_no_marks(desk: Desk) -> None:
    assert desk.types(kind="hint").types(mark(0, 2)).score() == 0.0


@pytest.mark.parametrize("marks", [1, 2])
def test_after_a_hint_any_marks_only_expose(desk: Desk, marks: int) -> None:
    assert desk.types(kind="hint").types(mark(marks, 2)).score() is None


def test_after_a_hint_a_pass_is_no_marks(desk: Desk) -> None:
    assert desk.types(kind="hint").types(mark(0, 2), kind="pass").score() == 0.0


def test_a_hint_on_one_part_leaves_other_skills_alone(desk: Desk) -> None:
    desk.types(kind="hint").types(mark(1, 2)).types(mark(1, 1), "b")
    assert [seen.score for seen in desk.sees(APART)] == [None, 1.0]


def test_a_hint_and_no_answer_show_nothing(desk: Desk) -> None:
    assert desk.types(kind="hint").sees() == ()


def test_unreadable_and_typed_again_the_second_counts(desk: Desk) -> None:
    desk.types(mark(0, 2, readable=False)).types(mark(2, 2))
    assert desk.score() == 1.0


def test_unreadable_twice_is_no_marks(desk: Desk) -> None:
    desk.types(mark(0, 2, readable=False)).types(mark(0, 2, readable=False))
    assert desk.score() == 0.0


def test_unreadable_and_left_shows_nothing(desk: Desk) -> None:
    assert desk.types(mark(0, 2, readable=False)).sees() == ()


def test_unreadable_then_passed_is_no_marks(desk: Desk) -> None:
    desk.types(mark(0, 2, readable=False)).types(mark(0, 2), kind="pass")
    assert desk.score() == 0.0


def test_a_readable_answer_cannot_be_typed_again(desk: Desk) -> None:
    assert desk.types(mark(0, 2)).types(mark(2, 2)).score() == 0.0


def test_a_self_marked_part_is_left_out(desk: Desk) -> None:
    levels = mark(2, 2, self_marked=True)
    assert desk.types(levels).sees() == ()
    assert desk.judged(mark(2, 2), "learner").sees() == ()


def test_a_self_marked_part_is_left_out_of_the_maximum_too(desk: Desk) -> None:
    desk.types(mark(1, 2)).types(mark(3, 3, self_marked=True), "b")
    assert desk.score(TWO) == 0.5


def test_passing_a_self_marked_part_is_left_out_as_well(desk: Desk) -> None:
    assert desk.types(mark(0, 2, self_marked=True), kind="pass").sees() == ()
    levels = {"a": PartInfo("calc.yield", "levels", 6)}
    assert desk.types(kind="pass", part="b").sees({"b": levels["a"]}) == ()


def test_points_the_learner_decided_are_left_out_of_marks_and_maximum(desk: Desk) -> None:
    desk.types(mark(1, 3, unsure="c")).judged(mark(3, 3), "learner")
    assert desk.score() == 1 / 2


@pytest.mark.parametrize("decided", [0, 1])
def test_whatever_the_learner_decides_memory_hears_the_same(desk: Desk, decided: int) -> None:
    chosen = replace(mark(decided, 1), of=1)
    desk.types(mark(1, 1, unsure="a")).judged(chosen, "learner")
    assert desk.sees() == ()


def test_points_not_sure_and_not_decided_count_as_the_engine_guessed(desk: Desk) -> None:
    assert desk.types(mark(1, 2, unsure="ab")).score() == 0.5


def test_a_teachers_settlement_replaces_the_mark(desk: Desk) -> None:
    desk.types(mark(0, 2)).judged(mark(2, 2))
    assert desk.score() == 1.0


def test_a_teachers_settlement_brings_decided_points_back(desk: Desk) -> None:
    desk.types(mark(1, 2, unsure="b")).judged(mark(2, 2), "learner").judged(mark(1, 2))
    assert desk.score() == 0.5


@pytest.mark.parametrize("charge", ["teacher", "paper"])
def test_levels_settled_by_somebody_in_charge_count(desk: Desk, charge: str) -> None:
    desk.types(mark(2, 2, self_marked=True)).judged(mark(1, 2, self_marked=True), charge)
    assert desk.score() == 0.5


def test_an_unreadable_answer_a_teacher_could_read_counts(desk: Desk) -> None:
    desk.types(mark(0, 2, readable=False)).judged(mark(1, 2))
    assert desk.score() == 0.5


def test_a_fix_typed_after_the_verdict_leaves_the_first_text_standing(desk: Desk) -> None:
    desk.types(mark(0, 2)).types(mark(2, 2), kind="fix")
    assert desk.score() == 0.0


def test_a_fix_typed_before_any_verdict_stands(desk: Desk) -> None:
    first = desk.types().last
    desk.types(mark(2, 2), kind="fix")
    desk.store.verdict(first, "engine", "3", mark(0, 2), later(99))
    assert desk.score() == 1.0


def test_a_fix_of_nothing_shows_nothing(desk: Desk) -> None:
    assert desk.types(mark(2, 2), kind="fix").sees() == ()


def test_a_worked_answer_shown_only_exposes_the_scheduled_skill(store: Store) -> None:
    (seen,) = Desk(store, shown=True).sees(APART)
    assert seen == Observation("calc.yield", TEMPLATE, NOW, None, 0.0, 0.0)


def test_a_faulty_question_shows_nothing(desk: Desk) -> None:
    desk.types(mark(2, 2))
    desk.store.faulty(desk.asking, "there is no right option", later(30))
    assert desk.sees() == ()


def test_a_part_without_marks_shows_nothing(desk: Desk) -> None:
    assert desk.types(mark(0, 0)).sees() == ()
