"""A learner's answers as the file that they hand in."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.weakness.part_answers import Asked, mistake_of, standing
from drill.errors import DrillError
from drill.exchange.hand_in import HandedIn, HandIn, Item, packed

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck
    from drill.store import AnswerRow, AskingRow, Learner, Store


def hand_in(store: Store, bank: Bank, who: Learner, now: datetime) -> bytes:
    """Everything a learner answered and that was marked, for their teacher."""
    return packed(handed_in(store, bank, who, now))


def handed_in(store: Store, bank: Bank, who: Learner, now: datetime) -> HandIn:
    """The same before it is packed."""
    asked = Asked(store, bank)
    rows = [
        row
        for number, asking in enumerate(store.askings(who))
        if not asking.shown
        for row in _rows(asking, number, asked)
    ]
    deck = _deck(store, who)
    own = store.setting(who, "minutes")
    return HandIn(
        learner=who.id.hex(),
        code=who.code,
        deck=deck.id if deck else "",
        minutes=round(float(own)) if own else deck.minutes_a_day if deck else 0,
        made=_ms(now),
        rows=tuple(rows),
    )


def _deck(store: Store, who: Learner) -> Deck | None:
    """The deck used last; its place stays here, as a folder's name can tell whose it is."""
    from drill.app.context import deck_of

    try:
        return deck_of(store, who, "")
    except DrillError:
        return None


def _rows(asking: AskingRow, number: int, asked: Asked) -> Iterator[HandedIn]:
    infos = asked.infos(asking)
    for letter in dict.fromkeys(answer.part for answer in asking.answers):
        stands = standing([answer for answer in asking.answers if answer.part == letter])
        if stands is None or stands.mark is None or stands.verdict is None:
            continue
        info = infos.get(letter)
        skill, kind = (info.skill, info.kind) if info else (asking.skill, "")
        item = Item(asking.template, asking.version, letter, skill, kind)
        yield _row(asking, number, stands, item, asked)


def _row(asking: AskingRow, number: int, answer: AnswerRow, item: Item, asked: Asked) -> HandedIn:
    mark, verdict = answer.mark, answer.verdict
    assert mark is not None
    assert verdict is not None
    shares = mark.shares(verdict.decided)
    points = [[point.id, point.marks, point.of] for point in mark.points]
    offset = answer.when.utcoffset()
    part = asked.parts(asking)[0].get(item.part) if mark.slip else None
    return HandedIn(
        answer=answer.id,
        item=item,
        asked=number,
        seed=asking.seed,
        at=_ms(answer.when),
        zone=round(offset.total_seconds() / 60) if offset else 0,
        ms=round(answer.seconds * 1000),
        kind=answer.kind,
        text=answer.text,
        marks=shares.marks,
        of=shares.of,
        points=json.dumps(points, ensure_ascii=False, separators=(",", ":")),
        unsure=" ".join(mark.unsure) if verdict.by == "engine" else "",
        mistake=mistake_of(mark, part, item.kind),
        sure=answer.sure or "",
        judge=verdict.who,
        appeal=answer.appeal,
        faulty=asking.faulty,
    )


def _ms(when: datetime) -> int:
    return round(when.timestamp() * 1000)
