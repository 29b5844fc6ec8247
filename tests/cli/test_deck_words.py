"""Practicals, courses, papers and dates are read as teachers write them."""

from __future__ import annotations

from datetime import date

import pytest

from drill.app.topics.courses import course_of, courses_of
from drill.app.topics.deck_answers import Wrong, paper_of, practicals_of
from drill.model import COURSES
from drill.typed.dates import date_of
from tests.common.shipped import shipped_bank

TITLES = {id_: one.title for id_, one in shipped_bank().practicals().items()}


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("making salts and titration", ["salts", "titration"]),
     ("1 3 4", ["salts", "safety", "titration"]),
     ("salts; titration & rates", ["salts", "titration", "rates"]),
     ("temperature changes and rates by the disappearing cross", ["energy", "cross"]),
     ("Planning, data and evaluating and Titration", ["investigating", "titration"]),
     ("the titration practical", ["titration"]), ("all", list(TITLES))],
)  # fmt: skip
def test_practicals_are_read_as_people_list_them(typed: str, meant: list[str]) -> None:
    assert practicals_of(typed, TITLES) == meant


@pytest.mark.parametrize("typed", ["testing", "slats", "salts and nothing", " , ", "15"])
def test_a_practical_in_doubt_is_asked_again(typed: str) -> None:
    assert isinstance(practicals_of(typed, TITLES), Wrong)


def test_courses_are_read_as_people_say_them() -> None:
    both = ("combined higher", "separate higher")
    for typed in ("combined higher and separate higher", "combined and separate higher", "2, 4",
                  "Higher combined / triple higher", "combined higher; separate science higher",
                  ):  # fmt: skip
        assert courses_of(typed) == both, typed
    assert courses_of("combined foundation and higher") == COURSES[:2]
    assert courses_of("all") == COURSES
    for typed in ("higher", "combined", "combined higher and separate", "", "year 11"):
        assert isinstance(courses_of(typed), Wrong), typed


@pytest.mark.parametrize(
    "typed",
    ["combined and separate, foundation and higher", "foundation and higher, combined and separate",
     "combined and separate foundation and higher", "double & triple; both foundation/higher",
     "combined foundation and higher, separate foundation and higher", "1 2 3 4", "1, 2, 3 and 4"],
)  # fmt: skip
def test_awards_and_tiers_that_are_crossed_are_all_four(typed: str) -> None:
    assert courses_of(typed) == COURSES


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("CH", 1), ("ch.", 1), ("c/h", 1), ("h c", 1), ("Higher combined", 1), ("2", 1),
     ("sep found", 2), ("separate, foundation", 2), ("Triple Science: Higher Tier", 3), ("TH", 3),
     ("4.", 3),
     ("I do double-award (foundation), please", 0), ("number 1", 0)],
)  # fmt: skip
def test_one_course_is_read_however_it_is_typed(typed: str, meant: int) -> None:
    assert course_of(typed) == COURSES[meant]


def test_short_forms_stand_side_by_side() -> None:
    for typed in ("CF CH", "cf/ch", "CF & combined higher", "ch; fc"):
        found = courses_of(typed)
        assert isinstance(found, tuple)
        assert {*found} == {*COURSES[:2]}, typed


def test_numbers_and_words_left_out_go_by_the_list_on_the_screen() -> None:
    listed = (COURSES[0], COURSES[3])
    for typed in ("2", "higher", "triple", "separate"):
        assert course_of(typed, listed) == COURSES[3], typed
    assert course_of("CH", listed) == COURSES[1]
    for typed in ("3", "tier", "", "all", "combined, separate"):
        assert isinstance(course_of(typed, listed), Wrong), typed


@pytest.mark.parametrize(
    ("typed", "says"),
    [("seperate higer", "is no course. Did you mean separate higher? There are: 1 combined found"),
     ("year 11", '"year 11" is no course. There are: 1 combined foundation, 2 combined higher, 3'),
     ("higher", '"higher" leaves a word out. It could be 2 combined higher or 4 separate higher.'),
     ("CF and SF", "That is 2 courses: combined foundation, separate foundation. Name one"),
     (" ", "Name a course. There are: 1 combined"), ("1-4", '"1-4" is no course'),
     ("c,h," * 2000, "is no course")],
)  # fmt: skip
def test_what_is_no_course_is_told(typed: str, says: str) -> None:
    found = course_of(typed)
    assert isinstance(found, Wrong)
    assert says in found.says


