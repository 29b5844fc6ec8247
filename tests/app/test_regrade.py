"""Marking again: a school's own questions are covered, a name that means nothing is told."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drill.app.context import find_deck, open_bank, open_bank_of_all, open_store
from drill.bank import new_deck, new_template
from drill.generate import generate
from drill.model import Mark, PointMark, Question
from drill.store import NewAsking
from tests.common.desk import drill

NOW = datetime(2027, 1, 12, 17, tzinfo=UTC)


def own_answer(folder: Path, home: Path) -> str:
    """An answer to a school's own question, marked 0 although it earns 1; returns the deck."""
    deck = folder / "ours.toml"
    text = new_deck("Ours", "ours", ["combined higher"], 12, topics=[("salts", "", 1)])
    deck.write_text(f'{text}\n[own]\ntemplates = "own/"\n', encoding="utf-8")
    question = folder / "own" / "salts" / "mine.toml"
    question.parent.mkdir(parents=True)
    question.write_text(new_template("choice"), encoding="utf-8")
    home.mkdir(exist_ok=True)
    with open_store() as store:
        who = store.new_learner("ada", NOW)
        template = open_bank(find_deck(str(deck))).template("own/ours/salts/mine")
        assert not isinstance(template, tuple)
        made = generate(template, 3)
        assert isinstance(made, Question)
        store.keep_template(template.version, template.id, template.text, [], {})
        sitting = store.start_sitting(who, "ours", NOW, {})
        asked = store.ask(
            NewAsking(sitting, who, template.version, template.id, 3, "x", False), NOW
        )
        right = next(option.letter for option in made.parts[0].key.options if option.right)
        answer = store.answer(asked, "a", right, "answer", None, 20.0, NOW)
        store.verdict(
            answer, "engine", "1+old", Mark(0, 1, (PointMark("value", 0, 1),), "", None), NOW
        )
    # the scheme is changed afterwards, the question reads the same
    question.write_text(question.read_text("utf-8") + "\n# looked over\n", encoding="utf-8")
    return str(deck)


@pytest.mark.parametrize("known_by", ["option", "setting"])
def test_a_school_s_own_questions_are_marked_again(
    tmp_path: Path, home: Path, known_by: str
) -> None:
    deck = own_answer(tmp_path, home)
    if known_by == "setting":
        with open_store() as store:
            store.set_setting(store.learners()[0], "deck", deck, NOW)
            assert open_bank_of_all(store).entry("own/ours/salts/mine")
    named = ("--deck", deck) if known_by == "option" else ()
    found = json.loads(drill("regrade", "own/ours/salts/mine", *named, "--json").output)
    assert found["looked_at"] == 1
    assert [(row["old"], row["new"]) for row in found["changes"]] == [(0, 1)]


def test_a_question_nobody_has_is_told_with_the_nearest(home: Path) -> None:
    result = drill("regrade", "why-excess")
    assert result.exit_code == 1
    assert str(result.exception) == 'no template "why-excess". Did you mean "salts/why-excess"?'
    assert "no template" in str(drill("regrade", "qqqq", "--yes").exception)
