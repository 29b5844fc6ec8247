"""`drill deck`: what a teacher is told while writing and checking a topic deck."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from drill.app.dates import date_of
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
    typed = ["Spring", "higher", "Higher combined", "05/06/2027", "18/05/2027",
             "magnesium sulfate", "salts, Acid and alkali titration", "many", "15"]  # fmt: skip
    result = drill("deck", "new", typed=typed)
    assert result.exit_code == 0, result.output
    said = " ".join(result.output.split())
    assert "That is no course. Type combined foundation" in said
    assert "That could be 6 May or 5 June. Write 2027-05-06 or 2027-06-05." in said
    assert 'There is no practical "magnesium sulfate". There are: salts (Making' in said
    assert "Type whole minutes, from 1 to 240." in said
    deck = read_deck(here / "spring.toml")
    assert isinstance(deck, Deck)
    assert (deck.course, deck.papers[0].exam, deck.minutes_a_day) == (
        "combined higher",
        "2027-05-18",
        15,
    )
    assert [topic.practical for topic in deck.topics] == ["salts", "titration"]


def test_a_file_that_exists_is_said_at_the_title_and_left_as_it_is(here: Path) -> None:
    (here / "spring.toml").write_text("mine", encoding="utf-8")
    result = drill("deck", "new", typed=["Spring", "Summer", "", "", "", ""])
    assert "spring.toml exists already. Another title, please" in " ".join(result.output.split())
    assert (here / "spring.toml").read_text(encoding="utf-8") == "mine"
    assert (here / "summer.toml").is_file()
    assert drill("deck", "new", "--out", "spring.toml").output == ""


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
    drill("deck", "new", "--title", "Spring", typed=["", "", "", ""])
    text = (here / "spring.toml").read_text(encoding="utf-8")
    assert '# [own]\n# templates = "own"\n' in text
    own = here / "own" / "salts"
    own.mkdir(parents=True)
    (own / "mine.toml").write_text(new_template("calculation"), encoding="utf-8")
    only = text.replace("# [own]", "[own]").replace("# templates", "templates")
    only = only.replace('practical = "salts"', 'practical = "salts"\nwithout = ["salts/*"]')
    (here / "spring.toml").write_text(only, encoding="utf-8")
    assert [row["state"] for row in checked("spring.toml")["own"]] == ["asked"]


@pytest.mark.parametrize(
    "typed",
    ["2027-05-18", "18/05/2027", "18.5.2027", "18 May 2027", "18th may 2027", "May 18, 2027",
     " 18  Sept 2027", "05/18/2027", "18-05-2027"],
)  # fmt: skip
def test_a_date_that_can_mean_one_day_is_taken(typed: str) -> None:
    assert date_of(typed) == date(2027, 9 if "Sept" in typed else 5, 18)


@pytest.mark.parametrize(
    "typed", ["", "18 May", "31/02/2027", "18 Ma 2027", "05/06/2027", "18/05/27"]
)
def test_a_date_that_may_mean_another_day_or_none_is_asked_again(typed: str) -> None:
    assert isinstance(date_of(typed), str)


def test_the_same_number_for_day_and_month_means_one_day() -> None:
    assert date_of("5/5/2027") == date(2027, 5, 5)
