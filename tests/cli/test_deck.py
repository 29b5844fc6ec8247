"""`drill deck`: what a teacher is told while writing and checking a topic deck."""

from __future__ import annotations

import json
from pathlib import Path

from drill.bank import new_template
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
