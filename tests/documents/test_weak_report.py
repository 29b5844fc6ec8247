"""The first page on one learner: twenty lines of 80 columns, whatever the texts hold."""

from __future__ import annotations

from itertools import product

import pytest

from drill.app.weakness.lesson_item import GuessCounts, LessonItem, Made, TwoWeeks
from drill.app.weakness.mistakes import CommonMistake, Example
from drill.app.weakness.skill_rows import Dated, SkillRow
from drill.app.weakness.weak import LearnerReport, Practised
from drill.documents import writer
from drill.documents.terminal import write
from drill.documents.weak_document import Wanted, document, whole_document
from drill.documents.weak_report import weak_report
from drill.documents.weak_words import some_of
from drill.frozen import replace
from drill.planning.figures import Share

HAZARD = Example(
    "2027-02-12", "safety/acid-hazard", "a", "Name it.", "because it is safer", "corrosive", 0, 1
)
WATER = Example(
    "2027-02-19", "salts/percentage-yield", "b", "Work it out.", "2.42 g", "3.92 g", 0, 2
)


def skill(name: str, marks: int, of: int, **rest: object) -> SkillRow:
    row = SkillRow(
        "x." + name, name, "safety", True, marks, of, 0, 0, of, 3, 2, "not yet secure", 0.34, 0.61,
        "forgotten", "", (), None, 0, 0, 0,
    )  # fmt: skip
    return replace(row, **rest)  # type: ignore[arg-type]


ITEMS = (
    LessonItem(
        "hazard symbols and words", "x.hazard", True, "forgotten", "",
        TwoWeeks(1, 8, "2027-02-15", 3, 4), 0, 0, 0.34,
        (Dated("2027-02-01", 1.0), Dated("2027-02-12", 0.0)), HAZARD, ("x.hazard",),
    ),
    LessonItem(
        "water left out", "", True, "a common mistake", "water left out",
        TwoWeeks(2, 8, "2027-02-15", 0, 0), 3, 4, None, (), WATER, ("x.mass", "x.yield"),
        made=Made(1, 2, "2027-02-15", 2, 2),
    ),
    LessonItem(
        "reading a scale", "x.scale", False, "never known", "",
        TwoWeeks(0, 2, "2027-02-15", 0, 0), 0, 0, 0.41,
        (Dated("2027-02-16", 0.0), Dated("2027-02-18", 0.0)), None, ("x.scale",),
    ),
)  # fmt: skip
REPORT = LearnerReport(
    learner="mo1",
    deck="Making salts and titration",
    on="2027-03-01",
    exam="2027-05-18",
    days_left=78,
    practised=Practised(14, 28, 52, 336),
    answers=90,
    marks=61,
    of=120,
    met=37,
    skills_in_deck=40,
    held=Share(0.58, 0.5, 0.66),
    on_the_day=Share(0.71, 0.6, 0.78),
    lesson=ITEMS,
    held_least=(skill("hazard symbols and words", 4, 12), skill("reading a scale", 0, 2)),
    mistakes=(CommonMistake("water left out", 3, 4, 3, ("x.mass", "x.yield"), (WATER,), True),),
    not_tried=("rate curves", "choosing how to heat", "what apparatus is made of", "titre"),
    strong=(skill("naming apparatus", 6, 6),),
    ask=("safety/acid-hazard", "salts/percentage-yield", "measure/burette", "rates/curve"),
    not_sure=(),
    skills=(skill("hazard", 4, 12), skill("outside", 1, 2, in_deck=False)),
    weeks=(),
    sureness=(),
    help=(),
    compared=None,
)
SCREEN = """\
mo1, 1 Mar. Making salts and titration, exam in 78 days
────────────────────────────────────────────────────────────────────────────────
Practised on 14 of 28 days, 52 of 336 planned minutes.
Held today: 58 % (50 to 66) of the marks, if every skill were asked now.
On the day: 71 % (60 to 78), if practised as planned.
Next lesson:
1 hazard symbols and words: 1 of 8 marks since 15 Feb, 3 of 4 before
  forgotten: right 1 Feb, missed 12 Feb; held today 34 %
  12 Feb safety/acid-hazard: “Name it.”
  typed “because it is safer”, right “corrosive”
2 water left out: in 3 of 4 answers where it can be
  a common mistake in 2 skills: 1 of 2 since 15 Feb, 2 of 2 before
  19 Feb salts/percentage-yield: “Work it out.”
  typed “2.42 g”, right “3.92 g”
  to ask      safety/acid-hazard; salts/percentage-yield; measure/burette;
              rates/curve
  perhaps     reading a scale 0 of 2 marks
  held least  hazard symbols and words 34 %; reading a scale 34 %
  not tried   4 skills: rate curves; choosing how to heat and 2 more
  strong      naming apparatus 6 of 6
"""


