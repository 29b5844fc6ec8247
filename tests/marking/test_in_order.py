"""When each step of a described method is done, whatever the order it is told in."""

from __future__ import annotations

import pytest

from drill.frozen import replace
from drill.marking.written.sentences import words_of
from drill.marking.written.step_order import moments
from tests.marking.making import levels, point, verdict

METHOD = levels(
    point("warm", ["warm*"]),
    replace(point("filter", ["filter*"]), after="warm"),
    replace(point("boil", ["boil*|heat*"]), after="filter"),
    replace(point("cool", ["cool*"]), after="boil", cap=3),
)


def told(text: str) -> str:
    """The steps of an answer in the order they are done; a doubtful one in brackets."""
    words = words_of(text)
    when = moments(words)
    steps = [place for place, word in enumerate(words) if word.text.startswith("step")]
    done = sorted(steps, key=lambda place: when[place].at)
    return " ".join(
        words[place].text[4:] if when[place].sure else f"({words[place].text[4:]})"
        for place in done
    )


@pytest.mark.parametrize(
    "text",
    [
        "stepa it. stepb it. Then stepc it.",
        "stepa it, stepb it and stepc it",
        "After you stepa it, stepb it, and after that stepc it.",
        "stepa it before you stepb it, then stepc it",
        "Before you stepb it, stepa it. Then stepc it.",
        "stepb it, but only after you have done stepa. stepc it.",
        "stepb it after the stepa, then stepc it",
        "Once stepa is done, stepb it. stepc it",
        "stepa it and then, once you have it, stepb it. After a day stepc it.",
        "stepc it. Before that stepb it, and before that stepa it.",
        "stepc it. Before this, stepa it and stepb it.",
        "stepb it and stepc it. Before any of this stepa it",
        "stepb it, stepc it. But first, stepa it",
        "stepa. After a few days stepb. After 24 hours, stepc",
        "1 stepa it. 2 stepb it. 3 stepc it.",
        "stepa it, wait until it is stepb, then stepc",
        "stepa it. Leave it after a week stepb it stepc it",
    ],
)
def test_steps_are_put_in_the_order_they_are_done(text):
    assert told(text) == "a b c"


@pytest.mark.parametrize(
    "text",
    [
        "stepa it. The liquid you have is what came from stepb.",
        "stepa it. It had been through stepb.",
        "Before stepa stepb it.",
    ],
)
def test_where_the_order_cannot_be_told_it_is_doubtful(text):
    assert "(b)" in told(text)


def test_steps_in_a_working_order_are_not_capped():
    for text in (
        "Warm it, filter it, boil it, cool it.",
        "Warm it. Before you boil it, filter it. Then cool.",
        "Cool it. Before that boil it. Before that you filter it. Before any of this warm it.",
    ):
        assert verdict(METHOD, text).marks == 6, text


def test_a_step_out_of_place_is_named_and_caps_the_suggestion():
    mark = verdict(METHOD, "Warm it, boil it and then filter it. Cool it.")
    assert mark.marks == 4
    assert 'Out of place: says boil; it should come after "says filter".' in mark.says
    assert mark.says.endswith("4 at most with a step out of place.")


def test_a_lower_cap_of_its_own_holds_for_a_step_out_of_place():
    assert verdict(METHOD, "Warm it, filter it, cool it, and then boil it").marks == 3


def test_a_step_said_again_in_its_place_is_in_order():
    assert verdict(METHOD, "Heat the acid to warm it, filter it, heat it again, cool it").marks == 6


def test_an_order_that_cannot_be_told_is_left_to_the_learner():
    mark = verdict(METHOD, "Warm it and boil it. What you boil is what had been filtered. Cool it.")
    assert mark.marks == 6
    assert "Out of place" not in mark.says
    (line,) = [line for line in mark.says.splitlines() if line.startswith("Check the order")]
    assert 'says boil; it should come after "says filter"' in line


def test_a_step_that_is_missing_has_no_place():
    assert "Out of place" not in verdict(METHOD, "Boil it, cool it.").says
