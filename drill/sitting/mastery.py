"""The word for how a skill stands: not met, not yet secure, secure, no longer secure.

A word follows what is held today, and never rests on one good day. Secure needs right answers on
two templates and two days (a skill with only one template: three days), enough of it held today,
and a last answer that was not missed; what had all this and is no longer held is no longer secure.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import TYPE_CHECKING

from drill.memory import MISSED
from drill.sitting.history import info_from_text
from drill.store import observations

if TYPE_CHECKING:
    from drill.planning import Planner
    from drill.store import AskingRow, PartInfo, Store

# share of marks that counts as right, and share still held that counts as secure
RIGHT = 0.75
HELD = 0.7


@dataclass
class Evidence:
    """On which templates and days a skill was answered rightly, and whether the last was missed."""

    met: bool = False
    missed_last: bool = False
    templates: set[str] = field(default_factory=set)
    days: set[date] = field(default_factory=set)

    def add(self, template: str, day: date, score: float | None) -> None:
        """One observation; an exposure (None) only says that the skill was met."""
        self.met = True
        if score is not None:
            self.missed_last = score < MISSED
        if score is not None and score >= RIGHT:
            self.templates.add(template)
            self.days.add(day)

    def enough(self, templates: int) -> bool:
        """Whether it would do for secure, in a bank with so many templates of the skill."""
        if templates > 1:
            return len(self.templates) >= 2 and len(self.days) >= 2
        return len(self.days) >= 3


def state(evidence: Evidence, templates: int, held: float) -> str:
    """The word, from the evidence, the number of templates and the share held today (0..1)."""
    if not evidence.met:
        return "not met"
    if not evidence.enough(templates):
        return "not yet secure"
    return "secure" if held >= HELD and not evidence.missed_last else "no longer secure"


def parts_of_versions(store: Store, askings: Iterable[AskingRow]) -> dict[str, dict[str, PartInfo]]:
    """What each part examined, for every template version asked: `{version: {letter: info}}`."""
    versions = {asking.version for asking in askings}
    return {version: info_from_text(store.template_text(version)) for version in versions}


def skills_of_versions(
    parts: Mapping[str, Mapping[str, PartInfo]],
) -> dict[tuple[str, str], str]:
    """`{(version, letter): skill}`."""
    return {
        (version, letter): info.skill
        for version, infos in parts.items()
        for letter, info in infos.items()
    }


def states(
    askings: Iterable[AskingRow],
    parts: Mapping[str, Mapping[str, PartInfo]],
    planner: Planner,
    now: datetime,
) -> dict[str, str]:
    """`{skill: word}` for the deck's skills and every other one answered."""
    found: dict[str, Evidence] = {skill: Evidence() for skill in planner.skills}
    for asking in askings:
        for seen in observations(asking, parts[asking.version]):
            evidence = found.setdefault(seen.skill, Evidence())
            evidence.add(seen.template, seen.when.date(), seen.score)
    return {
        skill: state(
            evidence,
            len(planner.skills[skill].templates) if skill in planner.skills else 1,
            planner.memory.held(skill, now),
        )
        for skill, evidence in found.items()
    }