def test_the_first_page_on_a_screen() -> None:
    assert write(weak_report(REPORT), 80) == SCREEN


def test_the_first_page_for_the_ear() -> None:
    words = write(weak_report(REPORT), 80, plain=True).splitlines()
    assert words[0] == "mo1, 1 Mar. Making salts and titration, exam in 78 days"
    assert words[1] == "Practised on 14 of 28 days, 52 of 336 planned minutes."
    assert words[-4:] == [
        "perhaps: reading a scale 0 of 2 marks",
        "held least: hazard symbols and words 34 %; reading a scale 34 %",
        "not tried: 4 skills: rate curves; choosing how to heat and 2 more",
        "strong: naming apparatus 6 of 6",
    ]


def test_a_habit_of_guessing_has_its_counts_and_where_it_shows() -> None:
    item = replace(
        ITEMS[1], name="guessing", mistake="", times=63, chances=64, skills=("x.hazard",)
    )
    item = replace(item, guesses=GuessCounts(said=38, fast=25, right=5, answers=528))
    rows = write(weak_report(replace(REPORT, lesson=(item,))), 80).splitlines()
    assert rows[6:9] == [
        "1 guessing: 63 of the 64 answers that lost marks",
        "  the learner called 38 a guess, 25 came too fast; 5 of 464 right ones a guess",
        "  most often in hazard",
    ]


DAYS = (Dated("2027-02-16", 0.0), Dated("2027-02-16", 0.0), Dated("2027-02-18", 1.0))


@pytest.mark.parametrize(
    ("why", "evidence", "line"),
    [
        ("forgotten", DAYS, "forgotten: 2 of 3 answers missed since, in 2 skills, on 16 Feb"),
        (
            "forgotten",
            (*DAYS, *(Dated(f"2027-02-{day}", 0.0) for day in (19, 20, 22))),
            "forgotten: 5 of 6 answers missed since, in 2 skills, on 4 days to 22 Feb",
        ),
        (
            "weak together",
            (*DAYS, Dated("2027-02-19", 0.0)),
            "weak together: 2 skills missed, none plainly alone, on 16 Feb, 19 Feb",
        ),
    ],
)
def test_a_topic_says_on_which_days_it_was_missed(
    why: str, evidence: tuple[Dated, ...], line: str
) -> None:
    item = replace(ITEMS[1], name="safety", mistake="", why=why, evidence=evidence)
    rows = write(weak_report(replace(REPORT, lesson=(item,))), 80).splitlines()
    assert rows[7] == "  " + line


def test_what_comes_and_goes_says_which_way_it_goes() -> None:
    def word(marks: int, before: int) -> str:
        then = TwoWeeks(marks, 25, "2027-02-15", before, 25)
        item = replace(ITEMS[0], why="comes and goes", trend=then)
        return write(weak_report(replace(REPORT, lesson=(item,))), 80).splitlines()[7]

    assert word(15, 4).startswith("  comes and goes (improving): right 1 Feb")
    assert word(4, 15).startswith("  comes and goes (getting worse): ")
    assert word(12, 13).startswith("  comes and goes (no clear change): ")


def test_what_two_things_have_in_common_is_said() -> None:
    second = replace(ITEMS[0], skills=("x.mass",), held=None)
    rows = write(weak_report(replace(REPORT, lesson=(ITEMS[1], second))), 80).splitlines()
    assert "  forgotten: right 1 Feb, missed 12 Feb; shares a skill with 1" in rows


def test_names_are_cut_before_any_is_left_out() -> None:
    names = [("mass of the crystals at most", "28 %"), ("yield", "30 %")]
    assert some_of(names, 80) == "mass of the crystals at most 28 %; yield 30 %"
    assert some_of(names, 40) == "mass of the crystals … 28 %; yield 30 %"
    assert some_of(names, 31) == "mass of the … 28 %; yield 30 %"
    assert some_of(names, 29) == "mass of the … 28 % and 1 more"


def test_weak_evidence_stands_apart_from_the_better() -> None:
    slight = replace(ITEMS[2], name="waste", slight=True)
    shown = write(weak_report(replace(REPORT, lesson=(*ITEMS[1:], slight))), 80)
    assert "  perhaps     reading a scale 0 of 2 marks\n" in shown
    assert "  by chance?  waste 0 of 2 marks\n" in shown


