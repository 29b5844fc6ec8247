"""What to take up in the next lesson: at most three things, each with its evidence.

Led by what is weaker than the learner's practice explains. A common mistake that crosses skills
is one thing, not several, and so is a topic whose skills were forgotten together. Nothing is told
that was not missed on two days, nothing that has since been put right, and what may have come by
chance is told as such.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

from drill.app.chance import CHANCE, by_chance, drawn_so_low, looked_at, usual_rate
from drill.app.weakness.guesses import guesses
from drill.app.weakness.lesson_item import (
    FORGOTTEN,
    LATELY,
    TOGETHER,
    LessonItem,
    guessing_item,
    mistake_item,
    skill_item,
    topic_item,
    trend,
)
from drill.memory import MISSED

if TYPE_CHECKING:
    from drill.app.weakness.mistakes import CommonMistake
    from drill.app.weakness.part_answers import PartAnswer
    from drill.app.weakness.skill_rows import SkillRow
    from drill.planning.weakness import WeakSkill

MOST = 3
_OFTEN = 3
"""A mistake made in a third of its chances or more may be a habit."""
_AGAIN, _RIGHT = 3, 0.75
"""So many marks in two weeks, this share of them earned and the last answer right: put right."""
_WINDOWS = (timedelta(days=7), LATELY)
"""Since when a topic may have been forgotten."""


def next_lesson(
    weak: Sequence[WeakSkill],
    skills: Mapping[str, SkillRow],
    rows: Sequence[PartAnswer],
    mistakes: Sequence[CommonMistake],
    now: datetime,
) -> list[LessonItem]:
    """At most three things, the first one first; empty when nothing stands out yet.

    Args:
        weak: the deck's skills that were answered, the weakest first.
        mistakes: every one made, as counted over all skills.
    """
    told = [one for one in mistakes if one.told and _OFTEN * one.times >= one.chances]
    lead = [one for one in told if len(one.skills) > 1][:1]
    found = [mistake_item(one, rows, now) for one in lead]
    habit = guesses(rows)
    found += [guessing_item(habit, rows, now)] if habit else []
    named = {one.mistake for one in lead}
    single = list(_skills(weak, skills, rows, mistakes, named, now))
    topics = list(_topics(weak, skills, single, rows, now))
    within = {skill for item in topics for skill in item.skills}
    found += topics + [item for item in single if item.skill not in within]
    named |= {item.mistake for item in found}
    covered = {skill for item in found if item.plain and _whole(item) for skill in item.skills}
    found += [
        mistake_item(one, rows, now)
        for one in told
        if one.mistake not in named and not covered.issuperset(one.skills)
    ]
    return sorted(found, key=lambda item: (not item.plain, item.slight))[:MOST]


def _whole(item: LessonItem) -> bool:
    """Whether a lesson on it takes up all that was missed in its skills."""
    return bool(item.skill) or item.why in (FORGOTTEN, TOGETHER)


# ---------------------------------------------------------------- skills


def _skills(
    weak: Sequence[WeakSkill],
    skills: Mapping[str, SkillRow],
    rows: Sequence[PartAnswer],
    mistakes: Iterable[CommonMistake],
    named: set[str],
    now: datetime,
) -> Iterator[LessonItem]:
    """Those that stand out; of several explained by one mistake the weakest."""
    by_name, told = {one.mistake: one for one in mistakes}, set(named)
    number = _looked_at(weak, skills)
    for one in weak:
        mistake, own = by_name.get(one.why.mistake), _answers({one.skill}, rows)
        if one.stands_out and one.why.mistake not in told and not _put_right(own, now):
            plain = bool(mistake and mistake.plain) or not _by_chance([one], weak, number)
            slight = not plain and _by_chance([one], weak, 1)
            yield skill_item(skills[one.skill], plain, slight, mistake, rows, now)
            told |= {one.why.mistake} - {""}


def _answers(names: Collection[str], rows: Iterable[PartAnswer]) -> list[PartAnswer]:
    return [row for row in rows if row.of and row.skill in names]


def _looked_at(weak: Sequence[WeakSkill], skills: Mapping[str, SkillRow]) -> int:
    """Among how many counts of misses one stands out: of each skill and each topic."""
    topics = Counter(skills[one.skill].topic for one in weak for _ in range(one.answers))
    return looked_at([*(one.answers for one in weak), *topics.values()], _rate(weak))


def _windows_looked_at(
    weak: Sequence[WeakSkill],
    skills: Mapping[str, SkillRow],
    rows: Iterable[PartAnswer],
    now: datetime,
) -> int:
    """Among how many counts a topic forgotten lately stands out: of each topic in each window.

    Other things are told from other counts, which need not make this one stricter.
    """
    sizes = Counter(
        (skills[row.skill].topic, window)
        for row in _answers({one.skill for one in weak}, rows)
        for window in _WINDOWS
        if row.when >= now - window
    )
    return looked_at(sizes.values(), _rate(weak))


def _rate(weak: Iterable[WeakSkill]) -> float:
    told = [(one.missed, one.answers) for one in weak]
    return usual_rate(sum(missed for missed, _ in told), sum(answers for _, answers in told))


def _put_right(own: Sequence[PartAnswer], now: datetime) -> bool:
    lately = trend(own, now - LATELY)
    enough = lately.of >= _AGAIN and lately.marks >= _RIGHT * lately.of
    return enough and own[-1].is_right


def _by_chance(own: Sequence[WeakSkill], weak: Iterable[WeakSkill], number: int) -> bool:
    """Whether the learner's rate of misses in other skills may well bring so many here."""
    these = {one.skill for one in own}
    rate = _rate(other for other in weak if other.skill not in these)
    missed, answers = sum(one.missed for one in own), sum(one.answers for one in own)
    return by_chance(missed, answers, rate, number)


