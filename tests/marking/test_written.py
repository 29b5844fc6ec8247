"""The engine of written answers: ideas together, direction, denial, spelling, lists."""

from __future__ import annotations

import pytest

from drill.frozen import replace
from drill.marking.written.sentences import is_noted
from drill.model import Pattern
from tests.marking.making import marks, point, points_of, verdict, written

CONCEPTS = {
    "acid": ("acid", "h2so4"),
    "used-up": ("used up", "=gone", "run|runs out", "react"),
    "more": ("=more|higher",),
    "gas": ("gas", "carbon dioxide"),
    "escape": ("escap*", "leave"),
}
ACID = written(point("used", ["acid", "used-up"], reject=[["solid", "used-up"]]), concepts=CONCEPTS)


@pytest.mark.parametrize(
    "typed",
    ["all the acid is used up", "The ACID has gone!", "so that the acid runs out",
     "H2SO4 reacts completely", "acid reacted", "the acid's all gone"],
)  # fmt: skip
def test_ideas_near_each_other_earn_the_point(typed):
    assert marks(ACID, typed) == 1


@pytest.mark.parametrize(
    "typed",
    ["the acid is not used up", "the acid isn't used up", "the acid isnt gone",
     "the acid never runs out", "acid. the lesson is gone", "the acid stays", ""],
)  # fmt: skip
def test_denied_or_elsewhere_earns_nothing(typed):
    assert marks(ACID, typed) == 0


def test_not_only_denies_nothing():
    assert marks(ACID, "not only is the acid used up but it is warm") == 1


def test_a_denial_ends_with_its_clause():
    assert marks(ACID, "it does not spit because the acid is used up") == 1


def test_a_rejected_statement_cancels_its_point():
    assert marks(ACID, "all the solid is used up") == 0
    mark = verdict(ACID, "the acid is used up. the solid is used up.")
    assert (mark.marks, mark.unsure) == (0, ())


def test_the_words_that_earned_it_are_shown():
    assert verdict(ACID, "so all the acid gets used up fast").points[0].because == (
        '"acid gets used up"'
    )


def test_the_missing_idea_is_shown_first():
    assert verdict(ACID, "to be safe").says == "Missing: says used."


def test_what_is_ignored_neither_gains_nor_loses():
    made = written(point("used", ["acid", "gone"], ignore=[["faster"]]))
    assert marks(made, "it is faster") == 0
    assert verdict(made, "it is faster").says == '"faster" earns nothing. Missing: says used.'
    assert marks(made, "it is faster and the acid is gone") == 1


class TestSpelling:
    GAS = written(point("gas", ["gas", "escape"]), concepts=CONCEPTS)

    @pytest.mark.parametrize(
        "typed", ["the gas escpaes", "carbon dioxde escapes", "gas excapes", "carbn dioxide leavs"]
    )
    def test_a_non_word_is_taken_for_the_word_it_is_near(self, typed):
        assert marks(self.GAS, typed) == 1

    def test_a_real_word_is_never_taken_for_another(self):
        dense = written(point("dense", ["dense"]))
        assert marks(dense, "it is denser") == 0
        assert marks(written(point("reflect", ["reflect"])), "light is refracted") == 0

    @pytest.mark.parametrize("typed", ["mor gas", "moar gas", "highr gas", "high gas"])
    def test_directions_are_exact(self, typed):
        assert marks(written(point("more", ["more", "gas"]), concepts=CONCEPTS), typed) == 0

    def test_another_exact_word_may_be_misspelt(self):
        excess = written(point("excess", ["=excess"]))
        assert marks(excess, "add it in exces") == 1


class TestPatterns:
    def test_window(self):
        near = written(point("p", Pattern(("acid", "base"), window=3)))
        assert marks(near, "acid and the base") == 1
        assert marks(near, "acid goes on and on with the base") == 0

    def test_order(self):
        ordered = written(point("p", Pattern(("acid", "base"), ordered=True)))
        assert marks(ordered, "acid then base") == 1
        assert marks(ordered, "base then acid") == 0

    def test_polarity_no_wants_it_denied(self):
        denied = written(point("p", Pattern(("dissolve",), polarity="no")))
        assert marks(denied, "it does not dissolve") == 1
        assert marks(denied, "it dissolves") == 0

    def test_polarity_any_does_not_look(self):
        either = written(point("p", Pattern(("dissolve",), polarity="any")))
        assert marks(either, "it does not dissolve") == marks(either, "it dissolves") == 1

    def test_what_must_not_stand_there(self):
        without = written(point("p", ["acid", "gone", "not solid"]))
        assert marks(without, "the acid is gone") == 1
        assert marks(without, "the solid stays and the acid is gone") == 1
        assert marks(without, "the solid acid is gone") == 0

    def test_phrases_have_gaps_alternatives_and_beginnings(self):
        phrase = written(point("p", ["end point|colour ~2 chang* / goes pink"]))
        assert marks(phrase, "the colour then quickly changes") == 0
        assert marks(phrase, "the end colour is changing") == 1
        assert marks(phrase, "it goes pink") == 1


