"""How a question, its verdict and a worked answer look on a student's screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Mark, Part, Question

SAFETY = (
    "This tool is for exam practice. It does not replace your teacher's instructions or your "
    "school's own risk assessment. Do practical work only in a laboratory, with a teacher. "
    "Do not try this at home."
)


# kinds whose mark already names the right answer in its words
_TOLD_BY_THE_MARK = ("choice", "order")


def marks_in_words(marks: int) -> str:
    """`[1 mark]`, `[3 marks]`: as on a printed paper."""
    return f"[{counted(marks, 'mark')}]"


def share(value: float) -> str:
    """A share of marks as a percentage: `share(0.614)` is "61 %"."""
    return f"{100 * value:.0f} %"


def show_question(screen: Screen, question: Question, place: str) -> None:
    """Title, where in the sitting, the safety line, and the text before the parts."""
    screen.line()
    if place:
        screen.pair("", place, style="dim")
    screen.line(question.title, style="bold")
    screen.rule()
    if question.safety:
        screen.line(f"Safety: {question.safety}", style="dim")
    if question.graph:
        _show_picture(screen, question)  # above its text: what is asked stays on the screen
    if question.text:
        screen.line(question.text)
        screen.line()
    if question.picture or question.scale:
        _show_picture(screen, question)


def show_graph_again(screen: Screen, question: Question) -> None:
    """A graph above a later part, because the marks of the last one have pushed it away."""
    if question.graph and not screen.plain:
        _show_picture(screen, question)


def _show_picture(screen: Screen, question: Question) -> None:
    from drill.cli.pictures import show_picture

    show_picture(screen, question)


def show_part(screen: Screen, part: Part, alone: bool) -> None:
    """What is asked, its marks, and options or steps with their letters."""
    lines = part.ask.split("\n")
    if not alone:
        lines[0] = f"({part.id}) {lines[0]}"
    for line in lines[:-1]:
        screen.line(line)
    screen.ended(lines[-1], marks_in_words(part.marks))
    for letter, text in _lettered(part):
        screen.item(letter, text, label_width=2)
    if part.unproven:
        screen.line(
            "The marking of this one has been tried on few answers; check it against the scheme.",
            style="dim",
        )


def _lettered(part: Part) -> list[tuple[str, str]]:
    from drill.model import ChoiceKey, OrderKey

    if isinstance(part.key, ChoiceKey):
        return [(option.letter, option.text) for option in part.key.options]
    if isinstance(part.key, OrderKey):
        return list(part.key.steps)
    return []


def how_to_answer(part: Part) -> str:
    """The few words before the answer line."""
    from drill.model import ChoiceKey, LevelsKey, NumberKey, OrderKey, TableKey

    key = part.key
    if isinstance(key, ChoiceKey):
        return "letters" if key.several else "letter"
    if isinstance(key, OrderKey):
        return "letters in order"
    if isinstance(key, NumberKey):
        if key.unit_printed and part.unit:
            return f"answer in {part.unit}"
        return "answer with its unit" if "unit" in key.award else "answer"
    if isinstance(key, TableKey):
        return "answers, as " + ", ".join(f"{name} = …" for name in key.cells)
    if isinstance(key, LevelsKey):
        return "your method, on one line"
    return "answer"


def show_mark(screen: Screen, part: Part, mark: Mark) -> None:
    """What was earned, point by point and in words, and what to do about the rest."""
    screen.line()
    if mark.self_marked:
        screen.line(mark.says)
        return
    screen.line(f"{mark.marks} of {counted(mark.of, 'mark')}", style="bold")
    pointwise = part.kind == "written"
    if mark.says and not (pointwise and mark.points):
        screen.line(mark.says)
    if not (pointwise or (len(mark.points) > 1 and 0 < mark.marks < mark.of)):
        return
    says = {point.id: point.says for point in part.points}
    for point in mark.points:
        words = "method" if point.id == "method" else says.get(point.id, point.id)
        because = f" ({point.because})" if pointwise and point.because and point.marks else ""
        screen.item(_verdict(point.marks, point.of, point.unsure), words + because)


def _verdict(marks: int, of: int, unsure: bool) -> str:
    if unsure:
        return "not sure"
    if marks == of:
        return "earned"
    return "partly" if marks else "missing"


def show_levels(screen: Screen, part: Part, typed: str) -> None:
    """What each level looks like, an exemplar, and what the learner wrote."""
    from drill.model import LevelsKey

    key = part.key
    assert isinstance(key, LevelsKey)
    lows = [*(top + 1 for top, _ in key.levels[1:]), 1]
    for low, (top, says) in zip(lows, key.levels, strict=True):
        screen.item(f"{top}" if low == top else f"{low} to {top}", says)
    screen.item("0", "nothing that would help to do it")
    screen.item("exemplar", key.exemplar)
    screen.item("you wrote", typed)


def show_worked(
    screen: Screen, part: Part, right: bool, passed: bool = False, said: str = ""
) -> None:
    """The worked answer, as much of it as is news.

    Passed: all of it. Right: the answer in the scheme's words, unless the mark has said it. Wrong:
    how it goes, without what the mark has `said`.
    """
    if passed:
        screen.item("worked", part.worked or part.model_answer)
    elif part.kind == "name":
        if not right and part.model_answer not in said:
            screen.item("answer", part.model_answer)
    elif part.kind in _TOLD_BY_THE_MARK:
        if not right:
            screen.item("worked", _in_short(part))
    elif right or not part.worked:
        if part.model_answer not in said:
            screen.item("answer", part.model_answer)
    else:
        screen.item("worked", part.worked)


def _in_short(part: Part) -> str:
    """The worked answer without the other options; why the learner's was wrong is said above."""
    lines = part.worked.split("\n")
    return "\n".join(line for line in lines if not line.startswith(("Not ", "Answer:")))


def show_example(screen: Screen, question: Question) -> None:
    """A whole question worked through, with nothing to answer."""
    for part in question.parts:
        show_part(screen, part, alone=len(question.parts) == 1)
        screen.item("worked", part.worked or part.model_answer)
        screen.line()
