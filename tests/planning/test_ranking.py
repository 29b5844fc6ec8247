"""Ranking is quick by sorting cleverly; it must choose what the plain rule chooses."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import timedelta
from math import inf

import pytest

from drill.memory import Memory
from drill.planning import Planner, SkillPlan
from drill.planning.lookahead import Stake
from drill.planning.ranking import Ranking
from tests.planning.helpers import EXAM, MINUTE, NOW, plan

Told = list[tuple[str, str, bool]]


class Plain(Ranking):
    """The rule as one would write it down: most worth first, then by name."""

    def ranked(
        self, playing: Iterable[str], memory: Memory, stake: Callable[[str], Stake], now: float
    ) -> list[str]:
        self.prices.memory, names, worth = memory, list(playing), self.worth
        stale = [skill for skill in names if worth.get(skill, -inf) == -inf]
        best = sorted(names, key=lambda skill: (-worth.get(skill, -inf), skill))[:4]
        for skill in (*stale, *best, *self._again):
            if skill in names:
                self.prices.refresh(skill, stake(skill), now)
        self._again.clear()
        return sorted(names, key=lambda skill: (-worth[skill], skill))


def skills() -> dict[str, SkillPlan]:
    """Many alike, so that ties are broken; not in the order of names; some taught later."""
    return {
        f"s{number}": plan(
            f"practical{number % 5}/{number}",
            1 + number % 3,
            marks=float(1 + number % 4),
            taught_from=NOW + timedelta(days=number % 7 - 3),
            worked_first=number % 6 == 0,
        )
        for number in (*range(60, 30, -1), *range(30))
    }


def life(turn: int) -> Told:
    """Two weeks of answers, every `turn`-th certain and wrong."""
    planner, told = Planner(skills(), EXAM, 12.0), Told()
    for day in range(14):
        now = NOW + timedelta(days=day)
        while (choice := planner.choose(now)) is not None:
            told.append((choice.skill, choice.template, choice.show))
            if choice.show:
                planner.expose(choice.skill, choice.template, now)
            else:
                wrong = len(told) % turn == 0
                score = 0.0 if wrong else len(told) % 3 / 2
                planner.record(choice.skill, choice.template, now, score, 50.0, 0.0, wrong)
            now += MINUTE
    return told


@pytest.mark.parametrize("turn", [4, 10_000])
def test_the_same_questions_as_by_the_plain_rule(
    turn: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = life(turn)
    assert len(told) > 60
    monkeypatch.setattr("drill.planning.planner.Ranking", Plain)
    assert told == life(turn)
