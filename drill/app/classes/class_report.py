"""A class report: who practised, what to teach again, what is secure, which questions are odd.

Read from the sums that gathering kept. It is practice evidence, not assessment: pupils answered
alone, some with help, and nobody is ranked.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from statistics import median
from typing import TYPE_CHECKING

from drill.app.classes.class_statistics import Interval, correlation, share_interval
from drill.app.classes.class_sums import ClassSums, ItemSums, SkillSums

if TYPE_CHECKING:
    from drill.app.classes.class_room import Pupil
    from drill.model import Skill

FEWEST = 10
"""Below so many pupils nothing is said of a whole class: chance speaks louder."""
SECURE, SHAKY = 0.8, 0.6
SILENT_DAYS = 7
_MOST_AGAIN = 5
_MOST_WRONG = 3
_ROUTE = 0.3
"""A wrong route is named when at least this share of those who could took it, and two pupils."""
_POOR = 0.2
"""Discrimination below this tells little; common practice with classroom tests."""


@dataclass(frozen=True)
class WeekRow:
    """A week of the class: answers and the share of marks."""

    week: str
    answers: int
    share: float


@dataclass(frozen=True)
class WrongRoute:
    """A common mistake in words, or a wrong option by its text: taken by `took` of `of`."""

    says: str
    took: int
    of: int


@dataclass(frozen=True)
class ClassSkill:
    """A skill over the class: pupils' last answers, and the wrong route most of them took.

    `share` of marks over `pupils`; `route` in words, taken by `took` of `of` who could; "" where
    no route stands out. `wrong`: the routes that are known, most taken first.
    """

    skill: str
    name: str
    pupils: int
    share: float
    low: float
    high: float
    route: str
    took: int
    of: int
    weeks: tuple[WeekRow, ...]
    wrong: tuple[WrongRoute, ...] = ()


@dataclass(frozen=True)
class SkillShare:
    """A pupil's share of marks in their last answers on a skill."""

    skill: str
    share: float


@dataclass(frozen=True)
class PupilRow:
    """A pupil: when they practised last, minutes in the week, and shares by skill; never ranked."""

    code: str
    name: str
    last: str
    minutes: float
    planned: float
    answers: int
    skills: tuple[SkillShare, ...]


@dataclass(frozen=True)
class OddItem:
    """A question that behaves oddly, and why in words; intervals hold 95 in 100."""

    template: str
    part: str
    skill: str
    pupils: int
    facility: float
    facility_low: float
    facility_high: float
    discrimination: float | None
    discrimination_low: float | None
    discrimination_high: float | None
    contested: int
    faulty: int
    why: str


@dataclass(frozen=True)
class ClassReport:
    """All of it; `again` and `secure` are what the first screen shows.

    `names`: {code in small letters: name} of the teacher's list. `list_gone`: what that list
    was called, when it is not where it was.
    """

    title: str
    day: str
    pupils: int
    practised: int
    minutes: float
    planned: float
    silent: tuple[str, ...]
    missing: tuple[str, ...]
    again: tuple[ClassSkill, ...]
    secure: tuple[ClassSkill, ...]
    waiting: int
    skills: tuple[ClassSkill, ...]
    rows: tuple[PupilRow, ...]
    weeks: tuple[WeekRow, ...]
    odd: tuple[OddItem, ...]
    few: bool
    names: Mapping[str, str] = field(default_factory=dict)
    list_gone: str = ""


