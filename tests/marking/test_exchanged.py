"""Who does what: an answer whose things, or direction, stand the wrong way round is not sure."""

import pytest

from drill.frozen import replace
from drill.marking import mark
from drill.marking.written.exchanged import contexts, exchanged
from drill.marking.written.sentences import words_of
from tests.marking.test_bank_answers import written_part

RIGHT = ("the acid is used up", "filter the oxide off", "the oxide is filtered off", "acid reacts")


def roles(texts=RIGHT, things=("acid", "oxid", "more", "less")):
    found = {}
    for text in texts * 4:
        for word, context in contexts(words_of(text)):
            if word in things:
                found.setdefault(word, {})
                found[word][context] = found[word].get(context, 0) + 1
    return found


def test_things_in_each_others_place_are_told():
    turned = words_of("the oxide is used up, filter the acid off")
    assert exchanged(turned, roles()) == {"acid", "oxid"}
    assert not exchanged(words_of("the acid is used up, filter the oxide off"), roles())


def test_one_thing_alone_or_words_never_seen_tell_nothing():
    assert not exchanged(words_of("the oxide is used up"), roles())
    assert not exchanged(words_of("oxide sings, acid dances"), roles())
    assert not exchanged(words_of("the oxide is used up, filter the acid off"), {})
    assert not exchanged([], roles())


def test_a_direction_that_never_stood_there_is_told():
    known = roles(("it makes more collisions happen",))
    assert exchanged(words_of("it makes less collisions happen"), known) == {"more", "less"}
    assert not exchanged(words_of("it makes more collisions happen"), known)


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
