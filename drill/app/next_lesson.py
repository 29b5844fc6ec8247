"""What to take up in the next lesson: at most three things, each with its evidence.

Led by what is weaker than the learner's practice explains. A common mistake that crosses skills
is one thing, not several. Nothing is told that was not missed on two days.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import comb
from typing import TYPE_CHECKING

from drill.app.mistakes import CommonMistake, Example, example
from drill.app.skill_rows import Dated, SkillRow

if TYPE_CHECKING:
    from drill.app.part_answers import PartAnswer
    from drill.planning import Planner
    from drill.planning.weakness import WeakSkill

MOST = 3
QUESTIONS = 4
_LATELY = timedelta(days=14)
_OFTEN = 3
"""A mistake made in a third of its chances or more may be a habit; in more than half, it is one."""
_CHANCE = 0.05
"""So many misses or more would come by chance less often than this, at the learner's own rate of
misses elsewhere: then a skill is told plainly, else with a "perhaps"."""


@dataclass(frozen=True)
class TwoWeeks:
    """Marks since a date two weeks ago, and earlier; all of them when nothing was asked since."""

    marks: int
    of: int
    since: str
    before_marks: int
    before_of: int


@dataclass(frozen=True)
class LessonItem:
    """One thing to take up: a skill, a common mistake, or (neither `skill` nor `mistake`) a topic.

    `plain` False: it may have come by chance. `times` of `chances`: how often the mistake was
    made, over all skills. `evidence` tells `why`.
    """

    name: str
    skill: str
    plain: bool
    why: str
    mistake: str
    trend: TwoWeeks
    times: int
    chances: int
    held: float | None
    evidence: tuple[Dated, ...]
    example: Example | None
    skills: tuple[str, ...]


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
    by_name = {one.mistake: one for one in mistakes}
    lead = [one for one in told if len(one.skills) > 1][:1]
    named = {one.mistake for one in lead}
    found = [_mistake_item(one, rows, now) for one in lead]
    for one in weak:
        mistake = one.why.mistake
        if one.stands_out and not (mistake and mistake in named):
            plain = not _by_chance([one], weak)
            found.append(_skill_item(skills[one.skill], plain, by_name.get(mistake), rows, now))
            named.add(mistake)
    plainly = {skills[item.skill].topic for item in found if item.skill and item.plain}
    for topic, own in _by_topic(weak, skills).items():
        if topic not in plainly and _weak_together(own, weak):
            found = [item for item in found if item.skill not in {one.skill for one in own}]
            found.append(_topic_item(topic, [one.skill for one in own if one.missed], rows, now))
    found += [_mistake_item(one, rows, now) for one in told if one.mistake not in named]
    return sorted(found, key=lambda item: not item.plain)[:MOST]


def _by_topic(
    weak: Iterable[WeakSkill], skills: Mapping[str, SkillRow]
) -> dict[str, list[WeakSkill]]:
    topics: dict[str, list[WeakSkill]] = {}
    for one in weak:
        topics.setdefault(skills[one.skill].topic, []).append(one)
    return topics


def _weak_together(own: Sequence[WeakSkill], weak: Sequence[WeakSkill]) -> bool:
    """Whether several skills of a topic were missed oftener than chance, though none alone was."""
    missed = [one for one in own if one.missed]
    days = sum(one.missed_days for one in missed)
    return len(missed) > 1 and days > 1 and not _by_chance(own, weak, _CHANCE / 5)


def _by_chance(own: Sequence[WeakSkill], weak: Iterable[WeakSkill], least: float = _CHANCE) -> bool:
    """Whether the learner's rate of misses in other skills may well bring so many here."""
    these = {one.skill for one in own}
    others = [other for other in weak if other.skill not in these]
    rate = (sum(one.missed for one in others) + 1) / (sum(one.answers for one in others) + 2)
    answers, missed = sum(one.answers for one in own), sum(one.missed for one in own)
    at_least = sum(
        comb(answers, times) * rate**times * (1 - rate) ** (answers - times)
        for times in range(missed, answers + 1)
    )
    return at_least >= least


