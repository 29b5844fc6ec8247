"""The tutor's first page on one learner: the next lesson, and in twenty lines why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from drill.app.weakness.lesson_item import FORGOTTEN, GUESSING
from drill.documents.values import Block, Document, Labelled, Paragraph
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.weakness.lesson_item import LessonItem, TwoWeeks
    from drill.app.weakness.mistakes import CommonMistake, Example
    from drill.app.weakness.skill_rows import SkillRow
    from drill.app.weakness.weak import LearnerReport
    from drill.planning.figures import Share

WIDTH = 80
_BESIDE = WIDTH - 14
"""Columns beside a label."""


def weak_report(report: LearnerReport) -> Document:
    """The first page: at most twenty lines of 80 columns on a screen."""
    return Document(fit(_title(report)), tuple(_blocks(report)))


def _title(report: LearnerReport) -> str:
    exam = f"exam in {counted(report.days_left, 'day')}" if report.days_left is not None else ""
    return f"{report.learner}, {day(report.on)}. {report.deck}{f', {exam}' if exam else ''}"


def _blocks(report: LearnerReport) -> Iterator[Block]:
    if not (report.of or any(row.own_of for row in report.skills)):
        yield Paragraph("Nothing answered yet.")
        return
    lines = [practice(report), standing(report), *_lesson(report.lesson)]
    yield Paragraph("\n".join(map(fit, lines)))
    yield Labelled(tuple(pair for pair in _beside(report) if pair[1]))


def practice(report: LearnerReport) -> str:
    """Days and minutes done against what was planned."""
    done = report.practised
    return (
        f"Practised on {done.days} of {counted(done.of_days, 'day')}, "
        f"{done.minutes} of {done.planned} planned minutes."
    )


def standing(report: LearnerReport) -> str:
    """The two figures by their names; while there are too few answers, marks and skills met."""
    met = f"{report.met} of {counted(report.skills_in_deck, 'skill')} met"
    if report.held is None:
        return f"{report.marks} of {counted(report.of, 'mark')}, {met}."
    held = f"Held today: {share(report.held)}."
    if report.on_the_day is None:
        return f"{held} {met}."
    return f"{held} On the day, as planned: {share(report.on_the_day)}."


def share(found: Share) -> str:
    """As "61 % (52 to 70)"."""
    return f"{percent(found.share)} ({100 * found.low:.0f} to {100 * found.high:.0f})"


def percent(value: float | None) -> str:
    """As "61 %"; "–" for what there is no figure for."""
    return "–" if value is None else f"{100 * value:.0f} %"


# ---------------------------------------------------------------- the next lesson


def _lesson(items: Sequence[LessonItem]) -> Iterator[str]:
    plain = [item for item in items if item.plain]
    if not plain:
        yield "Next lesson: nothing stands out yet."
        return
    yield "Next lesson:"
    for number, item in enumerate(plain, 1):
        marks = _counts(item)
        yield f"{number} {fit(item.name, WIDTH - len(marks) - 4)}: {marks}"
        yield f"  {_why(item)}"
        if item.example:
            yield f"  {_example(item.example)}"


def _counts(item: LessonItem) -> str:
    """How often, and how it was before."""
    if item.why == GUESSING:
        return f"{item.times} of {counted(item.chances, 'answer')} that lost marks"
    if item.mistake and not item.skill:
        several = f", in {len(item.skills)} skills" if len(item.skills) > 1 else ""
        return f"{item.times} of {counted(item.chances, 'chance')}{several}"
    return _marks(item.trend)


def _marks(then: TwoWeeks) -> str:
    before = f", {then.before_marks} of {then.before_of} before {day(then.since)}"
    return f"{then.marks} of {counted(then.of, 'mark')}{before if then.before_of else ''}"


def _why(item: LessonItem) -> str:
    """The word, with what tells it."""
    held = f"; held today {percent(item.held)}" if item.held is not None else ""
    if item.why == GUESSING:
        return f"{item.why}: said to be a guess, or typed much faster than what is right"
    if not (item.skill or item.mistake):
        how = "missed since then" if item.why == FORGOTTEN else "missed, none stands out alone"
        return f"{item.why}: {len(item.skills)} skills of this topic {how}"
    if not item.skill:
        return f"a common mistake; {_marks(item.trend)} there"
    if item.mistake:
        times = f"{item.times} of {counted(item.chances, 'chance')}"
        return f"{item.why}: {one_line(item.mistake, 40)}, {times}{held}"
    told = [f"{_earned(one.score)} {day(one.date)}" for one in item.evidence[-3:]]
    return f"{item.why}: {', '.join(told)}{held}"


def _earned(score: float) -> str:
    return "right" if score >= 0.75 else "missed" if score < 0.5 else "half right"


def _example(told: Example) -> str:
    """When and which question, what was typed, what was right."""
    where = f"{day(told.date)} {one_line(told.template, 34)}"
    room = WIDTH - 2 - len(where) - len(": typed “”, right “”")
    typed = one_line(told.typed, max(12, room - min(len(told.right), room // 2)))
    right = one_line(told.right, max(12, room - len(typed)))
    said = f"typed “{typed}”" if typed else "passed"
    return f"{where}: {said}{f', right “{right}”' if right else ''}"


# ---------------------------------------------------------------- what stands beside it


def _beside(report: LearnerReport) -> Iterator[tuple[str, str]]:
    yield "perhaps", some_of(_perhaps(item) for item in report.lesson if not item.plain)
    if report.held is not None:
        yield "held least", _named((row, percent(row.held)) for row in report.held_least)
    yield "mistakes", some_of(_mistake(one) for one in report.mistakes if one.told and one.plain)
    if report.not_tried:
        number = f"{counted(len(report.not_tried), 'skill')}: "
        yield "not tried", number + some_of(report.not_tried, _BESIDE - len(number))
    yield "strong", _named((row, f"{row.marks} of {row.of}") for row in report.strong)
    for first in range(0, len(report.ask), 2):
        yield "and" if first else "ask", some_of(report.ask[first : first + 2])


def _perhaps(item: LessonItem) -> str:
    """What may have come by chance."""
    mistake = f" ({one_line(item.mistake, 30)})" if item.skill and item.mistake else ""
    return f"{one_line(item.name, 40)} {_counts(item)}{mistake}"


def _named(rows: Iterable[tuple[SkillRow, str]]) -> str:
    return some_of(f"{row.name} {figure}" for row, figure in rows)


def _mistake(one: CommonMistake) -> str:
    return f"{one.mistake} {one.times} of {counted(one.chances, 'chance')}"


def some_of(names: Iterable[str], width: int = _BESIDE) -> str:
    """As many as fit on a line, with semicolons between; how many more there are."""
    names = list(names)
    for number in range(len(names), 0, -1):
        more = f" and {len(names) - number} more" if number < len(names) else ""
        line = "; ".join(one_line(name) for name in names[:number]) + more
        if len(line) <= width:
            return line
    return fit(names[0], width) if names else ""


# ---------------------------------------------------------------- words


def day(iso: str) -> str:
    """As "3 Feb"."""
    found = date.fromisoformat(iso)
    return f"{found.day} {found:%b}"


def fit(text: str, width: int = WIDTH) -> str:
    """The text on one line of so many columns, cut at a word where it is longer."""
    line = one_line(text, 2000) if not text.startswith("  ") else "  " + one_line(text, 2000)
    if len(line) <= width:
        return line
    cut = line[: width - 2].rpartition(" ")[0] or line[: width - 2]
    return cut.rstrip(" ,;:") + " …"