def test_a_course_that_could_be_one_or_another_is_asked_again() -> None:
    for typed in ("combined foundation and separate foundation and higher",
                  "foundation and combined and higher", "foundation, higher",
                  "higher combined and separate", "separate, combined"):  # fmt: skip
        assert isinstance(courses_of(typed), Wrong), typed


def test_of_several_papers_the_earliest_is_meant() -> None:
    papers = ["2027-06-10", "2027-05-18", "2027-06-20"]
    for typed, meant in (("2", 2), ("paper 3", 3), ("all", 2), ("1 and 3", 1), ("1, 2", 2)):
        assert paper_of(typed, papers) == meant, typed
    assert paper_of("both", papers[1:]) == 1
    for typed in ("0", "4", "", "first", "1 and 4"):
        assert isinstance(paper_of(typed, papers), Wrong), typed


@pytest.mark.parametrize(
    "typed",
    ["2027-05-18", "18/05/2027", "18.5.2027", "18 May 2027", "18th may 2027", "May 18, 2027",
     " 18  Sept 2027", "05/18/2027", "18-05-2027"],
)  # fmt: skip
def test_a_date_that_can_mean_one_day_is_taken(typed: str) -> None:
    assert date_of(typed) == date(2027, 9 if "Sept" in typed else 5, 18)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("11 June 27", "2027-06-11"), ("18/05/27", "2027-05-18"), ("Mon 23 Nov 2026", "2026-11-23"),
     ("18-May-27", "2027-05-18"), ("11th of June 2027", "2027-06-11")],
)  # fmt: skip
def test_a_year_of_two_figures_and_a_day_of_the_week_are_read(typed: str, meant: str) -> None:
    assert str(date_of(typed)) == meant


@pytest.mark.parametrize(
    ("typed", "taught", "exam"),
    [("23/11", "2026-11-23", "2027-11-23"), ("11 June", "2027-06-11", "2027-06-11"),
     ("1 sept", "2026-09-01", "2027-09-01"), ("31 August", "2027-08-31", "2027-08-31"),
     ("today", "2026-12-01", "2026-12-01")],
)  # fmt: skip
def test_without_a_year_this_school_year_is_meant_and_of_an_exam_what_is_to_come(
    typed: str, taught: str, exam: str
) -> None:
    today = date(2026, 12, 1)
    assert (str(date_of(typed, today)), str(date_of(typed, today, True))) == (taught, exam)


def test_what_a_refusal_tells_to_write_is_taken() -> None:
    for typed in ("nonsense", "27-05-18", "31/6/27", "18 May", "Tue 23 Nov 2026"):
        said = date_of(typed)
        assert isinstance(said, str)
        for form in said.partition("Write ")[2].removeprefix("it as ").rstrip(".").split(" or "):
            assert isinstance(date_of(form), date), form


@pytest.mark.parametrize(
    "typed", ["", "18 May", "31/02/2027", "18 Ma 2027", "27-05-18", "Tue 23 Nov 2026"]
)
def test_a_date_that_may_mean_another_day_or_none_is_asked_again(typed: str) -> None:
    assert isinstance(date_of(typed), str)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("11/6/27", "2027-06-11"), ("3.11.26", "2026-11-03"), ("05/06/2027", "2027-06-05"),
     ("1 2 2027", "2027-02-01"), ("6/5", "2027-05-06")],
)  # fmt: skip
def test_of_figures_the_day_stands_first(typed: str, meant: str) -> None:
    assert str(date_of(typed, date(2026, 12, 1))) == meant


@pytest.mark.parametrize(
    ("typed", "says"),
    [("31 June", "June has 30 days."), ("31/6/27", "June has 30 days."),
     ("29 Feb 2027", "February 2027 has 28 days."), ("2027-02-30", "February 2027 has 28 days.")],
)  # fmt: skip
def test_a_day_that_its_month_does_not_have_is_told(typed: str, says: str) -> None:
    assert str(date_of(typed)).startswith(says)


def test_the_same_number_for_day_and_month_means_one_day() -> None:
    assert date_of("5/5/2027") == date(2027, 5, 5)