def _topic_item(
    topic: str, missed: Sequence[str], rows: Sequence[PartAnswer], now: datetime
) -> LessonItem:
    own = [row for row in rows if row.skill in missed and row.of]
    return LessonItem(
        name=topic,
        skill="",
        plain=True,
        why="weak together",
        mistake="",
        trend=_two_weeks(own, now),
        times=0,
        chances=0,
        held=None,
        evidence=(),
        example=_telling([row for row in own if not row.is_right]),
        skills=tuple(missed),
    )


def _skill_item(
    skill: SkillRow,
    plain: bool,
    mistake: CommonMistake | None,
    rows: Sequence[PartAnswer],
    now: datetime,
) -> LessonItem:
    own = [row for row in rows if row.skill == skill.skill and row.of]
    lost = [row for row in own if not row.is_right and row.mistake == skill.mistake]
    lost = lost or [row for row in own if not row.is_right]
    return LessonItem(
        name=skill.name,
        skill=skill.skill,
        plain=plain,
        why=skill.why,
        mistake=skill.mistake,
        trend=_two_weeks(own, now),
        times=mistake.times if mistake else 0,
        chances=mistake.chances if mistake else 0,
        held=skill.held,
        evidence=skill.evidence,
        example=_telling(lost),
        skills=(skill.skill,),
    )


def _mistake_item(mistake: CommonMistake, rows: Sequence[PartAnswer], now: datetime) -> LessonItem:
    could = [row for row in rows if mistake.mistake in (row.mistake, *row.could) and row.of]
    return LessonItem(
        name=mistake.mistake,
        skill="",
        plain=2 * mistake.times > mistake.chances,
        why="a common mistake",
        mistake=mistake.mistake,
        trend=_two_weeks(could, now),
        times=mistake.times,
        chances=mistake.chances,
        held=None,
        evidence=(),
        example=mistake.examples[0],
        skills=mistake.skills,
    )


def _two_weeks(rows: Sequence[PartAnswer], now: datetime) -> TwoWeeks:
    since = now - _LATELY
    lately = [row for row in rows if row.when >= since]
    before = [row for row in rows if row.when < since] if lately else []
    return TwoWeeks(
        marks=sum(row.marks for row in lately or rows),
        of=sum(row.of for row in lately or rows),
        since=since.date().isoformat(),
        before_marks=sum(row.marks for row in before),
        before_of=sum(row.of for row in before),
    )


def _telling(lost: Sequence[PartAnswer]) -> Example | None:
    """The latest answer that says something; else the latest pass."""
    typed = [row for row in lost if row.typed and not row.passed]
    latest = max(typed or lost, key=lambda row: row.when, default=None)
    return example(latest) if latest else None


def questions_to_ask(
    items: Sequence[LessonItem],
    others: Sequence[str],
    planner: Planner,
    rows: Sequence[PartAnswer],
    known: Collection[str],
) -> tuple[str, ...]:
    """Four templates: of what is to be taken up, then of `others`, each asked longest ago.

    Args:
        others: further skills, the most wanted first.
        known: the templates there are.
    """
    latest = {row.template: row.when.timestamp() for row in rows}
    wanted = [skill for item in items for skill in item.skills] + list(others)
    queues = [_of_skill(skill, planner, latest, known) for skill in dict.fromkeys(wanted)]
    first = [next(queue, "") for queue in queues]
    rest = [template for queue in queues for template in queue]
    return tuple(dict.fromkeys(filter(None, (*first, *rest))))[:QUESTIONS]


def _of_skill(
    skill: str, planner: Planner, latest: Mapping[str, float], known: Collection[str]
) -> Iterator[str]:
    plan = planner.skills.get(skill)
    templates = [one for one in plan.templates if one in known] if plan else []
    return iter(sorted(templates, key=lambda one: (latest.get(one, 0.0), one)))
