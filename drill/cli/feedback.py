"""What a learner sees after an answer: a word, the marks, then the answer in a few lines.

The word says how it went; weight and colour only follow it. What is longer is kept for `more`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from drill.cli.without_eyes import said
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Mark, Part

RIGHT, PART_RIGHT, NOT_RIGHT, NOT_SURE = "Right", "Part right", "Not right", "Not sure yet"
NOT_ANSWERED = "Not answered"
_STYLES = {RIGHT: "bold cyan", PART_RIGHT: "bold", NOT_RIGHT: "bold magenta", NOT_SURE: "bold"}
_SEVERAL_STEPS = ("number", "reading", "table")
_AT_ONCE = 3
"""Lines of working that are shown without being asked for."""
_BOUNDS = re.compile(r" \([^()]* to [^()]* accepted\)$")
"""What a marker takes as right, to more figures than a learner can use."""
_METHOD = 8
"""Of a working that nobody tried."""
_CONFUSIONS = 2
_SENTENCE_END = re.compile(r"(?<=[.!?]) ")


class Told(NamedTuple):
    """A worked answer in its pieces: what is told at once, and what on `more`."""

    answer: str
    reason: tuple[str, ...]
    confusions: tuple[str, ...]
    rest: tuple[str, ...]


def word_for(mark: Mark) -> str:
    """How an answer went, in a word or two."""
    if mark.marks == mark.of:
        return RIGHT
    if mark.unsure:
        return NOT_SURE
    return PART_RIGHT if mark.marks else NOT_RIGHT


def of_marks(marks: int, of: int) -> str:
    """As "0 of 1 mark", "3 of 4 marks"."""
    return f"{marks} of {counted(of, 'mark')}"


def show_word(screen: Screen, mark: Mark) -> None:
    """The word, the marks, and what the marker says, which never holds the answer to a miss."""
    screen.line()
    if mark.self_marked:
        screen.line(mark.says)
        return
    word = word_for(mark)
    screen.line(f"{word}: {of_marks(mark.marks, mark.of)}", style=_STYLES[word])


def show_says(screen: Screen, part: Part, mark: Mark) -> None:
    """The marker's sentence, unless each marking point says as much below."""
    if mark.says and not mark.self_marked and not (part.kind == "written" and mark.points):
        says = mark.says.removeprefix("Right: ") if mark.marks == mark.of else mark.says
        if len(says.strip(" .")) > 1:  # a letter alone says no more than the word above it
            screen.line(said(screen, says))


def show_points(screen: Screen, part: Part, mark: Mark) -> None:
    """What each marking point earned, where there is more to tell than right or wrong."""
    if not _by_points(part, mark):
        return
    pointwise = part.kind == "written"
    says = {point.id: point.says for point in part.points}
    for point in mark.points:
        words = "method" if point.id == "method" else says.get(point.id, point.id)
        words = _BOUNDS.sub("", words)
        because = f" ({point.because})" if pointwise and point.because and point.marks else ""
        screen.item(_earned(point.marks, point.of, point.unsure), words + because)


def _by_points(part: Part, mark: Mark) -> bool:
    if mark.self_marked:
        return False
    return part.kind == "written" or (len(mark.points) > 1 and 0 < mark.marks < mark.of)


def _earned(marks: int, of: int, unsure: bool) -> str:
    if unsure:
        return "not sure"
    if marks == of:
        return "earned"
    return "partly" if marks else "missing"


def told(part: Part) -> Told:
    """The worked answer of a part: the answer, one reason, at most two confusions, the rest."""
    lines = [line for line in part.worked.split("\n") if line and not _is_answer(line)]
    confusions = tuple(line for line in lines if line.startswith("Not "))
    others = tuple(line for line in lines if not line.startswith("Not ") and line != _model(part))
    if part.kind in _SEVERAL_STEPS:
        return Told(_model(part), *_steps(others))
    if part.kind == "order":  # letters apart: together they are heard as a word
        return Told(" ".join(_model(part)), (), (), others)
    if part.kind == "choice":
        right = [line for line in others if not line.startswith("Not ")]
        return Told("\n".join(right) or _model(part), (), *_some(confusions))
    said = (others[0],) if others else ()
    first, more = _some(confusions)
    return Told(_model(part), said, first, (*others[1:], *more))


