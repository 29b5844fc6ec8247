"""Where a learner's marks are lost and why: the tutor's first page.

One row a skill, ordered by the exam marks still to win: never known, forgotten, or a slip that
comes back. A slip is named only when the same wrong route was taken twice or more, with two real
answers as they were typed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck
    from drill.store import AnswerRow, AskingRow, Learner, Store

# a success older than this, and a failure since, is forgetting rather than never knowing
_OLD = timedelta(days=7)
_EXAMPLES = 2
# fewer tries than this say nothing yet about why
_ENOUGH = 2


@dataclass(frozen=True)
class SlipExample:
    """An answer of the learner's, as it was typed."""

    date: str
    template: str
    typed: str


@dataclass(frozen=True)
class RepeatedSlip:
    """A known wrong route taken `times` times in `attempts` answers."""

    slip: str
    times: int
    attempts: int
    examples: tuple[SlipExample, ...]


@dataclass(frozen=True)
class WeakArea:
    """One skill: what was earned, how it stands, and the exam marks still to win.

    `own_marks` of `own_of` are what the learner decided; they count in no other figure.
    """

    skill: str
    name: str
    marks: int
    of: int
    own_marks: int
    own_of: int
    attempts: int
    days: int
    templates: int
    state: str
    exam_share: float
    marks_to_win: float
    why: str
    last_right: str | None
    sure_and_wrong: int
    slips: tuple[RepeatedSlip, ...]


def weak_areas(store: Store, bank: Bank, deck: Deck, who: Learner, now: datetime) -> list[WeakArea]:
    """A row for every skill answered so far, most exam marks still to win first."""
    from drill.sitting import learners_planner, parts_of_versions, skills_of_versions, states

    askings = store.askings(who)
    names = {skill.id: skill.says for skill in bank.skills().values()}
    planner = learners_planner(store, bank, deck, who, now)
    parts = parts_of_versions(store, askings)
    words = states(askings, parts, planner, now)
    expected = planner.forecast(now).per_skill
    rows = []
    for skill, seen in _seen(askings, skills_of_versions(parts)).items():
        share = expected.get(skill, (0.0, 0.0, 0.0))[0]
        plan = planner.skills.get(skill)
        to_win = (plan.marks if plan else 0.0) * (1 - share)
        rows.append(_row(skill, names.get(skill, skill), words.get(skill, ""), seen, share, to_win))
    return sorted(rows, key=lambda row: (-row.marks_to_win, row.skill))


# ---------------------------------------------------------------- what the answers add up to


@dataclass
class _Seen:
    """What one skill's answers add up to."""

    marks: int = 0
    of: int = 0
    own: int = 0
    own_of: int = 0
    attempts: int = 0
    days: set[str] = field(default_factory=set)
    templates: set[str] = field(default_factory=set)
    slips: dict[str, list[SlipExample]] = field(default_factory=dict)
    last_right: datetime | None = None
    last_wrong: datetime | None = None
    right: int = 0
    sure_and_wrong: int = 0


def _seen(
    askings: Iterable[AskingRow], skill_of: Mapping[tuple[str, str], str]
) -> dict[str, _Seen]:
    """By skill; `skill_of` is {(template version, part letter): skill}."""
    seen: dict[str, _Seen] = {}
    for asking in askings:
        if asking.shown or asking.faulty:
            continue
        for answer in asking.answers:
            skill = skill_of.get((asking.version, answer.part), asking.skill)
            _take(seen, skill, asking.template, answer)
    return seen


def _take(seen: dict[str, _Seen], skill: str, template: str, answer: AnswerRow) -> None:
    mark = answer.mark
    if answer.kind not in ("answer", "pass") or mark is None or not mark.readable:
        return
    shares = mark.shares(answer.verdict.decided if answer.verdict else ())
    if not (shares.of or shares.own_of):
        return
    found = seen.setdefault(skill, _Seen())
    found.own += shares.own
    found.own_of += shares.own_of
    if not shares.of:
        return
    found.marks += shares.marks
    found.of += shares.of
    found.attempts += 1
    found.days.add(answer.when.date().isoformat())
    found.templates.add(template)
    if mark.slip:
        example = SlipExample(answer.when.date().isoformat(), template, answer.text)
        found.slips.setdefault(mark.slip, []).append(example)
    _note_success(found, shares.marks == shares.of, answer.sure, answer.when)


def _note_success(found: _Seen, right: bool, sure: str | None, when: datetime) -> None:
    if right:
        found.right += 1
        found.last_right = when
    else:
        found.last_wrong = when
        found.sure_and_wrong += sure == "certain"


# ---------------------------------------------------------------- rows


def _row(skill: str, name: str, state: str, found: _Seen, share: float, to_win: float) -> WeakArea:
    return WeakArea(
        skill=skill,
        name=name,
        marks=found.marks,
        of=found.of,
        own_marks=found.own,
        own_of=found.own_of,
        attempts=found.attempts,
        days=len(found.days),
        templates=len(found.templates),
        state=state,
        exam_share=round(share, 3),
        marks_to_win=round(to_win, 2),
        why=_why(found),
        last_right=found.last_right.date().isoformat() if found.last_right else None,
        sure_and_wrong=found.sure_and_wrong,
        slips=_slips(found),
    )


def _why(found: _Seen) -> str:
    """Never known, forgotten, or a slip: what the answers themselves show, no more."""
    if any(len(times) >= 2 for times in found.slips.values()):
        return "slip"
    if found.last_wrong is None:
        return ""
    if found.attempts < _ENOUGH:
        return "early days"
    if found.right == 0:
        return "never known"
    forgotten = found.right >= 2 and found.last_right and found.last_wrong - found.last_right > _OLD
    return "forgotten" if forgotten else "comes and goes"


def _slips(found: _Seen) -> tuple[RepeatedSlip, ...]:
    return tuple(
        RepeatedSlip(slip, len(times), found.attempts, tuple(times[-_EXAMPLES:]))
        for slip, times in sorted(found.slips.items(), key=lambda item: -len(item[1]))
        if len(times) >= 2
    )
