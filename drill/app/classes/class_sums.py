"""The sums that a class report is made of: small, and added up in any order.

`pupil_sums` adds up one pupil's answers, once, when they are gathered; `ClassSums` adds pupils, or
whole classes. A trust of schools adds up the same sums on many machines. From marks alone: nobody's
memory is rebuilt.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import asdict, dataclass, field
from datetime import date, timedelta
from typing import Any, NamedTuple

LAST = 3
"""How many of a pupil's last answers on a skill tell how they stand in it."""
_EPOCH = date(1970, 1, 1)
_DAY, _MINUTE = 86_400_000, 60_000


class Answer(NamedTuple):
    """What the sums need of one answer: `item` names template, part and skill."""

    template: str
    part: str
    skill: str
    at: int
    zone: int
    ms: int
    marks: int
    of: int
    mistake: str
    open: bool
    id: str
    contested: bool
    faulty: bool


@dataclass
class PupilSums:
    """One pupil's answers added up. Keys are text, so that it can be kept as JSON.

    `days`: {day: milliseconds}. `weeks`: {skill: {Monday: [answers, marks, of]}}. `last`: {skill:
    the last three answers as [at, marks, of, mistake, item]}. `items`: {item: [answers, marks, of,
    contested, faulty]}. `waiting`: ids of answers with a
    mark contested or not sure of.
    """

    answers: int = 0
    marks: int = 0
    of: int = 0
    waiting: list[str] = field(default_factory=list)
    days: dict[str, int] = field(default_factory=dict)
    weeks: dict[str, dict[str, list[int]]] = field(default_factory=dict)
    last: dict[str, list[list[Any]]] = field(default_factory=dict)
    items: dict[str, list[int]] = field(default_factory=dict)

    def as_json(self) -> dict[str, Any]:
        """What `PupilSums(**…)` takes."""
        return asdict(self)


def pupil_sums(answers: Iterable[Answer]) -> PupilSums:
    """One pupil's answers added up, in whatever order they come."""
    sums = PupilSums()
    days: dict[int, str] = {}
    for one in answers:
        sums.answers += 1
        if one.open:
            sums.waiting.append(one.id)
        number = (one.at + one.zone * _MINUTE) // _DAY
        day = days.get(number) or days.setdefault(number, _day(number))
        sums.days[day] = sums.days.get(day, 0) + one.ms
        item = f"{one.template} {one.part} {one.skill}"
        row = sums.items.setdefault(item, [0, 0, 0, 0, 0])
        row[3] += one.contested
        row[4] += one.faulty
        if one.faulty or not one.of:
            continue
        sums.marks += one.marks
        sums.of += one.of
        row[0] += 1
        row[1] += one.marks
        row[2] += one.of
        week = sums.weeks.setdefault(one.skill, {}).setdefault(_monday(number), [0, 0, 0])
        week[0] += 1
        week[1] += one.marks
        week[2] += one.of
        last = sums.last.setdefault(one.skill, [])
        last.append([one.at, one.marks, one.of, one.mistake, item])
        if len(last) > LAST:
            last.sort()
            del last[0]
    for last in sums.last.values():
        last.sort()
    return sums


def _day(number: int) -> str:
    return (_EPOCH + timedelta(number)).isoformat()


def _monday(number: int) -> str:
    return _day(number - (number + 3) % 7)  # day 0 was a Thursday


# ---------------------------------------------------------------- a class, or many


