"""Starters with comments: a question of each kind that passes as it stands, and a topic deck."""

from __future__ import annotations

from collections.abc import Iterable

from drill.bank.files.faults import nearest
from drill.errors import DrillError
from drill.subjects import known, subject


def new_template(kind: str) -> str:
    """A starter for a question with a part of that kind; "calculation": three parts, one chain.

    Raises:
        DrillError: there is no such starter.
    """
    starters = all_starters()
    if kind not in starters:
        hint = nearest(kind, starters) or f"There are: {', '.join(starters)}."
        raise DrillError(f'no starter "{kind}". {hint}')
    return starters[kind]


def all_starters() -> dict[str, str]:
    """The starter of each kind of part; of a kind that several subjects have, the first one's."""
    found: dict[str, str] = {}
    for name in known():
        for kind, text in subject(name).starters().items():
            found.setdefault(kind, text)
    return found


def new_deck(
    title: str,
    id: str,
    course: str,
    minutes: int,
    exam: str = "",
    practicals: Iterable[str] = (),
    papers: Iterable[tuple[str, str]] = (),
) -> str:
    """A topic deck as commented TOML.

    Args:
        exam: the date of a single paper, as 2027-05-18; "" for none.
        practicals: their short ids, a topic each.
        papers: (id, date) of each paper where there are several; they go before `exam`.
    """
    dated = list(papers) or ([("first", exam)] if exam else [])
    pieces = [_HEAD.format(id=_text(id), title=_text(title), course=_text(course), minutes=minutes)]
    pieces += [_PAPER.format(id=_text(name), exam=_day(day)) for name, day in dated]
    if not dated:
        pieces.append(_NO_PAPER)
    pieces += [_TOPIC.format(practical=_text(practical)) for practical in practicals]
    return "\n".join([*pieces, _TAIL])


def _day(day: str) -> str:
    """A date stands without quotes; what is none keeps them, and reading the deck says so."""
    from datetime import date

    try:
        return date.fromisoformat(day).isoformat()
    except ValueError:
        return _text(day)


def _text(value: str) -> str:
    """Text as TOML writes it, quotes included."""
    import json

    # JSON's escapes are TOML's, but for the delete character, which TOML wants escaped too
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


_HEAD = """\
format = 1
id = {id}
# What students see above their questions.
title = {title}
# combined or separate, foundation or higher.
course = {course}
minutes_a_day = {minutes}
"""

_PAPER = """\
# An exam paper and its date. Write one for each paper; topics name theirs by its id.
[[paper]]
id = {id}
exam = {exam}
"""

_NO_PAPER = """\
# No exam yet. When there is one:
# [[paper]]
# id = "first"
# exam = 2027-05-18
"""

_TOPIC = """\
[[topic]]
practical = {practical}
# taught = 2027-01-11        # left out: it has been taught
# weight = 2                 # counts twice as much as the others
"""

_TAIL = """\
# What this school really uses; questions follow it.
# [bench]
# balance = 0.01
# names = { "evaporating basin" = "evaporating dish" }
# risk_line = "Follow the risk assessment on the corridor board."

# Your own questions: a folder beside this file that has <practical>/<question>.toml, as
# own/salts/mine.toml. Begin one with: drill bank new calculation --out own/salts/mine.toml
# They are asked in the topic of that practical, beside the others; to ask only yours, write
# without = ["salts/*"] in the topic. Every file in the folder is asked, starters too.
# [own]
# templates = "own"
"""