# ---------------------------------------------------------------- topics


def _topics(
    weak: Sequence[WeakSkill],
    skills: Mapping[str, SkillRow],
    single: Iterable[LessonItem],
    rows: Sequence[PartAnswer],
    now: datetime,
) -> Iterator[LessonItem]:
    """Topics forgotten lately, or weak all along though no skill stands out alone.

    One that may have been forgotten is held against its own windows only, and is no plain item.
    """
    grouped: dict[str, list[WeakSkill]] = {}
    for one in weak:
        grouped.setdefault(skills[one.skill].topic, []).append(one)
    alone = {skills[item.skill].topic for item in single if item.plain}
    of_deck, number = _answers(skills, rows), _looked_at(weak, skills)
    windows = _windows_looked_at(weak, skills, rows, now)
    several = max(1, sum(len(own) > 1 for own in grouped.values()))
    for topic, own in grouped.items():
        names = {one.skill for one in own}
        since = _forgotten_since(names, of_deck, windows, now)
        perhaps = since or _forgotten_since(names, of_deck, len(_WINDOWS), now)
        together = _weak_together(own, weak, number) and _all_low(own, weak, several)
        if since is None and topic not in alone and together:
            told = _answers(names, of_deck)
            if not _put_right(_answers({one.skill for one in own if one.missed}, of_deck), now):
                lost = list(filter(_missed, told))
                yield topic_item(topic, TOGETHER, told, lost, now - LATELY)
        elif perhaps is not None and (since is not None or topic not in alone):
            yield _forgotten(topic, _answers(names, of_deck), perhaps, plain=since is not None)


def _weak_together(own: Sequence[WeakSkill], weak: Sequence[WeakSkill], number: int) -> bool:
    """Whether several skills of a topic were missed oftener than chance, though none alone was."""
    missed = [one for one in own if one.missed]
    days = sum(one.missed_days for one in missed)
    return len(missed) > 1 and days > 1 and not _by_chance(own, weak, number)


def _all_low(own: Sequence[WeakSkill], weak: Iterable[WeakSkill], topics: int) -> bool:
    """Whether the skills of a topic stand lower among all than as many drawn by lot would.

    Some skills are harder than others: one or two hard ones make no weak topic.
    """
    order = [one.skill for one in sorted(weak, key=lambda one: (one.effect, one.skill))]
    places = [order.index(one.skill) for one in own]
    return drawn_so_low(places, len(order)) < CHANCE / topics


def _forgotten_since(
    names: set[str], rows: Sequence[PartAnswer], number: int, now: datetime
) -> datetime | None:
    """Since when several skills of a topic were missed that were known before."""
    for window in _WINDOWS:
        since = now - window
        own = _Counts(_answers(names, rows), since)
        others = _Counts([row for row in rows if row.skill not in names], since)
        days = {row.when.date() for row in own.missed}
        several = len({row.skill for row in own.missed}) > 1 and len(days) > 1
        rate = max(own.rate_before, usual_rate(len(others.missed), others.lately))
        if several and not by_chance(len(own.missed), own.lately, rate, number):
            return since
    return None


class _Counts:
    """Answers since a moment, those of them missed, and the rate of misses before."""

    def __init__(self, rows: Sequence[PartAnswer], since: datetime) -> None:
        lately = [row for row in rows if row.when >= since]
        before = [row for row in rows if row.when < since]
        self.lately, self.missed = len(lately), [row for row in lately if _missed(row)]
        self.rate_before = usual_rate(sum(map(_missed, before)), len(before))


def _missed(row: PartAnswer) -> bool:
    return row.marks < MISSED * row.of


def _forgotten(
    topic: str, rows: Sequence[PartAnswer], since: datetime, *, plain: bool
) -> LessonItem:
    lost = [row for row in rows if row.when >= since and _missed(row)]
    return topic_item(topic, FORGOTTEN, rows, lost, since, plain=plain)
