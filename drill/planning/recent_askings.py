"""What was asked lately: all that the template rules and today's minutes need.

Only the last asking of each template, the last two days' seconds and running means are kept, so
nothing grows with the number of past answers.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Container, Mapping
from datetime import datetime
from math import inf

from drill.memory.activation import DAY

REST_WITHOUT_DRAWS = DAY
"""Seconds before a text that is always the same may come back."""
OTHERS_BETWEEN = 5
"""How many other questions come before a template with draws may come back."""
_KEPT = 50 * 3600.0
_PRIOR_ASKINGS = 3.0
"""The planned seconds of a skill count like so many askings against the learner's own."""
_PACE_ASKINGS = 10.0
"""The learner's pace, over all skills, begins as if so many askings had taken what was planned."""
_DAYS, _MISSED = 5.0, 1.0
"""Days practised begin as if one of five had been missed."""
_SITTING, _LATELY = 3600.0, 60
"""Seconds between two askings that begin a new sitting; so many askings of it are kept."""
_LONGEST = 4.0
"""One asking counts as at most this many times the planned seconds: the learner went away."""


class Past:
    """The askings so far, in the order they are told."""

    def __init__(self) -> None:
        self.count = 0
        self.last_skill: str | None = None
        self._last_key: tuple[str, float] | None = None
        self._last_timed = False
        self._template_at: dict[str, tuple[int, float]] = {}
        self._lately: deque[tuple[float, str, str]] = deque(maxlen=_LATELY)
        self._spent: deque[tuple[float, float]] = deque()
        self._took: dict[str, tuple[float, float]] = {}
        self._pace = (_PACE_ASKINGS, _PACE_ASKINGS)
        self._practised, self._first_day, self._last_day = 0, 0, -1

    def asked(
        self, skill: str, template: str, when: datetime, seconds: float, planned: float = 0.0
    ) -> None:
        """One asking. Told once for each of its skills, it still counts once.

        The skill that comes with seconds is the one it was scheduled for; `planned` are the
        seconds it was expected to take (0: not known).
        """
        at = when.timestamp()
        self._attend(int(at // DAY))
        if self._last_key != (template, at):
            self._last_key, self._last_timed = (template, at), False
            self.count += 1
            self._template_at[template] = (self.count, at)
            self.last_skill = skill
            self._lately.appendleft((at, skill, template))
        if seconds > 0.0 and not self._last_timed:
            self.last_skill, self._last_timed = skill, True
            self._lately[0] = (at, skill, template)
        self._spend(skill, at, seconds, planned)

    def _spend(self, skill: str, at: float, seconds: float, planned: float) -> None:
        if seconds > 0.0:
            self._spent.append((at, seconds))
            askings, total = self._took.get(skill, (0.0, 0.0))
            within = min(seconds, _LONGEST * planned) if planned > 0.0 else seconds
            self._took[skill] = (askings + 1.0, total + within)
            if planned > 0.0:
                self._pace = (self._pace[0] + 1.0, self._pace[1] + within / planned)
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

    def sitting(self, at: float) -> list[tuple[str, str]]:
        """(skill, template) asked in the sitting that goes on at `at`, the latest first."""
        asked: list[tuple[str, str]] = []
        for then, skill, template in self._lately:
            if at - then > _SITTING:
                break
            asked.append((skill, template))
            at = then
        return asked

    def askings(self, skill: str) -> int:
        """How often the skill was what a question was put for, as far as it was told."""
        return int(self._took.get(skill, (0.0, 0.0))[0])

    def began(self, at: float) -> float:
        """The first day on which there was practice; `at` itself before that."""
        return self._first_day * DAY if self._practised else at

    def seconds(self, skill: str, planned: float) -> float:
        """What one asking of the skill really takes this learner.

        Begun from what was planned, at the pace of the learner's other askings.
        """
        askings, total = self._took.get(skill, (0.0, 0.0))
        usual = planned * self._pace[1] / self._pace[0]
        return (_PRIOR_ASKINGS * usual + total) / (_PRIOR_ASKINGS + askings)

    @property
    def last_template(self) -> str | None:
        """The template asked last; None before the first."""
        return self._last_key[0] if self._last_key else None

    def _attend(self, day: int) -> None:
        if self._practised == 0:
            self._first_day = day
        if day > self._last_day or self._practised == 0:
            self._practised, self._last_day = self._practised + 1, day

    def attended(self, at: float) -> float:
        """The share of days, from the first asking on, on which there was practice; 0..1."""
        days = max(0, int(at // DAY) - self._first_day) if self._practised else 0
        practised = self._practised - (self._last_day == int(at // DAY))
        return min(1.0, (_DAYS - _MISSED + practised) / (_DAYS + days))

    def template(
        self,
        skill: str,
        templates: Mapping[str, bool],
        at: float,
        small: bool = False,
        barred: Container[str] = (),
        load: Mapping[str, float] | None = None,
    ) -> str | None:
        """The template to ask of a skill at `at` (POSIX seconds); None when all must wait.

        The least recently asked, never the last one if there are two; see the two constants above
        for how long each kind rests. Ties go to the order of `templates`. `small`: all that is in
        play has too few templates to put five others between, so a day's rest will do. `barred`
        are left out; with `load` the lightest comes first.
        """
        places = {name: self._template_at.get(name, (0, 0.0)) for name in templates}
        last = max((place for place, _ in places.values()), default=0) if len(places) > 1 else 0
        best, best_place = None, (inf, self.count + 1)
        for template, (place, then) in places.items():
            key = (load.get(template, 0.0) if load else 0.0, place)
            if key >= best_place or (place and place == last) or template in barred:
                continue
            if place and not self._rested(place, at - then, templates[template], small):
                continue
            best, best_place = template, key
        return best

    def _rested(self, place: int, lag: float, has_draws: bool, small: bool) -> bool:
        if has_draws and self.count - place >= OTHERS_BETWEEN:
            return True
        return (small or not has_draws) and lag >= REST_WITHOUT_DRAWS
