"""What was asked lately: all that the template rules and today's minutes need.

Only the last asking of each template and the last two days' seconds are kept, so nothing grows
with the number of past answers.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping
from datetime import datetime

REST_WITHOUT_DRAWS = 24 * 3600.0
"""Seconds before a text that is always the same may come back."""
OTHERS_BETWEEN = 5
"""How many other questions come before a template with draws may come back."""
_KEPT = 50 * 3600.0


class Past:
    """The askings so far, in the order they are told."""

    def __init__(self) -> None:
        self.count = 0
        self.last_skill: str | None = None
        self._last_key: tuple[str, float] | None = None
        self._last_timed = False
        self._template_at: dict[str, tuple[int, float]] = {}
        self._template_of: dict[str, str] = {}
        self._spent: deque[tuple[float, float]] = deque()

    def asked(self, skill: str, template: str, when: datetime, seconds: float) -> None:
        """One asking. Told once for each of its skills, it still counts once.

        The skill that comes with seconds is the one it was scheduled for.
        """
        at = when.timestamp()
        if self._last_key != (template, at):
            self._last_key, self._last_timed = (template, at), False
            self.count += 1
            self._template_at[template] = (self.count, at)
            self.last_skill = skill
        if seconds > 0.0 and not self._last_timed:
            self.last_skill, self._last_timed = skill, True
        self._template_of[skill] = template
        self._spend(at, seconds)

    def _spend(self, at: float, seconds: float) -> None:
        if seconds > 0.0:
            self._spent.append((at, seconds))
        while self._spent and self._spent[0][0] < at - _KEPT:
            self._spent.popleft()

    def spent(self, now: datetime) -> float:
        """Seconds asked on the date of `now`, in its zone."""
        today = now.date()
        return sum(
            seconds
            for at, seconds in self._spent
            if datetime.fromtimestamp(at, now.tzinfo).date() == today
        )

    def template(
        self, skill: str, templates: Mapping[str, bool], at: float, small: bool = False
    ) -> str | None:
        """The template to ask of a skill at `at` (POSIX seconds); None when all must wait.

        The least recently asked, never the last one if there are two; see the two constants above
        for how long each kind rests. Ties go to the order of `templates`. `small`: everything in play
        has too few templates to put five others between, so a day's rest will do.
        """
        last = self._template_of.get(skill) if len(templates) > 1 else None
        best, best_place = None, self.count + 1
        for template, has_draws in templates.items():
            place, then = self._template_at.get(template, (0, 0.0))
            if template == last or place >= best_place:
                continue
            if place and not self._rested(place, then, at, has_draws, small):
                continue
            best, best_place = template, place
        return best

    def _rested(self, place: int, then: float, at: float, has_draws: bool, small: bool) -> bool:
        if has_draws and self.count - place >= OTHERS_BETWEEN:
            return True
        return (small or not has_draws) and at - then >= REST_WITHOUT_DRAWS