class TestTogether:
    ANY_TWO = (["temperature"], ["volume"], ["mass", "solid"])
    TWO = written(point("one", *ANY_TWO), point("two", *ANY_TWO))

    def test_any_two_from_needs_two_ideas(self):
        assert points_of(self.TWO, "temperature and volume") == {"one": 1, "two": 1}
        assert points_of(self.TWO, "temperature, the temperature again") == {"one": 1, "two": 0}

    def test_a_dependent_point_needs_the_other(self):
        made = written(point("splint", ["lit splint"]), point("pop", ["pop"], needs=["splint"]))
        assert marks(made, "it goes pop") == 0
        assert marks(made, "a lit splint goes pop") == 2

    def test_the_list_principle(self):
        made = written(
            point("one", ["tongs"], reject=[["sandals"], ["matches"]]),
            point("two", ["goggles"]),
            asked=2,
        )
        assert marks(made, "use tongs and goggles") == 2
        assert marks(made, "use tongs and sandals") == 1
        assert marks(made, "use tongs and goggles and sandals") == 1
        assert marks(made, "use tongs, goggles, sandals and matches") == 0

    def test_more_right_ones_than_asked_for_do_not_make_up_for_a_wrong_one(self):
        ideas = [point(one, [one]) for one in ("tongs", "goggles", "apron")]
        made = written(*ideas, point("none", ["mask"], reject=[["sandals"]]), most=2, asked=2)
        assert marks(made, "use tongs and goggles and an apron") == 2
        assert marks(made, "use tongs and goggles and an apron and sandals") == 1

    def test_never_above_the_maximum(self):
        made = written(point("a", ["acid"]), point("b", ["base"]), most=1)
        assert marks(made, "the acid and the base") == 1

    def test_a_list_of_keywords_states_nothing(self):
        made = written(point("a", ["acid"]), point("b", ["pure"]))
        mark = verdict(made, "acid excess pure neutral filter")
        assert (mark.marks, mark.unsure) == (0, ("a", "b"))

    @pytest.mark.parametrize(
        "typed",
        ["acid acid reacts filtered pure", "acid reacts filtered pure crystals",
         "pure pure acid used up filter", "acid used up filter excess pure",
         "filter excess acid used up pure salt", "acid, used up, filter, excess, pure"],
    )  # fmt: skip
    def test_a_verb_among_keywords_states_nothing(self, typed):
        made = written(point("a", ["acid"]), point("b", ["pure"]))
        assert marks(made, typed) == 0

    @pytest.mark.parametrize(
        "typed",
        ["acid reacts, pure", "acid reacts completely, pure salt", "acid used up, filter pure salt",
         "so acid reacts and salt pure", "acid finish all, salt pure then"],
    )  # fmt: skip
    def test_an_answer_without_articles_is_still_one(self, typed):
        made = written(point("a", ["acid"]), point("b", ["pure"]))
        assert marks(made, typed) == 2


def test_a_non_word_may_be_meant_for_an_exact_word_but_no_word_is_another():
    made = written(point("over", ["=excess"]), point("left", ["=left"]))
    assert points_of(made, "it is in exces and some is lefft") == {"over": 1, "left": 1}
    assert points_of(made, "it is access and some is lift") == {"over": 0, "left": 0}
    assert points_of(made, "it was exceeded, it was leaving") == {"over": 0, "left": 0}


