"""A new topic deck, with comments that say what else can stand in it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence


def deck_text(
    title: str,
    id: str,
    courses: Sequence[str],
    minutes: int,
    papers: Sequence[str],
    topics: Iterable[tuple[str, str, int]],
    bench: Mapping[str, str],
) -> str:
    """The deck's text; see `drill.bank.new_deck`."""
    course = _text(courses[0]) if len(courses) == 1 else f"[{', '.join(map(_text, courses))}]"
    pieces = [_HEAD.format(id=_text(id), title=_text(title), course=course, minutes=minutes)]
    ids = [_text(_called(number)) for number in range(1, len(papers) + 1)]
    pieces += [_PAPER.format(id=name, exam=day) for name, day in zip(ids, papers, strict=True)]
    if not papers:
        pieces.append(_NO_PAPER)
    pieces += [_topic(*topic, ids) for topic in topics]
    return "\n".join([*pieces, _bench(bench) or _NO_BENCH, _TAIL])


def _called(number: int) -> str:
    words = ("first", "second", "third")
    return words[number - 1] if number <= len(words) else f"paper-{number}"


def _topic(practical: str, taught: str, paper: int, ids: Sequence[str]) -> str:
    lines = ["[[topic]]", f"practical = {_text(practical)}"]
    if len(ids) > 1:
        lines.append(f"paper = {ids[paper - 1]}")
    later = "# taught = 2027-01-11        # left out: it has been taught"
    lines += [f"taught = {taught}" if taught else later, _WEIGHT]
    return "\n".join(lines)


def _bench(bench: Mapping[str, str]) -> str:
    """What stands beside cautions; "" when nothing was said."""
    lines = [
        f"{key} = {_text(value) if key == 'risk_line' else value}" for key, value in bench.items()
    ]
    return "\n".join([_RISK, "[bench]", *lines, ""]) if lines else ""


def _text(value: str) -> str:
    """Text as TOML writes it, quotes included."""
    # JSON's escapes are TOML's, but for the delete character, which TOML wants escaped too
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


_HEAD = """\
format = 1
id = {id}
# What students see above their questions.
title = {title}
# combined or separate, foundation or higher; for a mixed class a list, and each pupil says once
# which course is theirs: course = ["combined foundation", "separate higher"]
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

_WEIGHT = "# weight = 2                 # counts twice as much as the others\n"

_RISK = "# A line of your school's, shown under each safety notice."
_NO_BENCH = f"""\
{_RISK}
# [bench]
# risk_line = "Follow the risk assessment on the corridor board."
"""

_TAIL = """\
# Your own questions: a folder beside this file that has <practical>/<question>.toml, as
# own/salts/mine.toml. Begin one with: drill bank new calculation --out own/salts/mine.toml
# They are asked in the topic of that practical, beside the others; to ask only yours, write
# without = ["salts/*"] in the topic. Every file in the folder is asked, starters too.
# [own]
# templates = "own"
"""
