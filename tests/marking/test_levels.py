"""Extended answers are only suggested to, never marked."""

from __future__ import annotations

from drill.frozen import replace
from tests.marking.making import levels, point, verdict

METHOD = levels(
    point("excess", ["excess"]), point("filter", ["filter"]), point("evaporate", ["evaporat*"])
)


def test_the_learner_sets_the_mark():
    mark = verdict(METHOD, "Add excess solid and filter it.")
    assert mark.self_marked
    assert mark.unsure == ("level",)
    assert mark.says == (
        "Suggestion only, 4 of 6: you set the mark.\n"
        "Found: says excess; says filter.\nLook for: says evaporate."
    )


def test_a_step_that_spoils_the_result_caps_the_suggestion():
    made = levels(
        point("filter", ["filter"]), point("leave", ["leave ~ cool"], reject=[["boil ~ dry"]])
    )
    assert verdict(made, "Filter it and leave it to cool.").marks == 6
    mark = verdict(made, "Filter it and leave it to cool after you boil it dry.")
    assert mark.marks == 3
    assert mark.says.endswith("Said otherwise: says leave.\n4 at most without: says leave.")


def test_a_step_left_out_caps_the_suggestion():
    steps = [point(name, [name]) for name in ("warm", "stir", "cool", "dry", "weigh")]
    capped = levels(*steps, replace(point("filter", ["filter"]), cap=2))
    assert verdict(capped, "I warm it, stir it, let it cool, dry it, weigh it.").marks == 2
    assert verdict(capped, "I warm it, stir it, filter it, cool it and weigh it.").marks == 5


def test_nothing_found_suggests_nothing():
    assert verdict(METHOD, "I do not know.").marks == 0
