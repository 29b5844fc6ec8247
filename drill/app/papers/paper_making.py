"""Papers for a class: put together, kept so that their marks can come back, ready to be written."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.papers.assembly import Assembled, PaperPlan, PaperWish, assemble_versions
from drill.app.papers.paper_sheet import PaperSheet, sheet

if TYPE_CHECKING:
    from collections.abc import Callable

    from drill.bank import Bank
    from drill.model import Deck, Template
    from drill.store import Store

SETTING = "paper "
"""Before a paper's code: where the store keeps which questions it has."""


@dataclass(frozen=True)
class MadePapers:
    """What was put together, and a sheet a version or a pupil."""

    plan: PaperPlan
    sheets: tuple[PaperSheet, ...]


def make_papers(
    store: Store,
    bank: Bank,
    deck: Deck,
    wish: PaperWish,
    versions: Sequence[str],
    pupils: Mapping[str, str],
    now: datetime,
) -> MadePapers:
    """A paper a version, or with `pupils` one for each of them with numbers of its own.

    Args:
        pupils: {code: name} of a class list; a name is printed and not kept.

    Raises:
        DrillError: the deck has too little for so many marks, or nothing of it is taught by now.
    """
    wanted = list(pupils) or list(versions)
    read: dict[str, Template] = {}
    fit = usable_in(store, bank, now)

    def usable(template: Template) -> bool:
        read[template.id] = template
        return fit(template)

    made = assemble_versions(bank, deck, wish, wanted, now, usable)
    sheets = []
    for version, one in zip(wanted, made, strict=True):
        pupil = version if pupils else ""
        sheets.append(sheet(bank, deck, one, pupil, pupils.get(version, "")))
        _keep(store, read, one, sheets[-1], now)
    return MadePapers(made[0].plan, tuple(sheets))


def usable_in(store: Store, bank: Bank, now: datetime) -> Callable[[Template], bool]:
    """Whether a template may be asked: a teacher's own are proved here, once for each version."""
    from drill.sitting.question_supply import prove

    def usable(template: Template) -> bool:
        known = bank.passed(template) or store.passed(template.version)
        return known or not prove(store, bank, template, now)

    return usable


def _keep(
    store: Store, read: Mapping[str, Template], made: Assembled, paper: PaperSheet, now: datetime
) -> None:
    """Keep the texts of the questions, and the paper under its code."""
    from drill.sitting.question_supply import keep

    for question in made.questions:
        keep(store, read[question.template])
    items = [
        {
            "template": question.template,
            "version": question.version,
            "seed": question.seed,
            "skill": item.skill,
            "parts": {part.id: part.marks for part in question.parts},
        }
        for question, item in zip(made.questions, made.plan.items, strict=True)
    ]
    kept = {"deck": paper.deck, "title": paper.title, "pupil": paper.pupil, "items": items}
    text = json.dumps(kept, separators=(",", ":"))
    if store.setting(None, SETTING + paper.code) != text:
        store.set_setting(None, SETTING + paper.code, text, now)
