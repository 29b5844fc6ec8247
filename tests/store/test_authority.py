"""Which of several verdicts counts: teacher and paper, then learner, then engine."""

from __future__ import annotations

import pytest

from drill.frozen import replace
from drill.model import Mark
from drill.store import InForce, Store
from drill.store.values import milliseconds
from tests.store.making import asked, later, mark, one_answer, typed


def in_force(store: Store, *verdicts: tuple[str, Mark]) -> InForce | None:
    """The verdict in force after these, a second apart."""
    asking = asked(store)
    answer = typed(store, asking)
    for place, (by, given) in enumerate(verdicts):
        store.verdict(answer, by, "3+ab", given, later(20 + place))
    return one_answer(store, asking).verdict


def outcome(store: Store, *verdicts: tuple[str, Mark]) -> tuple[str, int]:
    verdict = in_force(store, *verdicts)
    assert verdict is not None
    return verdict.by, verdict.mark.marks


def test_nothing_is_in_force_before_a_verdict(store: Store) -> None:
    assert in_force(store) is None


def test_of_two_engines_the_later_counts(store: Store) -> None:
    assert outcome(store, ("engine", mark(0)), ("engine", mark(1))) == ("engine", 1)


@pytest.mark.parametrize("charge", ["teacher", "paper"])
def test_who_is_in_charge_stands_above_everybody_whatever_the_order(
    store: Store, charge: str
) -> None:
    given = ((charge, mark(2, 2)), ("learner", mark(1, 2)), ("engine", mark(0, 2, unsure="a")))
    assert outcome(store, *given) == (charge, 2)


def test_of_teacher_and_paper_the_later_counts(store: Store) -> None:
    assert outcome(store, ("teacher", mark(1, 2)), ("paper", mark(2, 2))) == ("paper", 2)


def test_the_learner_decides_a_point_the_engine_was_not_sure_of(store: Store) -> None:
    engine, learner = mark(2, 3, unsure="c"), mark(3, 3)
    verdict = in_force(store, ("engine", engine), ("learner", learner))
    assert verdict is not None
    assert (verdict.by, verdict.mark.marks, verdict.decided) == ("learner", 3, ("c",))
    assert verdict.mark.unsure == ()
    assert verdict.first == milliseconds(later(20))


def test_the_learner_cannot_give_a_point_the_engine_was_sure_of(store: Store) -> None:
    engine, learner = mark(0, 2), mark(2, 2)
    assert outcome(store, ("engine", engine), ("learner", learner)) == ("engine", 0)


def test_of_several_points_only_the_unsure_ones_follow_the_learner(store: Store) -> None:
    engine, learner = mark(0, 3, unsure="b"), mark(3, 3)
    verdict = in_force(store, ("engine", engine), ("learner", learner))
    assert verdict is not None
    assert [point.marks for point in verdict.mark.points] == [0, 1, 0]
    assert verdict.decided == ("b",)


def test_a_point_the_learner_left_open_stays_as_the_engine_guessed(store: Store) -> None:
    engine, learner = mark(1, 2, unsure="ab"), mark(0, 2, unsure="b")
    verdict = in_force(store, ("engine", engine), ("learner", learner))
    assert verdict is not None
    assert (verdict.mark.marks, verdict.decided, verdict.mark.unsure) == (0, ("a",), ("b",))


def test_a_learners_decision_never_lifts_a_part_above_its_maximum(store: Store) -> None:
    engine = replace(mark(3, 4, unsure="d"), of=2, marks=2)
    assert outcome(store, ("engine", engine), ("learner", mark(4, 4))) == ("learner", 2)


def test_marks_lost_for_wrong_extras_stay_lost(store: Store) -> None:
    engine = replace(mark(2, 3, unsure="c"), marks=1)
    assert outcome(store, ("engine", engine), ("learner", mark(3, 3))) == ("learner", 2)


def test_a_decision_lasts_when_a_better_engine_marks_again(store: Store) -> None:
    engine, learner, again = mark(1, 2, unsure="b"), mark(2, 2), mark(0, 2, unsure="b")
    given = (("engine", engine), ("learner", learner), ("engine", again))
    assert outcome(store, *given) == ("learner", 1)


def test_self_marked_levels_are_the_learners_to_set(store: Store) -> None:
    engine = replace(mark(2, 6, unsure="a"), self_marked=True)
    verdict = in_force(store, ("engine", engine), ("learner", mark(4, 6)))
    assert verdict is not None
    assert (verdict.by, verdict.mark.marks, verdict.mark.self_marked) == ("learner", 4, True)


def test_a_learner_alone_has_no_say(store: Store) -> None:
    assert in_force(store, ("learner", mark(1))) is None


def test_an_appeal_changes_no_mark_until_it_is_settled(store: Store) -> None:
    asking = asked(store)
    answer = typed(store, asking)
    store.verdict(answer, "engine", "3", mark(0), later(13))
    store.appeal(answer, 'I wrote "the same" in other words', later(14))
    contested = one_answer(store, asking)
    assert (contested.mark, contested.appeal) == (mark(0), 'I wrote "the same" in other words')
    (waiting,) = store.open_marks(store.learners()[0])
    assert (waiting.asking.id, waiting.answer) == (asking, contested)
    store.verdict(answer, "teacher", "", mark(1), later(15))
    settled = one_answer(store, asking)
    assert (settled.mark, settled.appeal) == (mark(1), None)
    assert store.open_marks(store.learners()[0]) == []


def test_an_appeal_after_a_settlement_is_open_again(store: Store) -> None:
    asking = asked(store)
    answer = typed(store, asking)
    store.verdict(answer, "engine", "3", mark(0), later(13))
    store.verdict(answer, "teacher", "", mark(0), later(14))
    store.appeal(answer, "once more", later(15))
    assert one_answer(store, asking).appeal == "once more"


def test_marks_the_engine_was_not_sure_of_wait_for_somebody(store: Store) -> None:
    who_asked = asked(store)
    answer = typed(store, who_asked)
    who = store.learners()[0]
    store.verdict(answer, "engine", "3", mark(1, 2, unsure="b"), later(13))
    assert [one.answer.id for one in store.open_marks(who)] == [answer]
    store.verdict(answer, "learner", "3", mark(2, 2), later(14))
    assert store.open_marks(who) == []
