"""What simulated people are like: spread, guessing, careless mistakes, transfer, luck."""

from __future__ import annotations

from datetime import timedelta
from random import Random
from statistics import fmean, pstdev

import pytest

from tests.lab import LEARNERS, SCENARIOS, Simulated
from tests.lab.learner import PERSON_SD, RATES, SKILL_SD
from tests.lab.processes import FAMILIES

START = SCENARIOS["one-week"].start


def test_people_and_skills_are_as_far_apart_as_said() -> None:
    people = [Simulated("delta", seed).person for seed in range(800)]
    skills = [Simulated("delta", 1).easy(f"skill {number}") for number in range(800)]
    assert fmean(people) == pytest.approx(0.0, abs=0.1)
    assert pstdev(people) == pytest.approx(PERSON_SD, rel=0.1)
    assert pstdev(skills) == pytest.approx(SKILL_SD, rel=0.1)


@pytest.mark.parametrize("family", FAMILIES)
def test_people_of_a_family_forget_at_their_own_rate(family: str) -> None:
    rate, spread = RATES[family]
    rates = {getattr(Simulated(family, seed).process, rate) for seed in range(50)}
    assert len(rates) == 50
    assert spread > 0.0


@pytest.mark.parametrize("family", FAMILIES)
def test_nobody_knows_what_was_never_taught_but_may_guess(family: str) -> None:
    person = Simulated(family, 2)
    assert person.chance("x", START) == pytest.approx(person.guess)
    assert 0.0 <= person.guess <= 0.1


@pytest.mark.parametrize("family", FAMILIES)
def test_slips_happen_to_those_who_know(family: str) -> None:
    person = Simulated(family, 2)
    for minute in range(40):
        person.practise("x", "x/a", START + timedelta(hours=minute), Random(1))
    assert person.chance("x", START + timedelta(hours=41)) <= 1.0 - person.careless


@pytest.mark.parametrize("family", FAMILIES)
def test_a_template_often_asked_is_easier_than_one_never_asked(family: str) -> None:
    person = Simulated(family, 4)
    assert person.transfer < 1.0
    for day in range(3):
        person.practise("x", "x/a", START + timedelta(days=day), Random(1))
    at = (START + timedelta(days=30)).timestamp()
    fresh, tried = (person.share("x", person.state("x"), at, tries) for tries in (0, 3))
    assert fresh < tried


@pytest.mark.parametrize("family", FAMILIES)
def test_answers_come_from_the_random_numbers_given(family: str) -> None:
    """A learner draws nothing else while practising, so policies can be paired."""

    def answers(seed: int) -> list[float]:
        person, rng = Simulated(family, 5), Random(seed)
        person.expose("x", "x/lesson", START)
        return [
            person.practise("x", "x/a", START + timedelta(days=3 * day), rng)[0]
            for day in range(12)
        ]

    assert answers(1) == answers(1)
    assert len({tuple(answers(seed)) for seed in range(20)}) > 3


def test_right_answers_are_as_frequent_as_the_chance_says() -> None:
    rng, scores, chances = Random(3), [], []
    for seed in range(600):
        person = Simulated("predictive", seed)
        person.expose("x", "x/lesson", START)
        when = START + timedelta(days=6)
        chances.append(person.chance("x", when))
        scores.append(person.practise("x", "x/a", when, rng)[0])
    assert fmean(scores) == pytest.approx(fmean(chances), abs=0.04)


def test_families_have_the_names_the_command_shows() -> None:
    assert list(LEARNERS) == [
        "activation",
        "multiscale",
        "delta",
        "predictive",
        "half-life",
        "procedure",
    ]
