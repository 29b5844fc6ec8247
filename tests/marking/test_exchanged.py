"""Who does what: an answer whose things, or direction, stand the wrong way round is not sure."""

import pytest

from drill.frozen import replace
from drill.marking import mark
from drill.marking.written.exchanged import THING, contexts, exchanged, roles_of
from drill.marking.written.opposites import OPPOSITES, groups
from drill.marking.written.sentences import words_of
from drill.model import Learned, Way
from tests.marking.test_bank_answers import written_part

RIGHT = ("the acid is used up", "filter the oxide off", "the oxide is filtered off", "acid reacts")


def roles(texts=RIGHT, things=("acid", "oxid")):
    found = {}
    for text in texts * 4:
        for word, context in contexts(words_of(text)):
            if word in things or word in OPPOSITES:
                found.setdefault(word, {})
                found[word][context] = found[word].get(context, 0) + 1
    for thing in things:
        found.setdefault(thing, {})[THING] = 1
    return found


def turned_words(text, known):
    words = words_of(text)
    turned = exchanged(words, known)
    return {words[place].text for place in turned.places} if turned else set()


def test_things_in_each_others_place_are_told():
    turned = "the oxide is used up, filter the acid off"
    assert turned_words(turned, roles()) == {"acid", "oxide"}
    assert not turned_words("the acid is used up, filter the oxide off", roles())


def test_one_thing_alone_or_words_never_seen_tell_nothing():
    assert exchanged(words_of("the oxide is used up"), roles()) is None
    assert exchanged(words_of("oxide sings, acid dances"), roles()) is None
    assert exchanged(words_of("the oxide is used up, filter the acid off"), {}) is None
    assert exchanged([], roles()) is None


def test_a_direction_that_never_stood_there_is_told():
    known = roles(("hot acid makes more collisions happen",))
    assert turned_words("hot acid makes less collisions happen", known) == {"less"}
    assert not turned_words("hot acid makes more collisions happen", known)


def test_directions_that_tell_little_each_are_told_together():
    known = roles(("slower particles", "longer times", "higher tubes"))
    assert not turned_words("faster particles", known)
    assert turned_words("faster particles, shorter times, lower tubes", known) == {
        "faster",
        "shorter",
        "lower",
    }


def test_a_direction_reaches_no_further_than_its_clause():
    known = roles(("hot acid makes more collisions happen",))
    words = words_of("filter it because hot acid makes less collisions happen")
    turned = exchanged(words, known)
    assert words[min(turned.reached)].text == "because"


def test_the_points_asked_for_say_which_directions_are_right():
    hot, cold = Way(frozenset("ab"), {"more": {"=": 3.0}}), Way(frozenset("cd"), {})
    learned = Learned(roles={"acid": {}}, ways=(hot, cold))
    assert roles_of(learned, ["a", "b"]) == {"acid": {}, "more": {"=": 3.0}}
    assert roles_of(learned, ["d"]) == {"acid": {}}
    assert roles_of(Learned(), ["a"]) == {}


def test_every_opposite_is_a_direction_of_the_same_group():
    assert all(other in OPPOSITES and other in groups()[one] for one, other in OPPOSITES.items())
    assert groups()["quicker"] == groups()["faster"]


def without_rejects(part):
    """The part with nothing but this statistic against a turned answer."""
    points = tuple(replace(point, reject=()) for point in part.key.points)
    return replace(part, key=replace(part.key, points=points))


@pytest.mark.parametrize(
    ("name", "right", "turned"),
    [
        (
            "chromatography/pencil-line",
            "the ink would dissolve in the solvent",
            "the solvent would dissolve in the ink",
        ),
        (
            "salts/why-excess",
            "all of the acid reacts and the excess oxide is filtered off",
            "all of the oxide reacts and the excess acid is filtered off",
        ),
    ],
)
def test_a_turned_answer_is_not_sure_and_earns_less(name, right, turned):
    part = without_rejects(written_part(name))
    before, after = mark(part, right), mark(part, turned)
    assert before.marks > after.marks
    assert any(point.unsure and not point.marks for point in after.points)


@pytest.mark.parametrize(
    ("name", "turned"),
    [
        ("salts/why-filter", "it takes out the salt, the excess oxide is in the filtrate"),
        ("rates/cotton-wool", "the mass falls because gas goes from the air into the flask"),
        ("titration/concordant", "the rough titre is used and the concordant ones are left out"),
        ("water/distil-vs-filter", "only the sand passes through the paper"),
        ("energy/polystyrene-cup", "the change is smaller with the lid than without it"),
    ],
)
def test_what_is_the_wrong_way_round_earns_nothing(name, turned):
    assert mark(written_part(name), turned).marks == 0


def test_two_opposites_that_both_stand_there_are_turned_together():
    part = written_part("salts/why-cool-slowly")
    said = "slow cooling gives large crystals, fast cooling gives small ones"
    assert mark(part, said).marks == 1
