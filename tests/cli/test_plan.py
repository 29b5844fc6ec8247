"""`drill plan` on one screen: two figures by their names, the coming days, no figure too early."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from datetime import datetime
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.app.plan import MinutesRow
from drill.cli import plan
from drill.places import demo_decks_dir
from drill.planning.figures import Share
from drill.store import Store
from tests.common.desk import drill
from tests.common.history import only_question, spend_two_minutes
from tests.common.learners import practise, typing
from tests.common.scenes import planned
from tests.store.making import in_haste

AT = ("--at", "2027-01-12T17:00")
LATER = ("--at", "2027-01-12T18:00")
Practised = Callable[..., Path]
DECK = demo_decks_dir() / "first-steps.toml"


@pytest.fixture(scope="module")
def practised(tmp_path_factory: pytest.TempPathFactory) -> Practised:
    """(answers, share right) to the store of a learner who answered so many, eight a day."""

    @cache
    def made(answers: int, right: float = 0.6) -> Path:
        file = tmp_path_factory.mktemp("practised") / "drill.db"
        with in_haste(Store.open(file)) as store:
            start = datetime.fromisoformat("2027-01-12T17:00:00+00:00")
            who = store.new_learner("ada", start)
            practise(store, who, typing(right), start, days=-(-answers // 8), deck=DECK)
        return file

    return made


def practised_to(made: Path, home: Path) -> tuple[str, str]:
    """Puts the store into the data folder; the option for the day after its last answer."""
    home.mkdir(exist_ok=True)
    shutil.copy(made, home)
    return ("--at", "2027-01-19T17:00")


def test_before_the_first_sitting_a_plan_can_be_set() -> None:
    shown = drill("plan", "--exam", "2027-05-18", *AT, typed=["ada"])
    assert shown.exit_code == 0, shown.output
    assert "exam 2027-05-18: 126 days left" in shown.output
    assert "So far: 0 of 0 marks, 0 of " in shown.output
    assert "%" not in shown.output
    assert json.loads(drill("plan", "--json", *AT).output)["exam"] == "2027-05-18"
    assert [row["code"] for row in json.loads(drill("learner", "list", "--json").output)] == ["ada"]


def test_a_code_given_is_not_asked_for() -> None:
    shown = drill("plan", "--minutes", "20", "--learner", "bo", *AT)
    assert shown.exit_code == 0, shown.output
    assert "Planned: 20 minutes a day; course: separate higher." in shown.output


@pytest.mark.parametrize(
    ("answers", "held", "day"), [(8, False, False), (24, True, False), (48, True, True)]
)
def test_each_figure_waits_for_its_answers(
    home: Path, practised: Practised, answers: int, held: bool, day: bool
) -> None:
    at = practised_to(practised(answers), home)
    found = json.loads(drill("plan", "--json", *at).output)
    assert (found["held"] is not None, found["on_the_day"] is not None) == (held, day)
    shown = drill("plan", *at).output
    assert ("Held today: " in shown, "if you keep to the plan: " in shown) == (held, day)
    assert (f"So far: {found['marks']} of {found['of']} marks" in shown) is not held
    assert ("%" in shown) is held
    for plain in ((), ("--plain",)):
        lines = (drill("plan", *plain, *at).output if plain else shown).splitlines()
        assert len(lines) <= 24
        assert max(map(len, lines)) <= 80
    if day:
        by_minutes = [row["on_the_day"] for row in found["by_minutes"]]
        assert by_minutes == sorted(by_minutes)
        assert not by_minutes or by_minutes[-1] - by_minutes[0] >= 0.02


def test_the_coming_days_name_their_topics(home: Path) -> None:
    drill("learner", "new", "ada", *AT)
    days = json.loads(drill("plan", *AT, "--json").output)["days"]
    assert all(1 <= len(day["topics"]) <= 3 for day in days)
    assert "making salts" in days[0]["topics"]
    shown = drill("plan", *AT).output
    assert f"10 min    {', '.join(days[0]['topics'])}" in shown


def test_today_has_no_minutes_when_nothing_is_worth_asking(home: Path) -> None:
    deck = only_question(home, "measure/mass-by-difference")
    drill("sit", deck, *AT, typed=["ada", *["", "pass", "pass"] * 3])
    today, tomorrow, *_ = json.loads(drill("plan", *LATER, "--json").output)["days"]
    assert (today["practice"], today["minutes"], today["topics"]) == (False, 0, [])
    assert tomorrow["practice"]
    assert tomorrow["minutes"] == 12


def test_minutes_spent_are_taken_off_today() -> None:
    drill("sit", *AT, "--questions", "2", typed=["ada", *["pass", ""] * 12])
    spend_two_minutes()
    today, tomorrow, *_ = json.loads(drill("plan", *LATER, "--json").output)["days"]
    assert tomorrow["minutes"] == 10
    assert today["minutes"] == 8
    assert "8 min more" in drill("plan", *LATER).output


def test_a_first_sitting_ends_with_marks_and_skills_and_no_percentage() -> None:
    said = drill("sit", *AT, "--questions", "3", typed=["ada", *["pass", ""] * 40]).output
    said = " ".join(said.split())
    assert "Met for the first time: " in said
    assert "Held better" not in said
    assert "So far: 0 of " in said
    assert "%" not in said.partition("So far")[2]


def test_a_later_sitting_ends_with_the_figures_of_the_plan(
    home: Path, practised: Practised
) -> None:
    at = practised_to(practised(48), home)
    said = drill("sit", *at, "--questions", "1", typed=["pass", "", *["pass", ""] * 8]).output
    shown = drill("plan", *at).output
    ends = [line for line in said.splitlines() if line.startswith(("Held today", "On the day"))]
    planned = [line for line in shown.splitlines() if line.startswith(("Held today", "On the day"))]
    assert ends
    assert ends == planned


def test_planned_sittings_go_into_a_calendar(tmp_path: Path) -> None:
    from icalendar import Calendar

    drill("plan", "--exam", "2027-05-18", "--learner", "ada", *AT)
    file = tmp_path / "sittings.ics"
    assert "is ready" in drill("plan", "--calendar", str(file), *AT).output
    days = json.loads(drill("plan", "--json", *AT).output)["days"]
    read = Calendar.from_ical(file.read_bytes())
    events = {str(one["uid"]): one for one in read.walk("VEVENT")}
    planned = [day for day in days if day["practice"]]
    assert len(events) == len(planned) + 1
    for day in planned:
        event = events[f"ada-first-steps-sitting-{day['day']}@drill"]
        assert event["dtstart"].dt.isoformat() == day["day"]
        assert str(event["summary"]) == f"Practice, {day['minutes']} min"
        assert day["topics"][0] in str(event["description"])
    assert events["ada-first-steps-exam-2027-05-18@drill"]["summary"] == "Exam"


def test_the_course_is_changed_later_in_words(home: Path) -> None:
    drill("learner", "new", "ada", *AT)
    assert "course: separate foundation." in drill("plan", "--course", "sep found", *AT).output
    assert json.loads(drill("plan", "--json", *AT).output)["course"] == "separate foundation"
    drill("sit", *AT, "--questions", "1", typed=["pass", "pass", "pass", ""])
    for wrong, says in (("higher", "It could be 2 combined higher or 4 separate higher."),
                        ("astronomy", "is no course. There are: 1 combined foundation"),
                        (" ", "Name a course."), ("CH and SH", "That is 2 courses")):  # fmt: skip
        ended = drill("plan", "--course", wrong, *AT)
        assert ended.exit_code == 1
        assert says in str(ended.exception)
    assert "course: separate foundation." in drill("plan", *AT).output
    assert "course: separate higher." in drill("plan", "--course", "none", *AT).output


def test_a_deck_for_one_course_keeps_it(home: Path) -> None:
    drill("learner", "new", "ada", *AT)
    deck = only_question(home, "measure/mass-by-difference")
    ended = drill("plan", deck, "--course", "combined higher", *AT)
    assert "another course needs another deck" in str(ended.exception)


@settings(max_examples=300, deadline=None)
@given(
    yours=st.floats(0, 1),
    less=st.floats(0, 1),
    more=st.floats(0, 1),
    minutes=st.sampled_from([5.0, 12.0, 30.0]),
)
def test_ten_minutes_more_never_read_as_useless(
    yours: float, less: float, more: float, minutes: float
) -> None:
    """Whatever is forecast, the figure for more minutes is higher as shown, or is told in words."""
    shares = (yours * less, yours, yours + (1 - yours) * more)
    rows = tuple(map(MinutesRow, (minutes - 10, minutes, minutes + 10), shares))
    said = plan._other_minutes(
        planned(minutes_a_day=minutes, on_the_day=Share(yours, yours, yours),
                by_minutes=tuple(row for row in rows if row.minutes_a_day > 0))
    )  # fmt: skip
    told = re.search(rf"(\d+) % with {minutes + 10:g}\.", said)
    assert int(told[1]) > round(100 * yours) if told else "as much or more with" in said


@pytest.mark.parametrize(("share", "answers", "minutes"), [(0.2, 40, "4"), (0.98, 40, "12")])
def test_nor_for_learners_of_many_kinds(
    home: Path, practised: Practised, share: float, answers: int, minutes: str
) -> None:
    at = practised_to(practised(answers, share), home)
    found = json.loads(drill("plan", "--minutes", minutes, "--json", *at).output)
    said = " ".join(drill("plan", *at).output.split())
    told = re.search(rf"(\d+) % with {int(minutes) + 10}\.", said)
    yours = round(100 * found["on_the_day"]["share"])
    waits = "by how much they help you, more answers will tell" in said
    assert waits or (int(told[1]) > yours if told else "as much or more with" in said)
