"""`drill deck`: what a teacher is told while writing and checking a topic deck."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from drill.app.context import open_store
from drill.bank import new_template, read_deck
from drill.model import Deck
from tests.common.desk import drill

HEAD = 'format = 1\ntitle = "T"\ncourse = "combined higher"\n'


def deck(folder: Path, text: str) -> str:
    path = folder / "mine.toml"
    path.write_text(HEAD + text, encoding="utf-8")
    return str(path)


def checked(path: str) -> dict[str, list[dict[str, str]]]:
    found = json.loads(drill("deck", "check", path, "--json").output)
    assert isinstance(found, dict)
    return found


def test_a_practical_that_is_not_there_is_named_even_when_another_topic_is_good(
    tmp_path: Path,
) -> None:
    path = deck(
        tmp_path, '[[topic]]\npractical = "salts"\n[[topic]]\npractical = "magnesium sulfate"\n'
    )
    assert drill("deck", "check", path).exit_code == 1
    (problem,) = checked(path)["problems"]
    assert problem["line"] == 7
    assert problem["message"] == 'there is no practical "magnesium sulfate".'
    assert "salts (Making a soluble salt)" in problem["hint"]


def test_the_nearest_practical_is_suggested_by_id_or_title(tmp_path: Path) -> None:
    for typed, meant in (("titrations", "titration"), ("paper chromatography", "chromatography")):
        (problem,) = checked(deck(tmp_path, f'[[topic]]\npractical = "{typed}"\n'))["problems"]
        assert problem["hint"].startswith(f'Did you mean "{meant}"?')


def test_skills_and_papers_that_are_not_there_are_errors_and_without_a_note(
    tmp_path: Path,
) -> None:
    path = deck(
        tmp_path,
        '[[topic]]\npractical = "salts"\nskills = ["nothing.*"]\nwithout = ["slats/*"]\n',
    )
    levels = {one["message"]: (one["line"], one["level"]) for one in checked(path)["problems"]}
    assert levels['no question practises "nothing.*".'] == (6, "error")
    assert levels['without names no question: "slats/*".'] == (7, "note")
    path = deck(tmp_path, '[[topic]]\npractical = "salts"\npaper = "second"\n')
    (problem,) = checked(path)["problems"]
    assert (problem["line"], problem["message"]) == (6, 'there is no paper "second".')


def test_a_note_alone_is_no_failure_and_the_skills_are_shown(tmp_path: Path) -> None:
    path = deck(tmp_path, '[[topic]]\npractical = "salts"\nwithout = ["slats/*"]\n')
    assert drill("deck", "check", path).exit_code == 0
    assert checked(path)["skills"]


def test_own_questions_are_listed_by_name_and_what_has_not_passed_is_said(tmp_path: Path) -> None:
    own = tmp_path / "own" / "salts"
    own.mkdir(parents=True)
    good = new_template("calculation")
    (own / "good.toml").write_text(good, encoding="utf-8")
    (own / "broken.toml").write_text(good.replace("format = 1", "formt = 1"), encoding="utf-8")
    path = deck(tmp_path, '[[topic]]\npractical = "salts"\n[own]\ntemplates = "own"\n')
    result = drill("deck", "check", path)
    assert result.exit_code == 1
    assert "starters too" in result.output
    states = {row["question"].split("/")[-1]: row["state"] for row in checked(path)["own"]}
    assert states == {"good": "asked", "broken": "not asked: has not passed"}


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_each_answer_is_checked_when_it_is_typed_and_asked_again(here: Path) -> None:
    typed = ["Spring", "higher", "Higher combined, separate higher", "31 June", "18/05/2027",
             "10 June 2027", "", "magnesium sulfate",
             "1, Acid and alkali titration, Planning, data and evaluating",
             "25.1.2027", "", "already", "2", "", "third", "2", "many", "15",
             "Ask Room 4"]  # fmt: skip
    result = drill("deck", "new", typed=typed)
    assert result.exit_code == 0, result.output
    said = " ".join(result.output.split())
    assert '"higher" leaves a word out. It could be 2 combined higher or 4 separate' in said
    assert "June has 30 days. Write it as 18 May 2027." in said
    assert "Tuesday 18 May 2027" in said
    assert "Acid and alkali titration has no question for combined higher: not asked there." in said
    assert 'There is no practical "magnesium sulfate". There are: salts (Making' in said
    assert "Type whole minutes, from 1 to 240." in said
    assert "Type 1 or 2; or both." in said
    deck = read_deck(here / "spring.toml")
    assert isinstance(deck, Deck)
    assert deck.courses == ("combined higher", "separate higher")
    assert ([paper.exam for paper in deck.papers], deck.minutes_a_day) == (
        ["2027-05-18", "2027-06-10"],
        15,
    )
    assert [(topic.practical, topic.taught, topic.paper) for topic in deck.topics] == [
        ("salts", "2027-01-25", "first"),
        ("titration", "", "second"),
        ("investigating", "", "second"),
    ]
    assert deck.bench == {"risk_line": "Ask Room 4"}


def test_a_practical_with_nothing_for_the_course_is_refused_when_it_is_typed(here: Path) -> None:
    typed = ["Spring", "combined foundation", "", "titration", "salts", "", "", "", "", "", "", ""]
    result = drill("deck", "new", typed=typed)
    assert "No question for combined foundation in: Acid and alkali titration." in " ".join(
        result.output.split()
    )
    assert checked("spring.toml")["problems"] == []
    assert drill("deck", "check", "spring.toml").exit_code == 0
    options = ("--course", "combined foundation", "--exam", "none", "--practicals", "titration")
    refused = drill("deck", "new", "--title", "Two", "--minutes", "9", *options)
    assert (refused.exit_code, (here / "two.toml").exists()) == (1, False)
    assert "No question for combined foundation in: Acid and alkali titration." in str(
        refused.exception
    )


@pytest.mark.parametrize("command", [("sit",), ("plan",), ("deck", "try")])
def test_a_deck_is_checked_before_it_is_opened(tmp_path: Path, command: tuple[str, ...]) -> None:
    drill("learner", "new", "k7")
    for topic, says in (
        ('practical = "slats"', 'there is no practical "slats". Did you mean "salts"?'),
        ('practical = "titration"', '"titration" has no question for combined foundation.'),
        ('practical = "salts"\nwithout = ["salts/*"]', '"salts" has no question for'),
    ):
        text = f'[[topic]]\npractical = "safety"\n[[topic]]\n{topic}\n'
        path = deck(tmp_path, text)
        Path(path).write_text(
            Path(path).read_text("utf-8").replace("combined higher", "combined foundation"), "utf-8"
        )
        result = drill(*command, path, typed=["stop"])
        assert result.exit_code == 1
        assert f"mine.toml:{6 if 'slats' not in topic else 7}: {says}" in str(result.exception)


def test_a_course_that_is_left_with_nothing_is_named(tmp_path: Path) -> None:
    path = tmp_path / "mixed.toml"
    path.write_text(
        'format = 1\ntitle = "T"\ncourse = ["combined foundation", "separate higher"]\n'
        '[[topic]]\npractical = "titration"\n',
        encoding="utf-8",
    )
    (problem,) = (one for one in checked(str(path))["problems"] if one["level"] == "error")
    assert problem["message"] == "the deck asks no question for combined foundation."
    assert problem["line"] == 3


def test_each_pupil_of_a_mixed_class_says_once_which_course_is_theirs(tmp_path: Path) -> None:
    path = tmp_path / "mixed.toml"
    path.write_text(
        'format = 1\ntitle = "T"\ncourse = ["combined foundation", "separate higher"]\n'
        '[[topic]]\npractical = "salts"\n',
        encoding="utf-8",
    )
    typed = ["science", "3", "CH", "SF and SH", "triple", "stop"]
    first = drill("sit", str(path), "--learner", "k7", typed=typed)
    assert "1  combined foundation" in first.output
    said = " ".join(first.output.split())
    assert '"3" is no course. There are: 1 combined foundation, 2 separate higher.' in said
    assert "Nothing here is for combined higher. There are: 1 combined" in said
    assert "That is 2 courses" in said
    assert "Course: separate higher." in first.output
    assert "combined foundation" not in drill("sit", "--learner", "k7", typed=["stop"]).output


def test_trying_a_deck_stores_nothing(tmp_path: Path) -> None:
    result = drill("deck", "try", "first-steps", "--seed", "1", typed=["pass", "stop"])
    assert result.exit_code == 0, result.output
    assert "nothing of this is stored" in result.output
    assert "[1 mark]" in result.output
    with open_store() as store:
        assert store.learners() == ()


def test_the_deck_of_last_time_is_kept_by_its_whole_path_and_no_other_opens(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (here / "a").mkdir()
    (here / "b").mkdir()
    for folder, title in (("a", "Mine"), ("b", "Another")):
        deck(here / folder, '[[topic]]\npractical = "salts"\n')
        file = here / folder / "mine.toml"
        file.write_text(file.read_text("utf-8").replace('"T"', f'"{title}"'), "utf-8")
    monkeypatch.chdir(here / "a")
    assert "Mine" in drill("sit", "mine.toml", "--learner", "k7", typed=["stop"]).output
    monkeypatch.chdir(here / "b")
    assert "Mine" in drill("sit", typed=["stop"]).output
    (here / "a" / "mine.toml").unlink()
    gone = drill("sit", typed=["stop"])
    assert gone.exit_code == 1
    assert "k7 used it last" in str(gone.exception)


def test_a_deck_changed_in_mid_year_keeps_what_was_done(here: Path) -> None:
    path = deck(here, '[[topic]]\npractical = "salts"\n')
    drill("sit", path, "--learner", "k7", "--seed", "1", typed=["pass", "stop"])
    with open_store(reading=True) as store:
        (who,) = store.learners()
        before = store.askings(who)
    text = Path(path).read_text("utf-8").replace("salts", "safety")
    Path(path).write_text(text, encoding="utf-8")
    drill("sit", typed=["pass", "stop"])
    with open_store(reading=True) as store:
        after = store.askings(who)
    assert before
    assert after[: len(before)] == before
    assert len(after) > len(before)


def test_a_file_that_exists_is_said_at_the_title_and_left_as_it_is(here: Path) -> None:
    (here / "spring.toml").write_text("mine", encoding="utf-8")
    result = drill("deck", "new", typed=["Spring", "Summer", *[""] * 11])
    assert "spring.toml exists already. Another title, please" in " ".join(result.output.split())
    assert (here / "spring.toml").read_text(encoding="utf-8") == "mine"
    assert (here / "summer.toml").is_file()
    assert drill("deck", "new", "--out", "spring.toml").output == ""


def test_back_goes_back_one_question_and_shows_nothing_twice(here: Path) -> None:
    first = ["back", "Spring", "combined higher", "back", "separate higher", "none", "salts"]
    typed = [*first, "back", "titration", "", "12", "back", "15", ""]
    result = drill("deck", "new", typed=typed)
    assert result.exit_code == 0, result.output
    assert "This is the first question." in result.output
    assert result.output.count("Title, as pupils see it") == 2
    deck = read_deck(here / "spring.toml")
    assert isinstance(deck, Deck)
    assert (deck.courses, deck.minutes_a_day, deck.bench) == (("separate higher",), 15, {})
    assert [topic.practical for topic in deck.topics] == ["titration"]


MIXED = (
    'format = 1\ntitle = "T"\ncourse = ["combined foundation", "separate higher"]\n'
    '[[topic]]\npractical = "salts"\n[[topic]]\npractical = "titration"\n'
)


def test_a_practical_with_nothing_for_one_of_the_courses_is_named_everywhere(here: Path) -> None:
    (here / "mixed.toml").write_text(MIXED, encoding="utf-8")
    (note,) = checked("mixed.toml")["problems"]
    assert (note["level"], note["line"]) == ("note", 6)
    assert note["message"] == '"titration" has no question for combined foundation.'
    assert drill("deck", "check", "mixed.toml").exit_code == 0

    def said(*command: str, typed: tuple[str, ...] = ()) -> str:
        return " ".join(drill(*command, typed=list(typed)).output.split())

    sit, lacks = (
        ("sit", "mixed.toml", "--learner"),
        "nothing on it for your course: Acid and alkali",
    )
    assert lacks in said(*sit, "k1", typed=("1", "stop"))
    assert lacks not in said(*sit, "k1", typed=("stop",))  # once is enough
    assert lacks not in said(*sit, "k2", typed=("2", "stop"))
    assert lacks in said("deck", "try", "mixed.toml", typed=("1", "stop"))
    assert lacks in said("plan", "--learner", "k1")
    assert lacks not in said("plan", "--learner", "k2")
    course = ("--course", "combined foundation")
    told = "Acid and alkali titration has no question for combined foundation"
    assert told in said("paper", "make", "mixed.toml", "--format", "text", *course)
    assert told in said("board", "mixed.toml", *course)
    assert told not in said("board", "mixed.toml", "--course", "separate higher")


def test_breaking_off_leaves_nothing_behind(here: Path) -> None:
    result = drill("deck", "new", typed=["Spring", "", ""])
    assert result.exit_code == 130
    assert "Nothing was written." in result.output
    assert list(here.glob("*.toml")) == []


def test_an_option_that_cannot_be_used_is_said_before_anything_is_asked(here: Path) -> None:
    result = drill("deck", "new", "--practicals", "slats", typed=["Spring", "", "", "", ""])
    assert result.exit_code == 1
    assert result.output == ""
    assert '--practicals "slats": There is no practical "slats". Did you mean "salts"?' in str(
        result.exception
    )


def test_a_new_deck_explains_own_questions(here: Path) -> None:
    drill("deck", "new", "--title", "Spring", typed=[""] * 11)
    text = (here / "spring.toml").read_text(encoding="utf-8")
    assert '# [own]\n# templates = "own"\n' in text
    own = here / "own" / "salts"
    own.mkdir(parents=True)
    (own / "mine.toml").write_text(new_template("calculation"), encoding="utf-8")
    only = text.replace("# [own]", "[own]").replace("# templates", "templates")
    only = only.replace('practical = "salts"', 'practical = "salts"\nwithout = ["salts/*"]')
    (here / "spring.toml").write_text(only, encoding="utf-8")
    assert [row["state"] for row in checked("spring.toml")["own"]] == ["asked"]


def test_a_date_in_the_past_is_noted_when_a_deck_is_made_and_handed_out(here: Path) -> None:
    options = ("--course", "combined higher", "--practicals", "salts", "--minutes", "9")
    made = drill("deck", "new", "--title", "Old", "--exam", "3.11.25", *options).output
    assert "Exam: Monday 3 November 2025" in made
    assert "Note: the exam of first was on 2025-11-03: it is over." in made
    assert "Note: the exam" in drill("deck", "handout", "old.toml").output


def test_problems_are_the_last_lines_of_a_check(here: Path) -> None:
    path = deck(here, '[[topic]]\npractical = "salts"\nwithout = ["slats/*"]\n')
    short, whole = drill("deck", "check", path), drill("deck", "check", path, "--skills")
    for said in (short.output, whole.output):
        assert "without names no question" in said.strip().rpartition("\n\n")[2]
    assert len(short.output.splitlines()) < 12 < len(whole.output.splitlines())


def test_the_schools_own_line_stands_under_a_safety_notice(here: Path) -> None:
    text = '[[topic]]\npractical = "safety"\n[bench]\nrisk_line = "Ask in Room 4."\n'
    said = drill("deck", "try", deck(here, text), "--seed", "1", typed=["pass", "", "stop"]).output
    assert "Safety: " in said
    assert "Ask in Room 4." in said.partition("Safety: ")[2]