def test_what_a_long_question_asks_is_shown_and_no_word_is_cut() -> None:
    story = "A student weighs crystals and writes down what they read. " * 3
    right = "the crystals were still wet when they were weighed, so the mass is too high"
    end = "Why is the yield over 100 %? Give your answer to 3 significant figures."
    told = replace(WATER, ask=story + end, right=right)
    for many in (1, 3):
        items = (replace(ITEMS[1], example=told),) * many
        words = write(weak_report(replace(REPORT, lesson=items)), 80)
        assert "Why is the yield over 100 %?”" in words
        cut = words.split("right “")[1].split(" …”")[0]
        assert right.startswith(cut)
        assert right[len(cut)] in " ,"
    page = write(whole_document([replace(REPORT, lesson=items)]), 10_000)
    assert f"“{told.ask}”" in page
    assert f"right “{right}”" in page


def test_a_mistake_that_is_an_item_is_not_told_twice() -> None:
    other = replace(REPORT.mistakes[0], mistake="read from above")
    shown = write(weak_report(replace(REPORT, mistakes=(*REPORT.mistakes, other))), 80)
    assert "  mistakes    read from above in 3 of 4 answers where it can be\n" in shown


def test_on_a_narrow_screen_lines_hang_under_their_item() -> None:
    rows = write(weak_report(REPORT), 44).splitlines()
    at = rows.index("  forgotten: right 1 Feb, missed 12 Feb;")
    assert rows[at + 1] == "  held today 34 %"


def test_too_few_answers_give_marks_and_no_percentage() -> None:
    early = replace(REPORT, answers=12, held=None, on_the_day=None, lesson=())
    shown = write(weak_report(early), 80)
    assert "61 of 120 marks, 37 of 40 skills met.\nNext lesson: nothing stands out yet." in shown
    assert "%" not in shown
    wide = write(weak_report(replace(REPORT, on_the_day=Share(0.81, 0.6, 0.99))), 80)
    assert "On the day: 81 % (60 to 99), if practised as planned; only a rough figure." in wide
    one = write(weak_report(replace(REPORT, on_the_day=None)), 80)
    assert "if every skill were asked now.\n37 of 40 skills met.\n" in one


def test_long_and_hostile_texts_stay_within_twenty_lines_of_eighty_columns() -> None:
    nasty = "\x1b[31m" + "<script>alert(1)</script> [red] \u202e " * 40
    told = replace(HAZARD, typed=nasty, right=nasty, template="own/" + "long-" * 20)
    items = tuple(replace(item, name=nasty, mistake=nasty, example=told) for item in ITEMS)
    mistakes = tuple(replace(REPORT.mistakes[0], mistake=nasty) for _ in range(5))
    page = replace(
        REPORT,
        learner="K" * 40,
        deck=nasty,
        lesson=items,
        mistakes=mistakes,
        not_tried=(nasty,) * 9,
        held_least=(skill(nasty, 0, 3),) * 3,
        strong=(skill(nasty, 3, 3),) * 3,
        ask=tuple(f"{'long-' * 20}{number}" for number in range(4)),
    )
    for width, plain in product((60, 80), (False, True)):
        first = document([page], Wanted(), width)
        shown = write(first, width, plain)
        assert len(shown.splitlines()) <= 20
        assert max(map(len, shown.splitlines())) <= width
        assert "\x1b" not in shown
        assert "\u202e" not in shown
    html = writer("html")(whole_document([page]))
    assert "<script>" not in html
    assert "\x1b" not in html


def test_all_skills_stand_by_topic_with_a_legend_and_a_dash_outside_the_deck() -> None:
    shown = write(document([REPORT], Wanted(skills=True)), 80)
    assert "safety: 5 of 14 marks, 2 of 2 skills tried" in shown
    (outside,) = [line for line in shown.splitlines() if line.startswith("  outside")]
    assert outside.split() == ["outside", "1", "of", "2", "3", "–", "–", "–", "forgotten"]
    assert "today: the share of marks held now" in shown
    assert "Next lesson" not in shown


def test_several_learners_stand_side_by_side() -> None:
    other = replace(REPORT, learner="zoe", held=None, on_the_day=None, lesson=())
    rows = write(document([REPORT, other], Wanted()), 80).splitlines()
    assert rows[3].split("  ")[1] == "mo1"
    assert "58 %" in rows[3]
    assert "zoe" in rows[5] or "zoe" in rows[4]
    assert any("nothing stands out" in row for row in rows)
