"""Two computers and a history to carry between them."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable
from random import Random
from typing import Any

from drill.bank import version_of
from drill.exchange import export_jsonl, import_jsonl
from drill.store import Learner, Merged, NewAsking, Record, Store
from tests.store.making import NOW, later, mark, rich_mark

TEMPLATES = ("salts/percentage-yield", "titration/mean-titre", "own/autumn/salts/é")
KEPT = {
    template: f'title = {template!r}\nskills = ["calc.yield"]\n[[part]]\nkind = "number"\n'
    for template in TEMPLATES
}
VERSIONS = {template: version_of(text, [], {"a": "b"}) for template, text in KEPT.items()}
TEXTS = ("66.0 %", "", "=1+1", "the acid\nis used up", "½ mole 😀\x00", "-4,5")


def practised(store: Store, code: str, seed: int, sittings: int = 2) -> Learner:
    """A learner with a history that differs with the seed; every kind of row turns up."""
    chance = Random(seed)
    who = store.new_learner(code, NOW)
    for template, text in KEPT.items():
        store.keep_template(VERSIONS[template], template, text, [], {"a": "b"})
    for number in range(sittings):
        _sitting(store, who, number, chance)
    store.set_setting(who, "exam", "2027-05-18", later(1))
    store.set_setting(who, "minutes", "12", later(2))
    return who


def _sitting(store: Store, who: Learner, number: int, chance: Random) -> None:
    start = number * 10_000
    begun = store.start_sitting(who, f"deck-{number}", later(start), {"minutes": 7.5})
    for turn in range(chance.randint(1, 4)):
        template = TEMPLATES[chance.randrange(len(TEMPLATES))]
        seed, shown = chance.randrange(10**6), chance.random() < 0.2
        new = NewAsking(begun, who, VERSIONS[template], template, seed, "calc.yield", shown)
        asking = store.ask(new, later(start + turn * 100))
        _answers(store, asking, start + turn * 100, chance)
    if chance.random() < 0.7:
        store.end_sitting(begun, later(start + 900), "done")


def _answers(store: Store, asking: bytes, start: int, chance: Random) -> None:
    for place, part in enumerate("ab"):
        kind = chance.choice(("answer", "answer", "pass", "hint", "fix"))
        answer = store.answer(
            asking, part, chance.choice(TEXTS), kind, chance.choice((None, "guess")),
            chance.randrange(10**6) / 1000, later(start + place),
        )  # fmt: skip
        if chance.random() < 0.8:
            store.verdict(answer, "engine", "3+ab", chance.choice((rich_mark(), mark(1, 2, "b"))),
                          later(start + place))  # fmt: skip
        if chance.random() < 0.3:
            store.verdict(answer, "teacher", "", mark(2, 2), later(start + 50))
        if chance.random() < 0.3:
            store.appeal(answer, chance.choice(TEXTS), later(start + 60))
    if chance.random() < 0.2:
        store.faulty(asking, "no right option", later(start + 70))


def exported(store: Store, who: Learner) -> list[str]:
    """The lines of an export."""
    out = io.StringIO()
    number = export_jsonl(store, who, out)
    lines = out.getvalue().splitlines()
    assert number == (len(lines), 0)
    return lines


def parsed(store: Store, who: Learner) -> list[dict[str, Any]]:
    return [json.loads(line) for line in exported(store, who)]


def carried(lines: Iterable[str | bytes], store: Store, into: Learner | None = None) -> Merged:
    """What an import of these lines says; the store is sound afterwards."""
    merged = import_jsonl(store, lines, NOW, into)
    assert store.verify() == []
    return merged


def history(store: Store, who: Learner) -> list[Record]:
    return list(store.history(who).records)


def accept_all(store: Store, who: Learner) -> int:
    """Take over every verdict that somebody in charge gave elsewhere; how many there were."""
    offered = [
        answer.offered
        for asking in store.askings(who)
        for answer in asking.answers
        if answer.offered is not None
    ]
    for verdict in offered:
        store.accept(verdict.id, later(99_000))
    return len(offered)
