"""The tutor's first page on one learner: the next lesson, and in twenty lines why.

Texts are cut at a word and to a screen's columns here, since the lines are counted; a page for a
browser or printer gets them whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from drill.app.weakness.lesson_item import FORGOTTEN
from drill.documents.values import Block, Document, Labelled, Paragraph
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from drill.app.weakness.lesson_item import LessonItem, TwoWeeks
    from drill.app.weakness.mistakes import CommonMistake, Example
    from drill.app.weakness.weak import LearnerReport
    from drill.planning.figures import Share

WIDTH, LINES = 80, 20
PAGE = 400
"""Columns and lines of a screen; columns of a page, which wraps them itself and has room."""


def weak_report(report: LearnerReport, width: int = WIDTH) -> Document:
    """The first page: at most `LINES` lines on a screen of `WIDTH` columns, `PAGE`: uncut."""
    return Document(fit(_title(report), width), tuple(_blocks(report, width)))


def _title(report: LearnerReport) -> str:
    exam = f"exam in {counted(report.days_left, 'day')}" if report.days_left is not None else ""
    return f"{report.learner}, {day(report.on)}. {report.deck}{f', {exam}' if exam else ''}"


def _blocks(report: LearnerReport, width: int) -> Iterator[Block]:
    if not (report.of or any(row.own_of for row in report.skills)):
        yield Paragraph("Nothing answered yet.")
        return
    first = [practice(report), *standing(report)]
    beside = [pair for pair in _beside(report) if pair[1]]
    room = LINES - 2 - len(first) - len(beside) if width <= WIDTH else PAGE
    lesson = [fit(line, width) for line in _lesson(report.lesson, room, width)]
    yield Paragraph("\n".join([*(fit(line, width) for line in first), *lesson]))
    yield Labelled(tuple(_spread(beside, room - len(lesson), width - _MARGIN)))


def practice(report: LearnerReport) -> str:
    """Days and minutes done against what was planned."""
    done = report.practised
    return (
        f"Practised on {done.days} of {counted(done.of_days, 'day')}, "
        f"{done.minutes} of {done.planned} planned minutes."
    )


def standing(report: LearnerReport) -> Iterator[str]:
    """The two figures by their names, with what they are of; before there are any, marks earned."""
    met = f"{report.met} of {counted(report.skills_in_deck, 'skill')} met"
    if report.held is None:
        yield f"{report.marks} of {counted(report.of, 'mark')}, {met}."
        return
    yield f"Held today: {share(report.held)} of the marks, if every skill were asked now."
    day = report.on_the_day
    wide = "; how much lasts is unsure" if day and day.high - day.low > _WIDE else ""
    yield f"On the day: {share(day)}, if practised as planned{wide}." if day else f"{met}."


_WIDE = 0.25
"""A range wider than this is explained."""


def share(found: Share) -> str:
    """As "61 % (52 to 70)"."""
    return f"{percent(found.share)} ({100 * found.low:.0f} to {100 * found.high:.0f})"


def percent(value: float | None) -> str:
    """As "61 %"; "–" for what there is no figure for."""
    return "–" if value is None else f"{100 * value:.0f} %"


# ---------------------------------------------------------------- the next lesson


def _lesson(items: Sequence[LessonItem], room: int, width: int) -> Iterator[str]:
    """Each thing on four lines, or on three where there is no `room` for more."""
    plain = [item for item in items if item.plain]
    if not plain:
        yield "Next lesson: nothing stands out yet."
        return
    yield "Next lesson:"
    told = _example if 4 * len(plain) < room else _short_example
    for number, item in enumerate(plain, 1):
        marks = _counts(item)
        yield f"{number} {fit(item.name, width - len(marks) - 4)}: {marks}"
        yield f"  {_why(item)}"
        yield from told(item.example, width) if item.example else ()


def _counts(item: LessonItem) -> str:
    """How often, and how it was before."""
    if item.guesses:
        lost = counted(item.chances, "answer")
        return f"{item.times} of the {lost} that lost marks; {item.guesses.answers} answers in all"
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
    if item.guesses:
        told = item.guesses
        how = f"{told.said} called guesses, {told.fast} typed too fast to know"
        return f"{how}; {counted(told.right, 'more guess', 'more guesses')} came right"
    if not (item.skill or item.mistake):
        how = "missed since then" if item.why == FORGOTTEN else "missed, none stands out alone"
        return f"{item.why}: {len(item.skills)} skills of this topic {how}"
    if not item.skill:
        return f"a common mistake; where it can be made {_marks(item.trend)}"
    if item.mistake:
        times = f"{item.times} of {counted(item.chances, 'chance')}"
        return f"{fit(item.mistake, 44)}, {times}{held}"
    days = [f"{_earned(one.score)} {day(one.date)}" for one in item.evidence[-3:]]
    return f"{item.why}: {', '.join(days)}{held}"


def _earned(score: float) -> str:
    return "right" if score >= 0.75 else "missed" if score < 0.5 else "half right"


def _example(told: Example, width: int) -> Iterator[str]:
    """When, which question and what it asked; then what was typed and what was right."""
    when, asked = day(told.date), f"{day(told.date)} {fit(told.template, 40)}"
    whole = f"  {asked}: “{told.ask}”" if told.ask else f"  {asked}"
    yield whole if len(whole) <= width else f"  {when} “{_end(told.ask, width - len(when) - 5)}”"
    yield f"  {_typed(told, width - 2)}"


_HOW = ("Give your answer", "Give the answer", "Round ", "Show your working")
_ASKED = 30
"""Columns for a question that shares its line."""


def _short_example(told: Example, width: int) -> Iterator[str]:
    """The same on one line: what was asked as far as there is room, else which question."""
    typed = _typed(told, width - len("  30 Nov “”: ") - _ASKED)
    room = width - len(typed) - len("  30 Nov “”: ")
    asked = f"“{_end(told.ask, room)}”" if told.ask else fit(told.template, room)
    yield f"  {day(told.date)} {asked}: {typed}"


def _end(ask: str, width: int) -> str:
    """What a question asks stands in its last sentences: as many as there is room for.

    How the answer is to be given, which comes after that, is left out first.
    """
    ask = one_line(ask, 2000)
    if len(ask) <= width:
        return ask
    sentences = re.split(r"(?<=[.?!:]) ", ask)
    while len(sentences) > 1 and sentences[-1].startswith(_HOW):
        sentences.pop()
    for first in range(1, len(sentences)):
        end = "… " + " ".join(sentences[first:])
        if len(end) <= width:
            return end
    return fit(sentences[-1], width)


def _typed(told: Example, width: int) -> str:
    """What was typed and what was right, in so many columns."""
    room = width - len("typed “”, right “”")
    typed = fit(told.typed, max(16, room - min(len(told.right), room // 2)))
    right = fit(told.right, max(16, room - len(typed)))
    said = f"typed “{typed}”" if typed else "passed"
    return f"{said}{f', right “{right}”' if right else ''}"


# ---------------------------------------------------------------- what stands beside it

_MARGIN = 14
"""Columns of a label."""


def _beside(report: LearnerReport) -> Iterator[tuple[str, list[str]]]:
    """Labels with what there is to name beside each, the most wanted first to get more room."""
    named = {item.mistake for item in report.lesson if item.plain}
    yield "to ask", list(report.ask)
    yield "perhaps", [_perhaps(item) for item in report.lesson if not item.plain]
    if report.held is not None:
        yield "held least", [f"{row.name} {percent(row.held)}" for row in report.held_least]
    others = [one for one in report.mistakes if one.told and one.mistake not in named]
    yield "mistakes", [_mistake(one) for one in others if one.plain]
    yield "not tried", list(report.not_tried)
    yield "strong", [f"{row.name} {row.marks} of {row.of}" for row in report.strong]


def _spread(
    beside: Sequence[tuple[str, list[str]]], spare: int, width: int
) -> Iterator[tuple[str, str]]:
    """One line each; a second one, as long as there are `spare` ones, to what is longer."""
    for label, names in beside:
        count = f"{counted(len(names), 'skill')}: " if label == "not tried" else ""
        one, two = (some_of(names, lines * width - len(count)) for lines in (1, 2))
        more = one != two and spare > 0
        spare -= more
        yield label, count + (two if more else one)


def _perhaps(item: LessonItem) -> str:
    """What may have come by chance; with the mistake that it was, where there is room for it."""
    room, counts = WIDTH - _MARGIN, _counts(item)
    told = f"{fit(item.name, max(16, room - len(counts) - 1))} {counts}"
    why = item.mistake if item.skill else item.why
    more = f" ({why})" if why else ""
    return told + more if len(told + more) <= room else told


def _mistake(one: CommonMistake) -> str:
    return f"{fit(one.mistake, 60)} {one.times} of {counted(one.chances, 'chance')}"


def some_of(names: Sequence[str], width: int) -> str:
    """As many as fit in so many columns, with semicolons between; how many more there are."""
    for number in range(len(names), 0, -1):
        more = f" and {len(names) - number} more" if number < len(names) else ""
        line = "; ".join(one_line(name) for name in names[:number]) + more
        if len(line) <= width:
            return line
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    return fit(names[0], width - len(more)) + more if names else ""


# ---------------------------------------------------------------- words


def day(iso: str) -> str:
    """As "3 Feb"."""
    found = date.fromisoformat(iso)
    return f"{found.day} {found:%b}"


def fit(text: str, width: int = WIDTH) -> str:
    """The text on one line of so many columns, cut at a word where it is longer."""
    line = one_line(text, 2000)
    width -= 2 * text.startswith("  ")
    if len(line) > width:
        cut = line[: width - 2].rpartition(" ")[0] or line[: width - 2]
        line = cut.rstrip(" ,;:") + " …"
    return "  " * text.startswith("  ") + line
