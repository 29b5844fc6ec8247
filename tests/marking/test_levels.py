"""Extended answers are only suggested to, never marked."""

from __future__ import annotations

from tests.marking.making import levels, point, verdict

METHOD = levels(
    point("excess", ["excess"]), point("filter", ["filter"]), point("evaporate", ["evaporat*"])
)


def test_the_learner_sets_the_mark():
    mark = verdict(METHOD, "Add excess solid and filter it.")
    assert mark.self_marked
    assert mark.unsure == ("level",)
    assert mark.says == (
        "Suggestion only, 4 of 6: you set the mark. Found: excess, filter. Look for: evaporate."
    )


def test_nothing_found_suggests_nothing():
    assert verdict(METHOD, "I do not know.").marks == 0