@dataclass
class SkillSums:
    """A skill over pupils: shares of their last answers, and the wrong routes in them.

    `routes`: {mistake: pupils who took it}; `chances`: {mistake: {item it was made in}}; `met`:
    {item: pupils with it among their last answers}.
    """

    pupils: int = 0
    marks: int = 0
    of: int = 0
    routes: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    chances: dict[str, set[str]] = field(default_factory=lambda: defaultdict(set))
    met: dict[str, int] = field(default_factory=lambda: defaultdict(int))
    weeks: dict[str, list[int]] = field(default_factory=dict)

    def add(self, last: list[list[Any]], weeks: dict[str, list[int]]) -> None:
        """One pupil's last answers on it, and their weeks."""
        self.pupils += 1
        self.marks += sum(one[1] for one in last)
        self.of += sum(one[2] for one in last)
        for item in {one[4] for one in last}:
            self.met[item] += 1
        for _, _, _, mistake, item in last:
            if mistake:
                self.chances[mistake].add(item)
        for mistake in {one[3] for one in last if one[3]}:
            self.routes[mistake] += 1
        _add_rows(self.weeks, weeks)

    def merge(self, other: SkillSums) -> None:
        """The same skill of other pupils."""
        self.pupils += other.pupils
        self.marks += other.marks
        self.of += other.of
        _add_numbers(self.routes, other.routes)
        _add_numbers(self.met, other.met)
        for mistake, items in other.chances.items():
            self.chances[mistake] |= items
        _add_rows(self.weeks, other.weeks)

    def could(self, mistake: str) -> int:
        """Pupils who met a question in which it was made; never fewer than made it."""
        met = max((self.met[item] for item in self.chances[mistake]), default=0)
        return max(met, self.routes[mistake])


@dataclass
class ItemSums:
    """A part of a question over pupils: shares here against shares on the rest.

    `x` is a pupil's share here, `y` theirs on everything else; sums of both, of their squares and
    products, are all that a correlation needs.
    """

    pupils: int = 0
    answers: int = 0
    contested: int = 0
    faulty: int = 0
    x: float = 0.0
    y: float = 0.0
    xx: float = 0.0
    yy: float = 0.0
    xy: float = 0.0

    def add(self, row: list[int], marks: int, of: int) -> None:
        """One pupil: their row of this item, and all their marks."""
        answers, earned, out_of, contested, faulty = row
        self.contested += contested > 0
        self.faulty += faulty > 0
        if not out_of or of <= out_of:
            return
        x, y = earned / out_of, (marks - earned) / (of - out_of)
        self.pupils += 1
        self.answers += answers
        self.x, self.y = self.x + x, self.y + y
        self.xx, self.yy, self.xy = self.xx + x * x, self.yy + y * y, self.xy + x * y

    def merge(self, other: ItemSums) -> None:
        """The same item of other pupils."""
        for name, value in vars(other).items():
            setattr(self, name, getattr(self, name) + value)


@dataclass
class ClassSums:
    """Pupils added up; its size depends on the questions, not on how many pupils there are."""

    pupils: int = 0
    answers: int = 0
    marks: int = 0
    of: int = 0
    waiting: int = 0
    skills: dict[str, SkillSums] = field(default_factory=lambda: defaultdict(SkillSums))
    items: dict[str, ItemSums] = field(default_factory=lambda: defaultdict(ItemSums))

    def add(self, pupil: PupilSums) -> None:
        """One more pupil."""
        self.pupils += 1
        self.waiting += len(pupil.waiting)
        for name in ("answers", "marks", "of"):
            setattr(self, name, getattr(self, name) + getattr(pupil, name))
        for skill, last in pupil.last.items():
            self.skills[skill].add(last, pupil.weeks[skill])
        for item, row in pupil.items.items():
            self.items[item].add(row, pupil.marks, pupil.of)

    def merge(self, other: ClassSums) -> None:
        """Other pupils."""
        for name in ("pupils", "answers", "marks", "of", "waiting"):
            setattr(self, name, getattr(self, name) + getattr(other, name))
        for skill, sums in other.skills.items():
            self.skills[skill].merge(sums)
        for item, row in other.items.items():
            self.items[item].merge(row)


def _add_numbers(here: dict[str, int], more: dict[str, int]) -> None:
    for name, number in more.items():
        here[name] += number


def _add_rows(here: dict[str, list[int]], more: dict[str, list[int]]) -> None:
    for name, row in more.items():
        old = here.get(name)
        here[name] = [a + b for a, b in zip(old, row, strict=True)] if old else list(row)
