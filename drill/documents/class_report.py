"""A class report as a document: the first screen, then pupils by skill, weeks, odd questions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from drill.documents.values import (
    Bar,
    Block,
    Chart,
    Document,
    Heading,
    Labelled,
    Paragraph,
    Table,
)
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.classes.class_report import ClassReport, ClassSkill, OddItem, PupilRow, WeekRow
    from drill.app.classes.trust import TrustReport

NOTE = "Practice evidence, not assessment."
_MOST_SECURE = 8
_MOST_BARS = 24
_PER_TABLE = 5
_HALF_A_YEAR = 183


def first_screen(report: ClassReport) -> Document:
    """What a teacher reads in two minutes: who practised, what to teach again, what is secure."""
    return Document(_title(report), tuple(_first(report)))


def whole(report: ClassReport) -> Document:
    """Everything, for a page to print or keep."""
    drawn = more(report, pupils=True, weeks=True, odd=True, charts=True)
    return Document(_title(report), (*_first(report), *drawn))


def more(
    report: ClassReport, pupils: bool, weeks: bool, odd: bool, charts: bool = False
) -> Iterator[Block]:
    """The tables that were asked for; on a page with charts, which show the intervals there."""
    if pupils:
        yield from _pupils(report, charts)
    if weeks:
        yield from _weeks(report.weeks, charts)
    if odd:
        yield from _odd(report.odd, report.few)


def _title(report: ClassReport) -> str:
    return f"{report.title}, {counted(report.pupils, 'pupil')}, week to {_day(report.day)}"


def _day(iso: str) -> str:
    found = date.fromisoformat(iso)
    return f"{found.day} {found:%B}"


def _who(report: ClassReport, codes: Sequence[str]) -> str:
    """Codes, each with the name that the teacher's list has for it."""
    names = [report.names.get(code.casefold(), "") for code in codes]
    if not any(names):
        return " ".join(codes)
    return "; ".join(f"{code} {name}".strip() for code, name in zip(codes, names, strict=True))


def _first(report: ClassReport) -> Iterator[Block]:
    planned = f" of {report.planned:.0f}" if report.planned else ""
    yield Paragraph(f"{report.practised} practised (median {report.minutes:.0f}{planned} min).")
    if report.silent:
        yield Paragraph(f"Not seen 7 days: {_who(report, report.silent)}")
    if report.missing:
        yield Paragraph(f"Nothing handed in: {_who(report, report.missing)}")
    if report.list_gone:
        yield Paragraph(
            f"The class list {one_line(report.list_gone, 80)} is not where it was: codes stand "
            "without names, and who handed in nothing is not known. Name the list again with: "
            "drill class collect FOLDER --list FILE"
        )
    if report.again:
        yield Paragraph("Teach again:", strong=True)
        yield Table(
            ("skill", "marks", "pupils", "what went wrong"),
            tuple(
                (one.name, f"{100 * one.share:.0f} %", str(one.pupils), _wrong(one, 2))
                for one in report.again
            ),
        )
    else:
        yield Paragraph("Nothing to teach again stands out yet.", strong=True)
    if report.secure:
        names = [one.name for one in report.secure]
        rest = len(names) - _MOST_SECURE
        listed = "; ".join(names[:_MOST_SECURE]) + (f"; and {rest} more" if rest > 0 else "")
        yield Paragraph(f"Secure: {listed}")
    if report.waiting:
        yield Paragraph(f"{counted(report.waiting, 'mark')} contested or not sure: drill appeals")
    if report.few:
        yield Paragraph("Fewer than ten pupils: of single questions nothing is said.", quiet=True)
    yield Paragraph(NOTE, quiet=True)


def _wrong(one: ClassSkill, most: int) -> str:
    """As: anhydrous mass used: 17 of 22; "" where no answer tells its route."""
    if one.route:
        return f"{one.route}: {one.took} of {one.of}"
    return "; ".join(f"{route.says}: {route.took} of {route.of}" for route in one.wrong[:most])


# ---------------------------------------------------------------- the rest


def trust_document(report: TrustReport, charts: bool = False) -> Document:
    """Many schools together; on a page with charts."""
    schools, pupils = counted(report.schools, "school"), counted(report.pupils, "pupil")
    return Document(
        f"{schools}, {pupils}, {counted(report.answers, 'answer')}",
        (
            *_skills(report.skills, "Skills over all pupils", charts),
            *_weeks(report.weeks, charts),
            *_odd(report.odd, False),
            Paragraph(NOTE, quiet=True),
        ),
    )


