"""What was asked, typed and right of every part; an option is told by its words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from drill.app.papers.reading_height import ABOVE
from drill.app.weakness.mistakes import common_mistakes
from drill.app.weakness.part_answers import part_answers
from drill.generate import generate
from drill.marking import mark
from drill.model import ChoiceKey, Question
from drill.store import Learner, NewAsking, Store
from tests.common.shipped import shipped_bank
from tests.store.making import in_haste

NOW = datetime.fromisoformat("2027-02-01T17:00:00+00:00")
BANK = shipped_bank()
CHOICE = "safety/read-the-label"


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with in_haste(Store.open(tmp_path / "drill.sqlite")) as found:
        yield found


def put(
    store: Store, who: Learner, seed: int, typed: str, when: datetime, id: str = CHOICE
) -> Question:
    """One question with its first part answered; `typed` "wrong" takes the first wrong option."""
    template = BANK.template(id)
    assert not isinstance(template, tuple)
    question = generate(template, seed)
    assert isinstance(question, Question)
    store.keep_template(template.version, template.id, template.text, [], {})
    begun = store.start_sitting(who, "d", when, {})
    asking = store.ask(
        NewAsking(begun, who, template.version, template.id, seed, template.skills[0], False), when
    )
    part = question.parts[0]
    key, text = part.key, typed
    if typed == "wrong":
        assert isinstance(key, ChoiceKey)
        text = next(option.letter for option in key.options if not option.right)
    answer = store.answer(asking, part.id, text, "answer", "certain", 20.0, when)
    store.verdict(answer, "engine", "1", mark(part, text), when)
    store.end_sitting(begun, when, "done")
    return question


def test_options_are_told_by_their_words_and_never_by_a_letter(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    questions = [put(store, who, seed, "wrong", NOW + timedelta(days=seed)) for seed in range(6)]
    rows = part_answers(store, BANK, who)
    assert len(rows) == 6
    for row, question in zip(rows, questions, strict=True):
        key = question.parts[0].key
        assert isinstance(key, ChoiceKey)
        wrong = next(option.text for option in key.options if not option.right)
        assert row.typed == wrong
        assert row.mistake == f"“{wrong}”"
        assert row.mistake in row.could
        assert row.right in {option.text for option in key.options if option.right}
        assert row.sure == "certain"
    for found in common_mistakes(rows):
        assert found.times <= found.chances
        offered = sum(found.mistake in row.could for row in rows)
        assert found.chances == offered


def test_a_question_said_to_be_faulty_says_nothing(store: Store) -> None:
    who = store.new_learner("K7", NOW)
    put(store, who, 1, "wrong", NOW)
    (asking,) = store.askings(who)
    store.faulty(asking.id, "no", NOW)
    assert part_answers(store, BANK, who) == []


@pytest.mark.parametrize(("template", "told"), [("read-cylinder", True), ("eye-too-high", False)])
def test_a_scale_shown_from_a_wrong_height_tells_nothing_of_the_learners_own(
    store: Store, template: str, told: bool
) -> None:
    who = store.new_learner("K7", NOW)
    put(store, who, 3, "0.37", NOW, f"measure/{template}")
    (row,) = part_answers(store, BANK, who)
    assert (ABOVE in row.could) == told
