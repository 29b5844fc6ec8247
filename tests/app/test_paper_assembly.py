"""A paper put together: its marks, its balance, its versions, and what it must not give away."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime
from fractions import Fraction
from functools import cache

import pytest

from drill.app.context import find_deck, open_bank
from drill.app.papers.assembly import Assembled, PaperWish, assemble, assemble_versions
from drill.app.papers.balance import dealt
from drill.app.papers.given_away import Printed, answered_by
from drill.bank import Bank
from drill.errors import DrillError
from drill.frozen import replace
from drill.generate import generate
from drill.model import Deck, Part, Question, Template, Topic
from tests.common.shipped import shipped_bank

NOW = datetime(2027, 7, 1, 12, tzinfo=UTC)
DECKS = ("first-steps", "spring-practicals", "catch-up")


@cache
def bank() -> Bank:
    return shipped_bank()


@cache
def paper(deck: str, marks: int, seed: int) -> Assembled:
    return assemble(open_bank(), find_deck(deck), PaperWish(marks, seed), NOW)


def one_topic(practical: str = "", *, skills: tuple[str, ...] = (), **values: object) -> Deck:
    topic = Topic(practical, skills, (), "first", "", Fraction(1), 1)
    return replace(find_deck("first-steps"), topics=(replace(topic, **values),))  # type: ignore[arg-type]


def skills_of(made: Assembled) -> Counter[str]:
    """Marks by skill, counted from the questions themselves."""
    marks: Counter[str] = Counter()
    for question in made.questions:
        for part in question.parts:
            marks[part.skill] += part.marks
    return marks


@pytest.mark.parametrize("deck", DECKS)
def test_papers_balance_and_are_all_about_as_hard(deck: str) -> None:
    made = [paper(deck, 40, seed) for seed in (1, 2, 3)]
    for one in made:
        assert one.plan.marks == sum(question.marks for question in one.questions) == 40
        assert max(skills_of(one).values()) <= 8
        assert one.plan.clues == one.plan.overdone == ()
        objects = [entry.object for q in one.questions if (entry := bank().entry(q.template))]
        assert max(times for name, times in Counter(objects).items() if name) == 1
    hard = [one.plan.difficulty for one in made]
    assert max(hard) - min(hard) < 0.1
    assert len({one.plan.items for one in made}) == 3


@pytest.mark.parametrize("marks", [10, 23, 60])
def test_whole_marks_are_met(marks: int) -> None:
    made = paper("first-steps", marks, 5)
    assert sum(question.marks for question in made.questions) == made.plan.marks == marks


def test_marks_are_those_of_the_questions_where_a_file_does_not_tell_them() -> None:
    for seed in range(1, 7):
        made = assemble(bank(), one_topic("ions"), PaperWish(20, seed), NOW)
        assert sum(one.marks for one in made.questions) == made.plan.marks == 20
        assert [one.marks for one in made.questions] == [one.marks for one in made.plan.items]


def test_the_same_seed_makes_the_same_paper() -> None:
    again = assemble(open_bank(), find_deck("first-steps"), PaperWish(40, 1), NOW)
    assert again == paper("first-steps", 40, 1)


def test_versions_have_the_same_questions_with_other_numbers() -> None:
    wish = PaperWish(25, 4)
    a, b, c = assemble_versions(bank(), find_deck("first-steps"), wish, ("A", "B", "C"), NOW)
    shape = [(item.template, item.marks) for item in a.plan.items]
    for other in (b, c):
        assert [(item.template, item.marks) for item in other.plan.items] == shape
        assert all(
            one.seed != two.seed for one, two in zip(a.questions, other.questions, strict=True)
        )
    answers = [[part.model_answer for part in q.parts] for q in (*a.questions, *b.questions)]
    pairs = zip(answers[: len(shape)], answers[len(shape) :], strict=True)
    assert sum(one != two for one, two in pairs) > len(shape) / 2
    assert b == assemble_versions(bank(), find_deck("first-steps"), wish, ("B",), NOW)[0]


def test_a_deck_of_few_skills_keeps_each_below_twice_its_share() -> None:
    deck = one_topic(skills=("ions.*",))
    made = assemble(bank(), deck, PaperWish(25, 2), NOW)
    skills = {
        skill
        for entry in bank().entries()
        if entry.skills[0].startswith("ions.")
        for skill, marks in entry.skill_marks.items()
        if marks
    }
    assert 1 < len(skills) < 8
    assert max(skills_of(made).values()) <= 25 * 2 / len(skills)


def test_a_skill_that_has_too_much_is_said() -> None:
    made = assemble(bank(), one_topic("rates"), PaperWish(15, 2), NOW)
    over = {skill for skill, marks in skills_of(made).items() if marks > 3}
    assert set(made.plan.overdone) == over


def test_an_extended_answer_stands_last_and_easy_questions_first() -> None:
    made = paper("spring-practicals", 40, 3)
    kinds = ["levels" in {part.kind for part in question.parts} for question in made.questions]
    assert kinds == sorted(kinds)
    worth = [question.marks for question in made.questions]
    assert sum(worth[:5]) < sum(worth[-5:])


def test_what_is_not_taught_is_left_out_and_said() -> None:
    deck = find_deck("spring-practicals")
    before = datetime(2027, 2, 1, tzinfo=UTC)
    made = assemble(bank(), deck, PaperWish(20, 1), before)
    assert "rates" in made.plan.not_taught
    assert all(not item.template.startswith("rates/") for item in made.plan.items)
    with pytest.raises(DrillError, match=r"not taught yet: .*rates.*--untaught"):
        assemble(bank(), deck, PaperWish(20, 1), datetime(2026, 2, 1, tzinfo=UTC))
    whole = assemble(bank(), deck, PaperWish(20, 1, untaught=True), before)
    assert whole.plan.not_taught == ()


def test_too_few_questions_are_said() -> None:
    deck = one_topic(skills=("cross.*",))
    with pytest.raises(DrillError, match='"first-steps" has no 40 marks'):
        assemble(bank(), deck, PaperWish(40, 1), NOW)
    with pytest.raises(DrillError, match="5 to 120 marks, not 1"):
        assemble(bank(), deck, PaperWish(1, 1), NOW)


def test_a_template_that_may_not_be_asked_is_not_on_a_paper() -> None:
    first = {item.template for item in paper("first-steps", 20, 9).plan.items}
    deck = find_deck("first-steps")
    made = assemble(
        bank(), deck, PaperWish(20, 9), NOW, lambda t: t.id not in first and bank().passed(t)
    )
    assert not first & {item.template for item in made.plan.items}


def test_dealt_gives_nobody_more_than_there_is() -> None:
    assert dealt(40, {"a": 2, "b": 1, "c": 1}, {"a": 100, "b": 4, "c": 100}) == {
        "a": 24,
        "b": 4,
        "c": 12,
    }
    assert dealt(40, {"a": 1}, {"a": 7}) == {"a": 7}


# ------------------------------------------------------------------ what gives an answer away


def question(id_: str, seed: int = 1) -> Question:
    template = bank().template(id_)
    assert isinstance(template, Template)
    made = generate(template, seed)
    assert isinstance(made, Question)
    return made


def told(asked: Question, text: str) -> bool:
    other = replace(question("safety/name-the-symbol"), text=text)
    return answered_by(asked, Printed.of(other))


def part(one: Question) -> Part:
    return one.parts[0]


def test_a_number_asked_for_is_not_printed_elsewhere() -> None:
    asked = question("salts/percentage-yield")
    answer = part(asked).model_answer
    assert told(asked, f"The pupil collected {answer} of crystals.")
    assert not told(asked, "The pupil collected 199.87 g of crystals.")


def test_a_reason_asked_for_is_not_told_elsewhere() -> None:
    asked = question("salts/why-excess")
    assert told(asked, f"The pupil wrote this. {part(asked).model_answer}")
    assert not told(asked, "The pupil stirred the mixture and left it on the bench for a day.")


def test_a_name_asked_for_is_not_told_elsewhere() -> None:
    asked = question("salts/name-from-drawing")
    assert told(asked, f"Next comes the {part(asked).model_answer}.")
    assert not told(asked, "Next comes the bucket.")
