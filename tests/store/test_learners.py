"""Codes, renaming, settings."""

from __future__ import annotations

import pytest

from drill.errors import DrillError
from drill.store import Store
from tests.store.making import NOW, later


def test_a_learner_keeps_the_case_of_the_code(store: Store) -> None:
    store.new_learner("Blue-12", NOW)
    (who,) = store.learners()
    assert (who.code, who.when, who.when.utcoffset()) == ("Blue-12", NOW, NOW.utcoffset())


@pytest.mark.parametrize("code", ["K7", "k7"])
def test_a_code_is_taken_whatever_its_case(store: Store, code: str) -> None:
    store.new_learner("K7", NOW)
    with pytest.raises(DrillError, match=f'the code "{code}" is taken'):
        store.new_learner(code, NOW)
    assert len(store.learners()) == 1


@pytest.mark.parametrize(
    "code", ["", "a" * 13, "two words", "-x", "Zoë", "a\x1b[2J", "1;drop", "²", "a\n"]
)
def test_what_is_not_a_code_is_refused_and_shown_harmlessly(store: Store, code: str) -> None:
    with pytest.raises(DrillError, match='A code is 1 to 12 letters a-z, digits or "-"') as error:
        store.new_learner(code, NOW)
    assert str(error.value).isprintable()
    assert store.learners() == ()


def test_renaming_keeps_the_learner_and_frees_the_code(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    store.set_setting(who, "minutes", "12", NOW)
    renamed = store.rename_learner("k7", "Q9", later(5))
    assert renamed.id == who.id
    assert store.setting(renamed, "minutes") == "12"
    other = store.new_learner("K7", later(6))
    assert [one.code for one in store.learners()] == ["Q9", "K7"]
    assert other.id != who.id


def test_renaming_may_change_only_the_case(store: Store) -> None:
    store.new_learner("k7", NOW)
    assert store.rename_learner("k7", "K7", NOW).code == "K7"


def test_renaming_refuses_a_taken_code_a_bad_one_and_nobody(store: Store) -> None:
    store.new_learner("K7", NOW)
    store.new_learner("Q9", NOW)
    for old, new in (("K7", "q9"), ("K7", "not one"), ("X1", "X2")):
        with pytest.raises(DrillError):
            store.rename_learner(old, new, NOW)
    assert [one.code for one in store.learners()] == ["K7", "Q9"]


def test_the_last_setting_wins_even_when_the_clock_ran_back(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    store.set_setting(who, "exam", "2027-05-18", later(1000))
    store.set_setting(who, "exam", "2027-06-01", NOW)
    assert store.setting(who, "exam") == "2027-06-01"


def test_settings_of_learners_and_of_the_machine_are_apart(store: Store) -> None:
    one, two = store.new_learner("K7", NOW), store.new_learner("Q9", NOW)
    store.set_setting(one, "sure", "yes", NOW)
    store.set_setting(None, "sure", "no", NOW)
    assert [store.setting(who, "sure") for who in (one, two, None)] == ["yes", None, "no"]
