"""Ranking is quick by sorting cleverly; it must choose what the plain rule chooses."""

from __future__ import annotations

from datetime import datetime, timedelta
from math import inf

import pytest

from drill.planning import Planner, SkillPlan
from drill.planning.time_prices import DayPrices
from tests.planning.helpers import EXAM, MINUTE, NOW, plan

Told = list[tuple[str, str, bool]]


class Plain(Planner):
    """The rule as one would write it down: owed first, most worth first, then by name."""

    def _ranked(self, playing: list[str], day: DayPrices, now: datetime) -> list[str]:
        at, worth = now.timestamp(), day.worth
        stale = [skill for skill in playing if worth.get(skill, -inf) == -inf]
        best = sorted(playing, key=lambda skill: (-worth.get(skill, -inf), skill))[:4]
        for skill in (*stale, *best, *self._again):
            if skill in playing:
                day.refresh(skill, self._stake(skill, self.skills[skill], now), at)
        self._again.clear()
        return sorted(playing, key=lambda skill: (not self._owed(skill, at), -worth[skill], skill))


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


def life(make: type[Planner], turn: int) -> Told:
    """Two weeks of answers, every `turn`-th certain and wrong."""
    planner, told = make(skills(), EXAM, 12.0), Told()
    for day in range(14):
        now = NOW + timedelta(days=day)
        while (choice := planner.choose(now)) is not None:
            told.append((choice.skill, choice.template, choice.show))
            if choice.show:
                planner.expose(choice.skill, choice.template, now)
            else:
                wrong = len(told) % turn == 0
                score, sure = (0.0, "certain") if wrong else (len(told) % 3 / 2, None)
                planner.record(choice.skill, choice.template, now, score, 50.0, sure=sure)
            now += MINUTE
    return told


@pytest.mark.parametrize("turn", [4, 10_000])
def test_the_same_questions_as_by_the_plain_rule(turn: int) -> None:
    told = life(Planner, turn)
    assert len(told) > 60
    assert told == life(Plain, turn)