def class_report(
    title: str,
    pupils: Sequence[Pupil],
    listed: Mapping[str, str],
    says: Mapping[str, Skill],
    today: date,
    list_gone: str = "",
) -> ClassReport:
    """The report on a class as it stands today.

    Args:
        listed: {code in small letters: name} of the class list.
        says: the skills by id, for their names.
        list_gone: what the class list was called, when it is not where it was.
    """
    sums = ClassSums()
    for pupil in pupils:
        sums.add(pupil.sums)
    skills = skills_of(sums, says)
    since_first = _days_since_first(pupils, today)
    rows = tuple(_pupil_row(pupil, today, since_first) for pupil in pupils)
    since = (today - timedelta(SILENT_DAYS - 1)).isoformat()
    active = [row for row in rows if since <= row.last <= today.isoformat()]
    here = {pupil.code.casefold() for pupil in pupils}
    few = len(pupils) < FEWEST
    return ClassReport(
        title=title,
        day=today.isoformat(),
        pupils=len(rows),
        practised=len(active),
        minutes=median(row.minutes for row in active) if active else 0.0,
        planned=median(row.planned for row in rows) if rows else 0.0,
        silent=tuple(row.code for row in rows if _silent(row, today)),
        missing=tuple(sorted(code for code in listed if code not in here)),
        again=_again(skills, sums, min(FEWEST, max(2, len(pupils) // 2))),
        secure=tuple(one for one in skills if one.share >= SECURE and one.pupils >= FEWEST),
        waiting=len({id_ for one in pupils for id_ in one.sums.waiting}),
        skills=skills,
        rows=rows,
        weeks=weeks_of(sums),
        odd=() if few else odd_of(sums),
        few=few,
        names=dict(listed),
        list_gone=list_gone,
    )


# ---------------------------------------------------------------- skills


def skills_of(sums: ClassSums, says: Mapping[str, Skill]) -> tuple[ClassSkill, ...]:
    """Every skill that was answered, the least secure first."""
    rows = [
        _skill(skill, says[skill].says if skill in says else skill, one)
        for skill, one in sums.skills.items()
        if one.of
    ]
    return tuple(sorted(rows, key=lambda row: (row.share, row.skill)))


def _skill(skill: str, name: str, sums: SkillSums) -> ClassSkill:
    share = sums.marks / sums.of
    between = share_interval(share, sums.pupils)
    route, took, of = _route(sums)
    weeks = tuple(_week(week, row) for week, row in sorted(sums.weeks.items()) if row[2])
    return ClassSkill(
        skill, name, sums.pupils, share, between.low, between.high, route, took, of, weeks,
        _wrong(sums),
    )  # fmt: skip


def _wrong(sums: SkillSums) -> tuple[WrongRoute, ...]:
    """Those that most pupils took, as far as an answer tells its route."""
    most = sorted(sums.routes.items(), key=lambda one: (-one[1], one[0]))[:_MOST_WRONG]
    return tuple(WrongRoute(says, took, sums.could(says)) for says, took in most)


def _route(sums: SkillSums) -> tuple[str, int, int]:
    """The wrong route that most pupils took, where it is more than one's own."""
    if not sums.routes:
        return "", 0, 0
    route, took = max(sums.routes.items(), key=lambda one: (one[1], one[0]))
    of = sums.could(route)
    return (route, took, of) if took >= 2 and took >= _ROUTE * of else ("", 0, 0)


def _again(skills: Sequence[ClassSkill], sums: ClassSums, fewest: int) -> tuple[ClassSkill, ...]:
    """What to teach again: where the class as a whole loses most, sure enough to be said.

    Shaky even at the upper end of chance, and met by enough pupils; in order of the marks that the
    class loses on it, that is pupils times the share missed.
    """
    shaky = [one for one in skills if one.share < SHAKY and one.pupils >= fewest]
    sure = [one for one in shaky if one.high < SECURE]
    ordered = sorted(sure, key=lambda one: (-one.pupils * (1 - one.high), one.skill))
    return tuple(ordered[:_MOST_AGAIN])


# ---------------------------------------------------------------- pupils and weeks


def _days_since_first(pupils: Sequence[Pupil], today: date) -> int:
    """Days of the week on which the class could practise: it began with its first answer."""
    first = min((day for pupil in pupils for day in pupil.sums.days), default=today.isoformat())
    return max(1, min(SILENT_DAYS, (today - date.fromisoformat(first)).days + 1))


def _pupil_row(pupil: Pupil, today: date, planned_days: int) -> PupilRow:
    since = (today - timedelta(SILENT_DAYS - 1)).isoformat()
    days = pupil.sums.days
    spent = sum(ms for day, ms in days.items() if since <= day <= today.isoformat())
    shares = (
        SkillShare(skill, sum(one[1] for one in last) / of)
        for skill, last in sorted(pupil.sums.last.items())
        if (of := sum(one[2] for one in last))
    )
    return PupilRow(
        pupil.code, pupil.name, max(days, default=""), spent / 60_000,
        float(pupil.minutes * planned_days), pupil.sums.answers, tuple(shares),
    )  # fmt: skip


def _silent(row: PupilRow, today: date) -> bool:
    return row.last <= (today - timedelta(SILENT_DAYS)).isoformat()


def weeks_of(sums: ClassSums) -> tuple[WeekRow, ...]:
    """Answers and share of marks, week by week."""
    together: dict[str, list[int]] = {}
    for skill in sums.skills.values():
        for week, row in skill.weeks.items():
            old = together.setdefault(week, [0, 0, 0])
            together[week] = [a + b for a, b in zip(old, row, strict=True)]
    return tuple(_week(week, row) for week, row in sorted(together.items()) if row[2])


def _week(week: str, row: Sequence[int]) -> WeekRow:
    answers, marks, of = row
    return WeekRow(week, answers, marks / of)


# ---------------------------------------------------------------- questions that behave oddly


def odd_of(sums: ClassSums) -> tuple[OddItem, ...]:
    """Questions that behave oddly, the most contested first."""
    found = [
        _item(item, one) for item, one in sums.items.items() if one.pupils >= FEWEST or one.faulty
    ]
    odd = [one for one in found if one.why]
    return tuple(sorted(odd, key=lambda one: (-one.contested - one.faulty, one.template, one.part)))


def _item(item: str, sums: ItemSums) -> OddItem:
    template, part, skill = item.split(" ", 2)
    facility = sums.x / sums.pupils if sums.pupils else 0.0
    between = share_interval(facility, sums.pupils)
    tells = correlation(sums.pupils, sums.x, sums.y, sums.xx, sums.yy, sums.xy)
    return OddItem(
        template, part, skill, sums.pupils, facility, between.low, between.high,
        tells.value if tells else None, tells.low if tells else None,
        tells.high if tells else None, sums.contested, sums.faulty, _why(sums, between, tells),
    )  # fmt: skip


def _why(sums: ItemSums, facility: Interval, tells: Interval | None) -> str:
    """Why it is odd, in words; "" when it is not."""
    said = []
    if sums.faulty:
        said.append("said to be faulty")
    if sums.pupils >= FEWEST:
        if sums.contested >= max(2, 0.2 * sums.pupils):
            said.append("often contested")
        if facility.high < 0.15:
            said.append("hardly anybody earns a mark")
        if tells is not None and tells.high < _POOR:
            said.append("those strong elsewhere do no better here")
    return ", ".join(said)
