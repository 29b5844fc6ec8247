"""One row a skill: what was earned, what is held today and on the day, and why it is weak."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.planning.figures import DAY_FROM, HELD_FROM
from drill.planning.why_weak import Answer

if TYPE_CHECKING:
    from drill.app.weakness.part_answers import PartAnswer
    from drill.bank import Bank
    from drill.planning import Planner
    from drill.planning.figures import Figures
    from drill.planning.weakness import WeakSkill
    from drill.store import AskingRow, PartInfo


@dataclass(frozen=True)
class Dated:
    """An answer that tells why: its date and its share of marks."""

    date: str
    score: float


@dataclass(frozen=True)
class SkillRow:
    """One skill of the deck, or one answered outside it.

    `own_marks` of `own_of` are what the learner decided; they count in no other figure. `held`
    and `on_the_day` are shares 0..1, None while there are too few answers or outside the deck.
    `why` with its `evidence` as the answers tell it, `mistake` which common mistake it was.
    """

    skill: str
    name: str
    topic: str
    in_deck: bool
    marks: int
    of: int
    own_marks: int
    own_of: int
    attempts: int
    days: int
    templates: int
    state: str
    held: float | None
    on_the_day: float | None
    why: str
    mistake: str
    evidence: tuple[Dated, ...]
    last_right: str | None
    certain_and_wrong: int
    hints: int
    passes: int


def skill_answers(
    askings: Iterable[AskingRow],
    parts: Mapping[str, Mapping[str, PartInfo]],
    rows: Iterable[PartAnswer],
) -> dict[str, list[Answer]]:
    """{skill: its answers, oldest first}, as memory was told them, with the mistakes made."""
    from drill.store import observations

    mistakes: dict[tuple[bytes, str], str] = {}
    for row in rows:
        if row.mistake:
            mistakes.setdefault((row.asking, row.skill), row.mistake)
    found: dict[str, list[Answer]] = defaultdict(list)
    for asking in askings:
        for seen in observations(asking, parts[asking.version]):
            if seen.score is not None:
                mistake = mistakes.get((asking.id, seen.skill), "")
                found[seen.skill].append(Answer(seen.when, seen.score, mistake))
    return found


def skill_rows(
    bank: Bank,
    planner: Planner,
    figures: Figures,
    weak: Sequence[WeakSkill],
    rows: Iterable[PartAnswer],
    states: Mapping[str, str],
) -> list[SkillRow]:
    """A row for every skill answered, the weakest first, then those of the deck never answered."""
    answered: dict[str, list[PartAnswer]] = defaultdict(list)
    for row in rows:
        answered[row.skill].append(row)
    order = dict.fromkeys((*(one.skill for one in weak), *answered, *sorted(planner.skills)))
    by_skill = {one.skill: one for one in weak}
    return [
        _row(bank, figures, planner, skill, answered[skill], by_skill.get(skill), states)
        for skill in order
    ]


def _row(
    bank: Bank,
    figures: Figures,
    planner: Planner,
    skill: str,
    told: Sequence[PartAnswer],
    weak: WeakSkill | None,
    states: Mapping[str, str],
) -> SkillRow:
    known = bank.skills().get(skill)
    marked = [row for row in told if row.of]
    shares = figures.per_skill.get(skill)
    return SkillRow(
        skill=skill,
        name=known.says if known else skill,
        topic=(known.family if known else "") or "other",
        in_deck=skill in planner.skills,
        marks=sum(row.marks for row in marked),
        of=sum(row.of for row in marked),
        own_marks=sum(row.own for row in told),
        own_of=sum(row.own_of for row in told),
        attempts=len(marked),
        days=len({row.when.date() for row in marked}),
        templates=len({row.template for row in marked}),
        state=states.get(skill, "not met"),
        held=round(shares.held, 3) if shares and figures.answers >= HELD_FROM else None,
        on_the_day=round(shares.on_the_day, 3) if shares and figures.answers >= DAY_FROM else None,
        why=weak.why.word.value if weak else "",
        mistake=weak.why.mistake if weak else "",
        evidence=tuple(_dated(one) for one in weak.why.evidence) if weak else (),
        last_right=_last(row.when for row in marked if row.is_right),
        certain_and_wrong=sum(row.sure == "certain" and not row.is_right for row in marked),
        hints=sum(row.hinted for row in told),
        passes=sum(row.passed for row in told),
    )


def _dated(answer: Answer) -> Dated:
    return Dated(answer.when.date().isoformat(), round(answer.score, 3))


def _last(moments: Iterable[datetime]) -> str | None:
    latest = max(moments, default=None)
    return latest.date().isoformat() if latest else None
