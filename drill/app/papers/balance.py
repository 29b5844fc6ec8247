"""How well a choice of questions makes a paper: one number, the lower the better.

The shares of recall, numbers and judging, and how much may be answered with a letter, are common
practice in papers on practical skills.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

K = TypeVar("K", bound=Hashable)

FEW_SKILLS = 8
"""A deck of fewer skills cannot keep each of them to a fifth of the marks."""
_MOST_OF_A_SKILL = 0.2
_GROUPS = {
    "apparatus": "recall", "reasons": "recall", "hazards": "recall", "observations": "recall",
    "calculation": "numbers", "data": "numbers",
    "method": "judging", "variables": "judging", "evaluating": "judging",
}  # fmt: skip
_SHARES = {"recall": 40.0, "numbers": 35.0, "judging": 25.0}
_LETTERS = 0.25  # of the marks may be had by picking an option
_A_COMMAND_WORD = 0.25  # of the marks at most
_AN_EXTENDED_ANSWER = 30  # marks of a paper for each of them, the first from two thirds on


@dataclass(frozen=True)
class Candidate:
    """A question that may stand on a paper; `topic` is its place in the deck.

    `letters`: the share of it that guessing among options could earn.
    """

    template: str
    topic: int
    skill: str
    skill_marks: Mapping[str, int]
    marks: int
    side: str
    command_word: str
    object: str
    letters: bool
    extended: bool

    @property
    def group(self) -> str:
        """Recall, numbers or judging."""
        return _GROUPS.get(self.side, "recall")


@dataclass(frozen=True)
class Balance:
    """What a paper of so many marks out of these candidates should be like."""

    wanted: int
    most_of_a_skill: float
    topics: Mapping[int, float]
    groups: Mapping[str, float]
    extended: int

    @classmethod
    def of(
        cls, candidates: Sequence[Candidate], weights: Mapping[int, float], wanted: int
    ) -> Balance:
        """The aims, as far as these candidates allow them."""
        skills = {skill for one in candidates for skill in one.skill_marks}
        share = _MOST_OF_A_SKILL if len(skills) >= FEW_SKILLS else 2 / max(1, len(skills))
        return cls(
            wanted=wanted,
            most_of_a_skill=share * wanted,
            topics=dealt(wanted, weights, _marks_by(candidates, "topic")),
            groups=dealt(wanted, _SHARES, _marks_by(candidates, "group")),
            extended=(wanted + _AN_EXTENDED_ANSWER // 3) // _AN_EXTENDED_ANSWER,
        )

    def overdone(self, chosen: Sequence[Candidate]) -> tuple[str, ...]:
        """The skills with more marks than one should have."""
        skills: Counter[str] = Counter()
        for one in chosen:
            skills.update(one.skill_marks)
        return tuple(sorted(one for one, n in skills.items() if n > self.most_of_a_skill))

    def leaves_room(self, new: Candidate, chosen: Sequence[Candidate]) -> bool:
        """Whether no skill has too much with this one added."""
        skills = Counter(new.skill_marks)
        for one in chosen:
            for skill in new.skill_marks:
                skills[skill] += one.skill_marks.get(skill, 0)
        return not self._over(skills)

    def _over(self, skills: Mapping[str, int]) -> float:
        return sum(max(0.0, marks - self.most_of_a_skill) for marks in skills.values())

    def missed(self, chosen: Sequence[Candidate]) -> int:
        """Marks too many or too few."""
        return abs(self.wanted - sum(one.marks for one in chosen))

    def cost(self, chosen: Sequence[Candidate]) -> float:
        """What speaks against these together; marks missed and a skill overdone weigh most."""
        skills: dict[str, int] = {}
        words: dict[str, int] = {}
        letters = 0
        for one in chosen:
            for skill, marks in one.skill_marks.items():
                skills[skill] = skills.get(skill, 0) + marks
            words[one.command_word] = words.get(one.command_word, 0) + one.marks
            letters += one.marks if one.letters else 0
        over = self._over(skills)
        told = sum(max(0.0, n - _A_COMMAND_WORD * self.wanted) for n in words.values())
        return (
            50.0 * self.missed(chosen)
            + 60.0 * over
            + 15.0 * abs(self.extended - sum(one.extended for one in chosen))
            + 10.0 * _repeated(one.object for one in chosen if one.object)
            + 5.0 * _repeated(one.skill for one in chosen)
            + 1.0 * _apart(self.topics, _marks_by(chosen, "topic"))
            + 1.0 * _apart(self.groups, _marks_by(chosen, "group"))
            + 1.0 * told
            + 0.4 * len(chosen)
            + 1.5 * abs(letters - _LETTERS * self.wanted)
        )


def dealt(wanted: float, weights: Mapping[K, float], most: Mapping[Any, float]) -> dict[K, float]:
    """`wanted` dealt out by weight, none getting more than there is of it."""
    left, open_ = wanted, {key for key in weights if most.get(key)}
    found: dict[K, float] = dict.fromkeys(weights, 0.0)
    while open_:
        whole = sum(weights[key] for key in open_)
        full = {key for key in open_ if left * weights[key] >= whole * most[key]}
        if not full:
            return found | {key: left * weights[key] / whole for key in open_}
        found |= {key: most[key] for key in full}
        left -= sum(most[key] for key in full)
        open_ -= full
    return found


def _marks_by(candidates: Iterable[Candidate], what: str) -> dict[Any, int]:
    found: dict[Any, int] = {}
    for one in candidates:
        key = getattr(one, what)
        found[key] = found.get(key, 0) + one.marks
    return found


def _repeated(names: Iterable[str]) -> int:
    there = list(names)
    return len(there) - len(set(there))


def _apart(aims: Mapping[Any, float], got: Mapping[Any, int]) -> float:
    return sum(abs(aim - got.get(key, 0)) for key, aim in aims.items())
