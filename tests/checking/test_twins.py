"""Twins of right answers: made without a grammar, and named where a scheme still pays them."""

from drill.checking.twins import Things, things_of, twins

THINGS = Things(frozenset(("acid", "oxide", "ink", "solvent")), frozenset((("zinc", "oxide"),)))


def answers(text, things=THINGS):
    return [twin.answer for twin in twins(text, things)]


def test_two_things_change_places_with_the_word_that_belongs_to_one():
    assert answers("all the acid reacts, filter the zinc oxide") == [
        "all the zinc oxide reacts, filter the acid"
    ]


def test_things_that_stand_as_equals_are_left():
    assert answers("the acid and the oxide react") == []
    assert answers("the acid reacts with oxide") == ["the acid reacts without oxide"]


def test_a_direction_is_turned_and_two_opposites_change_places():
    assert set(answers("the ink rises faster")) == {
        "the ink rises slower",
        "the ink falls faster",
        "the ink falls slower",
    }
    assert "a cold one is larger than a hot one" in answers("a hot one is larger than a cold one")


def test_a_denial_is_left_out_and_one_put_in():
    assert answers("it doesn't spit") == ["it does spit"]
    assert answers("it does not spit") == ["it does  spit"]
    assert answers("it would spit") == ["it would not spit"]


def test_an_answer_without_things_or_directions_has_no_twin():
    assert answers("it spits") == []
    assert answers("") == []


def test_things_stand_behind_articles_and_describing_words_do_not_count():
    found = things_of(
        ["The zinc oxide is added to the warm acid."],
        ["the acid is used up by the oxide", "filter the oxide from the acid", "the oxide is left"],
    )
    assert {"acid", "oxide"} <= found.heads
    assert "zinc" not in found.heads
    assert ("zinc", "oxide") in found.pairs