class TestTakenBack:
    """What a learner takes back is not marked, as with work that is crossed out."""

    @pytest.mark.parametrize(
        "typed",
        ["the acid is used up - no sorry, the solid is", "the acid is used up. no wait",
         "it is used up, the acid is gone, scrap that"],
    )  # fmt: skip
    def test_the_statement_before_goes(self, typed):
        assert marks(ACID, typed) == 0

    @pytest.mark.parametrize(
        "typed",
        ["the solid is used up - no sorry, the acid is used up", "the acid is used up, sorry",
         "the acid is gone. It is warm - no wait, cold", "no sorry", "scrap that"],
    )  # fmt: skip
    def test_nothing_further_back_goes(self, typed):
        assert marks(ACID, typed) == (0 if typed in ("no sorry", "scrap that") else 1)


class TestHeadline:
    def test_all_earned_is_right_and_no_more(self):
        assert verdict(ACID, "all the acid is used up").says == "Right."

    def test_what_is_not_sure_is_never_called_right(self):
        made = written(point("far", ["acid", "pure"]))
        mark = verdict(made, "it is pure. It was put in there a while ago. So is the acid")
        assert (mark.marks, mark.unsure) == (0, ("far",))
        assert mark.says == "Not sure whether this is said: says far."

    def test_all_missing_ideas_are_named(self):
        made = written(point("a", ["acid"]), point("b", ["pure"]), point("c", ["dry"]))
        assert verdict(made, "it is the acid").says == "Missing: says b; says c."

    def test_where_more_would_do_it_says_how_many_are_wanted(self):
        made = written(point("a", ["acid"]), point("b", ["pure"]), point("c", ["dry"]), most=2)
        says = "1 more wanted, of these: says b; says c."
        assert verdict(made, "it is the acid").says == says

    def test_one_reason_stands_in_front(self):
        made = written(point("a", ["acid"], reject=[["solid"]]), point("b", ["pure"]))
        says = '"solid" says otherwise. Missing: says a; says b.'
        assert verdict(made, "it is the solid").says == says

    @pytest.mark.parametrize(
        ("ask", "says"),
        [("Why is the copper sulphate cooled?", "the sulphate"), ("Why sulfate?", "the sulfate"),
         ("Why is it cooled?", "the sulfate")],
    )  # fmt: skip
    def test_it_is_spelt_as_the_question_spells_it(self, ask, says):
        made = written(replace(point("a", ["acid"]), says="the sulfate"))
        made = replace(made, ask=ask)
        assert verdict(made, "it is cold").says == f"Missing: {says}."


class TestExamples:
    """Points with the same lines ask for examples; their list is never whole."""

    LINES = (["tongs", "burn"], ["hair", "fire"])
    PART = written(point("one", *LINES), point("two", *LINES))

    def test_said_already_is_true_only_of_what_was_said(self):
        twice = "use tongs or you burn. again use tongs or you burn"
        assert verdict(self.PART, twice).points[1].because == "said already; missing: says two"
        once = verdict(self.PART, "use tongs or you burn")
        assert once.points[1].because == "missing: says two"

    @pytest.mark.parametrize(
        ("typed", "unsure"),
        [("tongs or you burn and a helmet protects heads", ("two",)),
         ("a helmet protects heads", ("one",)), ("tongs or you burn", ()),
         ("a helmet protects heads, sandals keep toes. Boots carry weight", ("one", "two")),
         ("tie hair back because of fire and tongs or you burn", ())],
    )  # fmt: skip
    def test_words_that_no_line_knows_are_not_sure(self, typed, unsure):
        assert verdict(self.PART, typed).unsure == unsure


def test_a_name_with_a_number_inside_is_one_word():
    part = written(point("over", ["=only|just ~2 propan-2-ol"]))
    assert marks(part, "only the propan-2-ol comes over") == 1
    assert marks(part, "only the propan-1-ol comes over") == 0


def test_and_behind_a_denial_says_no_more_than_what_was_denied():
    part = written(point("fume", ["fume cupboard"], reject=[["smell ~1 it"]]))
    assert marks(part, "use the fume cupboard. don't bend over and smell it") == 1
    assert marks(part, "use the fume cupboard and smell it") == 0


def test_colons_that_stand_for_verbs_make_notes():
    assert is_noted("precise: Red, range small. accurate: Red too")
    assert is_noted("damp → too heavy")
    assert not is_noted("two reasons: it spits and it breaks")


def test_one_word_never_stands_for_two_ideas():
    part = written(
        point("hotter", ["warm", "warmer"]), concepts={"warm": ("warm*",), "warmer": ("=warmer",)}
    )
    assert marks(part, "the acid is warmer") == 0
    assert marks(part, "warm acid becomes warmer") == 1
