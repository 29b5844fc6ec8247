"""How a question, its verdict and a worked answer look on a student's screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.cli.without_eyes import said
from drill.plaintext import counted, one_line
from drill.typed.own_words import own_words

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Part, Question

SAFETY = (
    "This tool is for exam practice. It does not replace your teacher's instructions or your "
    "school's own risk assessment. Do practical work only in a laboratory, with a teacher. "
    "Do not try this at home."
)


def marks_in_words(marks: int) -> str:
    """`[1 mark]`, `[3 marks]`: as on a printed paper."""
    return f"[{counted(marks, 'mark')}]"


def share(value: float) -> str:
    """A share of marks as a percentage: `share(0.614)` is "61 %"."""
    return f"{100 * value:.0f} %"


def show_question(
    screen: Screen, question: Question, place: str, safety: bool = True, risk_line: str = ""
) -> None:
    """Title, where in the sitting, the safety line when wanted, and the text before the parts.

    `risk_line` is the school's own and stands below the safety line.
    """
    screen.line()
    if place:
        screen.pair("", place, style="dim")
    screen.line(question.title, style="bold")
    screen.rule()
    if safety and question.safety:
        screen.line(f"Safety: {question.safety}", style="dim")
        if risk_line:
            screen.line(one_line(risk_line, 4000), style="dim")
    if question.graph:
        _show_picture(screen, question)  # above its text: what is asked stays on the screen
    if question.text:
        screen.line(said(screen, question.text))
        screen.line()
    if question.picture or question.scale:
        _show_picture(screen, question)


_CALCULATED = ("number", "table")


def is_pure_calculation(question: Question) -> bool:
    """Whether nothing but numbers is asked for: no place for a notice of safety."""
    return all(part.kind in _CALCULATED for part in question.parts)


def show_graph_again(screen: Screen, question: Question) -> None:
    """A graph above a later part, because the marks of the last one have pushed it away."""
    if question.graph and not screen.plain:
        _show_picture(screen, question)


def _show_picture(screen: Screen, question: Question) -> None:
    from drill.cli.pictures import show_picture

    show_picture(screen, question)


def show_part(screen: Screen, part: Part, alone: bool) -> None:
    """What is asked, its marks, and options or steps with their letters."""
    lines = said(screen, part.ask).split("\n")
    if not alone:
        lines[0] = f"({part.id}) {lines[0]}"
    for line in lines[:-1]:
        screen.line(line)
    screen.ended(lines[-1], marks_in_words(part.marks))
    for letter, text in part.lettered:
        screen.item(letter, text, label_width=2)
    for name, unit in _cells(part):
        screen.item(name, _empty(unit) if screen.plain else f"______ {unit}".rstrip())
    if part.unproven:
        screen.line(
            "The marking of this one has been tried on few answers; check it against the scheme.",
            style="dim",
        )


def is_option(part: Part, text: str) -> bool:
    """Whether the text is the letter or the words of one of the part's options or steps."""
    return text.strip().casefold() in {one.casefold() for pair in part.lettered for one in pair}


def _cells(part: Part) -> list[tuple[str, str]]:
    """The empty cells of a table, each with the unit that is printed in it."""
    from drill.model import TableKey

    if not isinstance(part.key, TableKey):
        return []
    cells = part.key.cells.items()
    return [(name, cell.unit if cell.unit_printed else "") for name, cell in cells]


def _empty(unit: str) -> str:
    return f"to fill in, in {unit}" if unit else "to fill in"


def how_to_answer(part: Part) -> str:
    """The few words before the answer line."""
    from drill.model import ChoiceKey, LevelsKey, NumberKey, OrderKey, TableKey

    key = part.key
    if isinstance(key, ChoiceKey):
        return "letters" if key.several else "letter"
    if isinstance(key, OrderKey):
        named = own_words([text for _, text in key.steps])
        return "letters or names in order" if named else "letters in order"
    if isinstance(key, NumberKey):
        if key.unit_printed and part.unit:
            return f"answer in {part.unit}"
        return "answer with its unit" if "unit" in key.award else "answer"
    if isinstance(key, TableKey):
        return "answers, as " + ", ".join(f"{name} = …" for name in key.cells)
    if isinstance(key, LevelsKey):
        return "your method"
    return "answer"


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


def show_example(screen: Screen, question: Question) -> None:
    """A whole question worked through, with nothing to answer."""
    from drill.cli.feedback import told

    for part in question.parts:
        show_part(screen, part, alone=len(question.parts) == 1)
        found = told(part)
        if part.kind in ("name", "choice"):  # the answer first, what it is mixed up with after it
            screen.item("answer", found.answer)
            for line in (*found.reason, *found.confusions):
                screen.item("", said(screen, line))
        else:
            screen.item("worked", part.worked or part.model_answer)
        screen.line()