def _model(part: Part) -> str:
    return part.model_answer


def _is_answer(line: str) -> bool:
    return line.startswith(("Answer:", "Order:"))


def _steps(lines: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Short working as it is; of a long one the last step, and all of it on `more`."""
    return (lines, (), ()) if len(lines) <= _AT_ONCE else (lines[-1:], (), lines)


def _some(confusions: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    return confusions[:_CONFUSIONS], confusions[_CONFUSIONS:]


def show_told(
    screen: Screen, part: Part, mark: Mark, passed: bool, waiting: Sequence[Part]
) -> tuple[str, ...]:
    """The answer and why, as much of it as is news; returns what `more` would show.

    Nothing that would answer a part still waiting is among it.
    """
    found = _method_at_once(told(part)) if passed else told(part)
    if mark.marks == mark.of and not passed:
        if part.kind not in ("choice", "order", "name") and not _is_said(part, mark):
            screen.item("answer", found.answer)
        return ()
    if passed or not (found.answer in mark.says or _in_points(part, mark)):
        screen.item("answer", _news(found.answer, part, mark, passed))
    known = "" if passed else mark.says
    reasons = [line for line in found.reason if line not in known]
    if mark.slip and part.kind in _SEVERAL_STEPS:
        reasons = []  # the wrong route is named: that is the reason
    confusions = found.confusions if passed or part.kind == "name" else ()
    for line in _safe([*reasons, *confusions], part, waiting, known):
        screen.item("", said(screen, line))
    rest = found.rest if found.rest or not mark.slip else found.reason
    if not passed and part.kind == "choice":
        rest = (*found.confusions, *found.rest)
    return tuple(said(screen, line) for line in _safe(rest, part, waiting, known))


def _news(answer: str, part: Part, mark: Mark, passed: bool) -> str:
    """The answer to a choice without the sentences that were told with the marks."""
    if passed or part.kind != "choice":
        return answer
    sentences = _SENTENCE_END.split(answer)
    return " ".join([sentences[0], *(one for one in sentences[1:] if one not in mark.says)])


def _method_at_once(found: Told) -> Told:
    """Of a part that was passed the beginning of a long working, not its last step alone."""
    if len(found.rest) <= _AT_ONCE or found.reason != found.rest[-1:]:
        return found
    return found._replace(reason=found.rest[:_METHOD], rest=found.rest[_METHOD:])


def _is_said(part: Part, mark: Mark) -> bool:
    """Whether the marker's sentence holds the answer, were it without its unit."""
    number = part.model_answer.split(" ")[0] if part.kind in _SEVERAL_STEPS else part.model_answer
    return number in mark.says


def _in_points(part: Part, mark: Mark) -> bool:
    """Whether the answer stands among the marking points, as one that is missing."""
    missing = {point.id for point in mark.points if point.marks < point.of}
    says = [point.says for point in part.points if point.id in missing]
    return _by_points(part, mark) and part.model_answer in says


def _safe(lines: Sequence[str], part: Part, waiting: Sequence[Part], known: str) -> list[str]:
    """Lines not `known` yet that give no waiting part away.

    Of a part answered in words none is told before another such part: they share their words.
    """
    lines = [line for line in lines if not (known and (line in known or known in line))]
    if part.kind not in _SEVERAL_STEPS and any(one.kind not in _SEVERAL_STEPS for one in waiting):
        return []
    answers = [part.model_answer.casefold() for part in waiting]
    return [line for line in lines if not any(one in line.casefold() for one in answers)]
