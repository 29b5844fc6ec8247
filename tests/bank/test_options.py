"""A choice of the shipped bank is not told by the length of its options."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from statistics import mean

from drill.generate import generate
from drill.model import ChoiceKey, Option, Question, Template
from tests.common.shipped import shipped_bank, template

SEEDS = range(12)
MOST = 1 / 3  # of the choices of the bank; the guess of chance is 0.28
MOST_OF_ONE = 0.4  # of a practical, which has 11 to 47 choices
FEWEST = 0.15  # so that "never the longest" is no way to guess either


def luck(options: tuple[Option, ...]) -> float:
    """What somebody who always takes the longest option earns: 1, 0, or one of as many as tie."""
    longest = max(len(option.text) for option in options)
    tied = [option for option in options if len(option.text) == longest]
    return sum(option.right for option in tied) / len(tied)


def choices(asked: Template) -> Iterator[tuple[str, tuple[Option, ...]]]:
    """Each choice with one right option, by its part, as several seeds make it."""
    if not any(part.kind == "choice" for part in asked.parts):
        return
    for seed in SEEDS:
        made = generate(asked, seed)
        for part in made.parts if isinstance(made, Question) else ():
            if isinstance(part.key, ChoiceKey) and sum(one.right for one in part.key.options) == 1:
                yield part.id, part.key.options


def lucky() -> dict[str, list[float]]:
    """By practical, what the longest option earns in each choice, over its seeds."""
    found: defaultdict[str, list[float]] = defaultdict(list)
    for entry in shipped_bank().entries():
        parts: defaultdict[str, list[float]] = defaultdict(list)
        for part, options in choices(template(entry.id)):
            parts[part].append(luck(options))
        found[entry.practical] += [mean(one) for one in parts.values()]
    return found


def test_luck_is_told_by_length() -> None:
    short, long = Option("A", "ink", True, ""), Option("B", "pencil", False, "")
    assert luck((short, long)) == 0
    assert luck((short, Option("B", "pen", False, ""))) == 0.5


def test_the_right_option_is_the_longest_about_as_often_as_chance_has_it() -> None:
    found = lucky()
    assert FEWEST <= mean(one for several in found.values() for one in several) <= MOST
    assert {name: mean(one) for name, one in found.items() if mean(one) > MOST_OF_ONE} == {}