def _skills(skills: Sequence[ClassSkill], heading: str, charts: bool) -> Iterator[Block]:
    yield Heading(heading)
    yield Table(
        ("skill", "pupils", "marks", "95 in 100", "what went wrong"),
        tuple(
            (one.name, str(one.pupils), _percent(one.share), _between(one), _wrong(one, 1))
            for one in skills
        ),
        "Share of marks in each pupil's last three answers, the least secure first",
    )
    bars = tuple(Bar(one.name, one.share, one.low, one.high) for one in skills[:_MOST_BARS])
    if charts and len(bars) > 1:
        yield Chart("The same as a drawing, with its intervals", bars)


def _between(one: ClassSkill) -> str:
    return f"{100 * one.low:.0f} to {100 * one.high:.0f}"


def _pupils(report: ClassReport, charts: bool) -> Iterator[Block]:
    yield from _skills(report.skills, "Skills over the class", charts)
    yield Heading("Pupils, on what to teach again" if report.again else "Pupils by skill")
    for skills in _lots(report.again or report.skills[:_PER_TABLE]):
        names = [one.name for one in skills]
        letters = [chr(65 + place) for place in range(len(names))]
        yield Table(
            ("pupil", "last", "min", *(names if charts else letters)),
            tuple(_pupil(row, skills, report.day) for row in report.rows),
            "Share of marks in the last three answers, in order of code",
        )
        if not charts:
            yield Labelled(tuple(zip(letters, names, strict=True)))


def _pupil(row: PupilRow, skills: Sequence[ClassSkill], today: str) -> tuple[str, ...]:
    shares = (_percent(_share(row, one.skill)) for one in skills)
    who = f"{row.code} {row.name}".strip()
    return (who, _short_day(row.last, today), f"{row.minutes:.0f}", *shares)


def _short_day(iso: str, today: str) -> str:
    """As 1 Mar; with its year where that could be another one."""
    if not iso:
        return "never"
    found = date.fromisoformat(iso)
    near = abs((date.fromisoformat(today) - found).days) <= _HALF_A_YEAR
    return f"{found.day} {found:%b}" if near else f"{found.day} {found:%b %Y}"


def _share(row: PupilRow, skill: str) -> float | None:
    return next((one.share for one in row.skills if one.skill == skill), None)


def _lots(skills: Sequence[ClassSkill]) -> Iterator[Sequence[ClassSkill]]:
    for start in range(0, len(skills), _PER_TABLE):
        yield skills[start : start + _PER_TABLE]


def _weeks(weeks: Sequence[WeekRow], charts: bool) -> Iterator[Block]:
    yield Heading("Trend by week")
    yield Table(
        ("week from", "answers", "marks"),
        tuple((row.week, str(row.answers), _percent(row.share)) for row in weeks),
        "Share of marks by week",
    )
    if charts and len(weeks) > 1:
        bars = tuple(Bar(row.week, row.share) for row in weeks[-_MOST_BARS:])
        yield Chart("The weeks as a drawing", bars)


def _odd(odd: Sequence[OddItem], few: bool) -> Iterator[Block]:
    yield Heading("Questions that behave oddly")
    if few:
        yield Paragraph("Fewer than ten pupils: nothing can be said.")
        return
    if not odd:
        yield Paragraph("None.")
        return
    yield Table(
        ("question", "pupils", "facility", "discrimination", "why"),
        tuple(
            (f"{one.template} ({one.part})", str(one.pupils), _facility(one), _tells(one), one.why)
            for one in odd
        ),
        "Odd questions, with 95 % intervals",
    )
    yield Labelled(
        (
            ("facility", "mean share of the marks, over pupils"),
            ("discrim.", "correlation of a pupil's share here with theirs on everything else"),
        )
    )


def _facility(one: OddItem) -> str:
    if not one.pupils:
        return "–"
    between = f"{100 * one.facility_low:.0f} to {100 * one.facility_high:.0f}"
    return f"{100 * one.facility:.0f} % ({between})"


def _tells(one: OddItem) -> str:
    if one.discrimination is None:
        return "–"
    return (
        f"{one.discrimination:.2f} "
        f"({one.discrimination_low or 0:.2f} to {one.discrimination_high or 0:.2f})"
    )


def _percent(share: float | None) -> str:
    return "–" if share is None else f"{100 * share:.0f} %"
