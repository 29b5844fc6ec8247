"""Where a learner's marks are lost and why, as rows: the tutor's first page.

One row a skill, ordered by the exam marks still to win: never known, forgotten, or a slip that
comes back. A slip is named only when the same wrong route was taken twice or more, with two real
answers as they were typed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from drill.planning import Planner
    from drill.store import AskingRow

# a success older than this, and a failure since, is forgetting rather than never knowing
_OLD = timedelta(days=7)
_EXAMPLES = 2
# fewer tries than this say nothing yet about why
_ENOUGH = 2


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
    slips: dict[str, list[tuple[datetime, str, str]]] = field(default_factory=dict)
    last_right: datetime | None = None
    last_wrong: datetime | None = None
    right: int = 0
    sure_and_wrong: int = 0


def weak_rows(
    askings: Sequence[AskingRow],
    skill_of: Mapping[tuple[str, str], str],
    planner: Planner,
    names: Mapping[str, str],
    states: Mapping[str, str],
    now: datetime,
) -> list[dict[str, Any]]:
    """Rows for every skill answered so far, most marks still to win first.

    Args:
        skill_of: {(template version, part letter): skill}.
        names: {skill: its name in words}; states: {skill: state word}.
    """
    seen: dict[str, _Seen] = {}
    for asking in askings:
        if not asking.shown and not asking.faulty:
            _take(seen, asking, skill_of)
    forecast = planner.forecast(now)
    rows = []
    for skill, found in seen.items():
        share = forecast.per_skill.get(skill, (0.0, 0.0, 0.0))[0]
        plan = planner.skills.get(skill)
        at_stake = (plan.marks if plan else 0.0) * (1 - share)
        rows.append(_row(skill, found, share, at_stake, names, states))
    return sorted(rows, key=lambda row: (-row["marks_to_win"], row["skill"]))


def _take(
    seen: dict[str, _Seen], asking: AskingRow, skill_of: Mapping[tuple[str, str], str]
) -> None:
    for answer in asking.answers:
        mark = answer.mark
        if answer.kind not in ("answer", "pass") or mark is None or not mark.readable:
            continue
        shares = mark.shares(answer.verdict.decided if answer.verdict else ())
        if not (shares.of or shares.own_of):
            continue
        found = seen.setdefault(skill_of.get((asking.version, answer.part), asking.skill), _Seen())
        found.own += shares.own
        found.own_of += shares.own_of
        if not shares.of:
            continue
        found.marks += shares.marks
        found.of += shares.of
        found.attempts += 1
        found.days.add(answer.when.date().isoformat())
        found.templates.add(asking.template)
        if mark.slip:
            place = (answer.when, asking.template, answer.text)
            found.slips.setdefault(mark.slip, []).append(place)
        _note_success(found, shares.marks == shares.of, answer.sure, answer.when)


def _note_success(found: _Seen, right: bool, sure: str | None, when: datetime) -> None:
    if right:
        found.right += 1
        found.last_right = when
    else:
        found.last_wrong = when
        found.sure_and_wrong += sure == "certain"


def _row(
    skill: str,
    found: _Seen,
    share: float,
    at_stake: float,
    names: Mapping[str, str],
    states: Mapping[str, str],
) -> dict[str, Any]:
    return {
        "skill": skill,
        "name": names.get(skill, skill),
        "marks": found.marks,
        "of": found.of,
        "own_marks": found.own,
        "own_of": found.own_of,
        "attempts": found.attempts,
        "days": len(found.days),
        "templates": len(found.templates),
        "state": states.get(skill, ""),
        "exam_share": round(share, 3),
        "marks_to_win": round(at_stake, 2),
        "why": _why(found),
        "last_right": found.last_right.date().isoformat() if found.last_right else None,
        "sure_and_wrong": found.sure_and_wrong,
        "slips": _slips(found),
    }


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


def _slips(found: _Seen) -> list[dict[str, Any]]:
    rows = []
    for slip, times in sorted(found.slips.items(), key=lambda item: -len(item[1])):
        if len(times) < 2:
            continue
        rows.append(
            {
                "slip": slip,
                "times": len(times),
                "attempts": found.attempts,
                "examples": [
                    {"date": when.date().isoformat(), "template": template, "typed": text}
                    for when, template, text in times[-_EXAMPLES:]
                ],
            }
        )
    return rows
