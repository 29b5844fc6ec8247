"""The tables of a tutor's report that are shown on request."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from drill.documents.values import Block, Heading, Labelled, Paragraph, Table
from drill.documents.weak_lesson import where
from drill.documents.weak_words import day, percent

if TYPE_CHECKING:
    from drill.app.weakness.mistakes import CommonMistake, Example
    from drill.app.weakness.skill_rows import SkillRow
    from drill.app.weakness.weak import LearnerReport
    from drill.app.weakness.weak_more import Compared, HelpRow, SureRow, WeekRow

_SHARES = (
    "today: the share of marks held now, from 20 answers on. day: the share on exam day if "
    "practised as planned, from 40 answers on. –: no figure yet, or not in this deck. "
)
LEGEND = (
    _SHARES
    + "State follows what is held today: secure (right on two days and in two questions), not yet "
    "secure, no longer secure (no longer held, or missed last), not met. Why: never "
    "known (missed whenever asked), forgotten (right, then missed after a rest), a common mistake "
    "(the same one twice or more), comes and goes."
)
_HEAD = ("skill", "marks", "days", "today", "day", "state", "why")


def all_skills(rows: Sequence[SkillRow]) -> Iterator[Block]:
    """Every skill under its topic, with the topic's own marks, and what the words mean."""
    yield Heading("All skills by topic")
    for topic, group in groupby(sorted(rows, key=lambda row: (row.topic, row.name)), _topic):
        own = list(group)
        marks, of = sum(row.marks for row in own), sum(row.of for row in own)
        tried = sum(row.attempts > 0 for row in own)
        yield Paragraph(f"{topic}: {marks} of {of} marks, {tried} of {len(own)} skills tried")
        yield Table(_HEAD, tuple(map(_cells, own)), topic)
    decided = [(f"{row.own_marks} of {row.own_of}", row.name) for row in rows if row.own_of]
    if decided:
        yield Paragraph("Decided by the learner, counted in no figure above:")
        yield Labelled(tuple(decided))
    yield Paragraph(LEGEND, quiet=True)


def _topic(row: SkillRow) -> str:
    return row.topic


def _cells(row: SkillRow) -> tuple[str, ...]:
    return (
        row.name,
        f"{row.marks} of {row.of}" if row.of else "",
        str(row.days) if row.of else "",
        percent(row.held if row.in_deck else None),
        percent(row.on_the_day if row.in_deck else None),
        row.state if row.in_deck else "–",
        row.why,
    )


def all_mistakes(rows: Sequence[CommonMistake]) -> Iterator[Block]:
    """Common mistakes over all skills and over the chances there were, with answers as typed."""
    yield Heading("Common mistakes")
    if not rows:
        yield Paragraph("None recognised so far.")
    for row in rows:
        yield Paragraph(f"{row.mistake}: {where(row)}")
        yield Labelled(tuple((day(one.date), _typed(one)) for one in row.examples))


def _typed(one: Example) -> str:
    right = f", right “{one.right}”" if one.right else ""
    return f"{one.template}: typed “{one.typed}”{right}"


def weeks(rows: Sequence[WeekRow]) -> Iterator[Block]:
    """The trend by week."""
    yield Heading("By week")
    head = ("week of", "days", "answers", "marks", "right", "skills met first")
    cells = (
        (
            day(row.week),
            str(row.days),
            str(row.answers),
            f"{row.marks} of {row.of}",
            percent(row.marks / row.of if row.of else None),
            str(row.first_met),
        )
        for row in rows
    )
    yield Table(head, tuple(cells))


def sureness(rows: Sequence[SureRow]) -> Iterator[Block]:
    """How sure the learner was, against the marks."""
    yield Heading("How sure, against the marks")
    if not rows:
        yield Paragraph("Nobody was asked how sure; drill sit --sure asks.")
        return
    cells = (
        (row.sure, str(row.answers), str(row.right), f"{row.marks} of {row.of}") for row in rows
    )
    yield Table(("said", "answers", "wholly right", "marks"), tuple(cells))


def hints_and_passes(rows: Sequence[HelpRow]) -> Iterator[Block]:
    """Where hints were taken and questions passed."""
    yield Heading("Hints and passes")
    if not rows:
        yield Paragraph("No hint taken, nothing passed.")
        return
    cells = ((row.skill, str(row.hints), str(row.passes), str(row.answers)) for row in rows)
    yield Table(("skill", "hints", "passes", "of answers"), tuple(cells))


def not_sure(rows: Sequence[Example]) -> Iterator[Block]:
    """What the marker was not sure of, and nobody has settled."""
    yield Heading("What the marker was not sure of")
    if not rows:
        yield Paragraph("Nothing.")
        return
    yield Labelled(tuple((day(one.date), _typed(one)) for one in rows))
    yield Paragraph("Settle them with: drill appeals")


def periods(found: Compared) -> Iterator[Block]:
    """Two dates compared."""
    yield Heading(f"Before {day(found.since)}, and from then to {day(found.until)}")
    if not found.rows:
        yield Paragraph("Nothing answered until then.")
        return
    cells = (
        (row.skill, _of(row.before_marks, row.before_of), _of(row.marks, row.of))
        for row in found.rows
    )
    yield Table(("skill", "before", "since"), tuple(cells))


def _of(marks: int, of: int) -> str:
    return f"{marks} of {of}" if of else "–"


def side_by_side(reports: Sequence[LearnerReport]) -> Iterator[Block]:
    """Several learners, a row each."""
    head = ("learner", "days", "minutes", "marks", "today", "day", "to take up first")
    yield Table(head, tuple(map(_learner, reports)))
    yield Paragraph(_SHARES, quiet=True)


def _learner(one: LearnerReport) -> tuple[str, ...]:
    done = one.practised
    return (
        f"{one.learner} {one.name}".strip(),
        f"{done.days} of {done.of_days}",
        f"{done.minutes} of {done.planned}",
        f"{one.marks} of {one.of}",
        percent(one.held.share if one.held else None),
        percent(one.on_the_day.share if one.on_the_day else None),
        one.lesson[0].name if one.lesson else "nothing stands out yet",
    )
