"""What `drill bank` shows: templates by skill, a question with its scheme, what is covered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.cli import views
from drill.model import COURSES, SIDES
from drill.plaintext import counted

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from drill.app.bank_check import CheckedTemplate
    from drill.app.bank_list import TemplateRow
    from drill.app.coverage import CoveredPractical, CoveredSkill
    from drill.checking.close_look import TriedAnswer
    from drill.cli.screen import Screen
    from drill.model import Key, PointSpec, Question, Skill, Slip, Template

_SHORT = ("CF", "CH", "SF", "SH")  # of COURSES, for the heads of columns
_MARGIN = 10  # columns of a label
_WAYS = 8  # of earning a point that are shown


def show_list(
    screen: Screen, templates: Sequence[TemplateRow], skills: Mapping[str, Skill]
) -> None:
    """Grouped by the skill that is scheduled, in the order of skills.toml."""
    for skill, one in skills.items():
        rows = [row for row in templates if row.skills[:1] == (skill,)]
        if rows:
            screen.line(f"{skill}: {one.says}", style="bold")
            for row in rows:
                kinds = ", ".join(dict.fromkeys(row.kinds))
                unproven = ", unproven" if row.unproven else ""
                end = f"{kinds}{unproven}, {counted(row.marks, 'mark')}"
                screen.pair(f"  {row.template}", end)
    screen.line()
    screen.line(f"{len(templates)} templates. Look at one with: drill bank show TEMPLATE")


def show_tried(screen: Screen, tried: TriedAnswer) -> None:
    """One answer with its marks; below each point the lines of the file that met it."""
    screen.line(tried.answer, style="bold")
    screen.line(f"{tried.marks} of {tried.of}. {tried.says}")
    if tried.denied:
        screen.line(f"denied by the sentence around: {tried.denied}")
    if tried.order is not None:
        screen.line(f"order of the words: {tried.order:.1f} above chance")
    for point in tried.points:
        unsure = ", not sure" if point.unsure else ""
        screen.line(f"{point.id}: {point.marks}{unsure}; {point.because}", indent=2)
        for line in point.lines or ("no line meets it",):
            screen.line(line, indent=4)
    for twin in tried.turned:
        unsure = ", not sure" if twin.unsure else ""
        screen.line(f"turned round, {twin.marks}{unsure}: {twin.answer}", indent=2)
    screen.line()


def show_scheme(screen: Screen, question: Question, template: Template) -> None:
    """A question as a student sees it, each part followed by all that it is marked by."""
    views.show_question(screen, question, f"{question.template}  seed {question.seed}")
    for part, spec in zip(question.parts, template.parts, strict=True):
        views.show_part(screen, part, alone=len(question.parts) == 1)
        screen.line()
        for point in part.points:
            says = f"{point.says} {views.marks_in_words(point.marks)}"
            _show_point(screen, point.id, says.removeprefix(f"{point.id}: "))
        for scheme in spec.points:
            _show_patterns(screen, scheme)
        screen.item("answer", part.model_answer)
        if part.worked != part.model_answer:
            screen.item("worked", part.worked)
        for name, slip in _slips(part.key):
            keeps = f" (earns {slip.earns})" if slip.earns else ""
            screen.item("slip", f"{name}{slip.text}: {slip.says}{keeps}")
        screen.line()


def _slips(key: Key) -> Iterator[tuple[str, Slip]]:
    """The known wrong routes of a number, or of each cell of a table with the cell's name."""
    for slip in getattr(key, "slips", ()):
        yield "", slip
    for name, cell in getattr(key, "cells", {}).items():
        for slip in cell.slips:
            yield f"{name} = ", slip


def _show_point(screen: Screen, name: str, says: str) -> None:
    """A name that fits stands at the margin; a longer one before the words."""
    if len(name) <= _MARGIN:
        screen.item(name, says)
    else:
        screen.item("point", f"{name}: {says}")


def _show_patterns(screen: Screen, point: PointSpec) -> None:
    """What the marker looks for, in the author's words, a way a line; ideas are joined by +."""
    for label, patterns in (("accepts", point.accept), ("rejects", point.reject)):
        ways = [" + ".join(pattern.concepts) for pattern in patterns]
        more = len(ways) - _WAYS
        lines = ways[:_WAYS] + ([f"… and {more} more ways in the file"] if more > 0 else [])
        if lines:
            screen.item(label, "\n".join([f"{point.id}:", *lines]))


def show_short(screen: Screen, question: Question) -> None:
    """A question with its answers only."""
    views.show_question(screen, question, f"seed {question.seed}")
    for part in question.parts:
        views.show_part(screen, part, alone=len(question.parts) == 1)
        screen.item("answer", part.model_answer)


def show_cover(
    screen: Screen, practicals: Sequence[CoveredPractical], skills: Sequence[CoveredSkill]
) -> None:
    """Tables of practicals by side and of skills by course, each with what is thin below it."""
    from drill.app.coverage import ENOUGH_OF_A_SKILL

    names = {side[:4]: side for side in SIDES}
    rows = [(row.practical, str(row.templates), *map(_count, row.counts)) for row in practicals]
    _show_counts(screen, "practical", rows, names)
    for one in practicals:
        if one.thin:
            screen.line(f"{one.practical} wants: {', '.join(one.thin)}.")
    screen.line()
    rows = [(row.skill, str(row.templates), *map(_count, row.counts)) for row in skills]
    _show_counts(screen, "skill", rows, dict(zip(_SHORT, COURSES, strict=True)))
    for few in range(ENOUGH_OF_A_SKILL):
        thin = [row.skill for row in skills if row.templates == few]
        if thin:
            number = counted(few, "template") if few else "no templates"
            screen.line(f"{number}: {', '.join(thin)}.")


def _count(number: int) -> str:
    return str(number or "")


def _show_counts(
    screen: Screen, of: str, rows: Sequence[Sequence[str]], columns: Mapping[str, str]
) -> None:
    """A line a row, a column for each count; the short heads are explained above."""
    screen.line(", ".join(f"{short} {name}" for short, name in columns.items()) + ".")
    screen.table((of, "all", *columns), rows)
    screen.line()


def instances(row: CheckedTemplate) -> str:
    """How many different questions the seeds gave, and how many sample answers were marked."""
    made = f"{row.distinct} different of {row.seeds} seeds"
    samples = f", {row.samples} sample answers marked" if row.samples else ""
    return f"{row.template}: {made if row.draws else 'one question, without draws'}{samples}"
