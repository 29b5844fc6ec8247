"""What a topic deck asks of a learner: its skills with marks at stake, time, dates and templates.

The planner knows nothing of decks or files; they are joined here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime, time, tzinfo
from typing import TYPE_CHECKING

from drill.bank import topic_has
from drill.planning import SkillPlan

if TYPE_CHECKING:
    from drill.bank import Entry
    from drill.model import Deck, Topic


def topic_of(deck: Deck, entry: Entry) -> Topic | None:
    """The first topic of the deck that a template belongs to; None when it is left out.

    A template belongs to a topic by its practical, or by a pattern for its first skill, unless
    the topic's `without` names it or the deck's course may not be asked it.
    """
    if entry.retired or not entry.ok or not deck.suits(entry.course):
        return None
    return next((topic for topic in deck.topics if topic_has(topic, entry)), None)


def skill_plans(
    deck: Deck, entries: Iterable[Entry], zone: tzinfo, now: datetime | None = None
) -> dict[str, SkillPlan]:
    """`{skill: SkillPlan}` for everything the deck examines.

    A skill's marks at stake are the mean marks of one asking times its topic's weight; its time
    the mean seconds of its templates; its dates the earliest of its topics'. With `now`, templates
    of topics not taught by then are left out of a skill that has others: each template is asked
    only after its own topic was taught. The kind of question is the skill's last word, so that the
    steps of two practicals are one kind.
    """
    grouped: dict[str, list[tuple[Entry, Topic]]] = {}
    for entry in entries:
        topic = topic_of(deck, entry)
        if topic is not None:
            grouped.setdefault(entry.skills[0], []).append((entry, topic))
    exams = {paper.id: _moment(paper.exam, time(9), zone) for paper in deck.papers}
    plans = {
        skill: _plan(skill, _taught(group, zone, now), exams, zone)
        for skill, group in grouped.items()
    }
    return dict(sorted(plans.items()))


def _taught(
    group: list[tuple[Entry, Topic]], zone: tzinfo, now: datetime | None
) -> list[tuple[Entry, Topic]]:
    """The templates taught by `now`; when none is, those that are taught first."""
    if now is None:
        return group
    today = now.astimezone(zone).date().isoformat()
    ready = [(entry, topic) for entry, topic in group if topic.taught <= today]
    first = min(topic.taught for _, topic in group)
    return ready or [(entry, topic) for entry, topic in group if topic.taught == first]


def _plan(
    skill: str,
    group: list[tuple[Entry, Topic]],
    exams: Mapping[str, datetime | None],
    zone: tzinfo,
) -> SkillPlan:
    at_stake = [float(topic.weight) * entry.skill_marks[skill] for entry, topic in group]
    dates = [_moment(topic.taught, time(0), zone) for _, topic in group if topic.taught]
    own = [exams[topic.paper] for _, topic in group if exams.get(topic.paper)]
    always = any(not topic.taught for _, topic in group)
    return SkillPlan(
        marks=sum(at_stake) / len(group),
        seconds=sum(entry.seconds for entry, _ in group) / len(group),
        taught_from=None if always else min(moment for moment in dates if moment),
        templates={entry.id: entry.has_draws for entry, _ in group},
        exam=min((moment for moment in own if moment), default=None),
        worked_first=skill.startswith("calc."),
        kind=skill.rpartition(".")[2],
        objects={entry.id: entry.object for entry, _ in group if entry.object},
        load={entry.id: float(entry.skill_marks[skill]) for entry, _ in group},
    )


def _moment(text: str, at: time, zone: tzinfo) -> datetime | None:
    return datetime.combine(date.fromisoformat(text), at, zone) if text else None


def exam_of(deck: Deck, zone: tzinfo) -> datetime | None:
    """The last exam of the deck, or None when it names no date."""
    dates = [paper.exam for paper in deck.papers if paper.exam]
    return _moment(max(dates), time(9), zone) if dates else None
