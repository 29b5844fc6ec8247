"""Which four questions to ask in the next lesson."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.app.weakness.lesson_item import LessonItem
    from drill.app.weakness.part_answers import PartAnswer
    from drill.planning import Planner

QUESTIONS = 4


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
