"""The drawing of a question on a screen, or in words; loaded only when a question has one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.app.pictures import drawing_of

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Graph, Question

_OF_WINDOW = 0.7  # at most; the rest is for the title, what is asked and the answer
_ROWS_BELOW_GRAPH = 7  # for what is told and asked below it, and the answer
_WIDEST_GRAPH, _TALLEST_GRAPH = 120, 40  # beyond that the eye travels further and sees no more
_LEAST, _MOST = 10, 40  # rows
IN_WORDS = "The drawing in words: "
_AROUND = 3  # rows: a blank one, the marks, the answer


def show_picture(screen: Screen, question: Question, whole: bool = False) -> None:
    """Line art; words in plain mode and where the screen cannot show it. `whole`: fill the window.

    Raises:
        DrillError: the drawing is not there or is no drawing.
    """
    if question.graph is not None:
        _show_graph(screen, question.graph, whole)
        return
    drawing, words = drawing_of(question)
    fits = not drawing.exact or drawing.width <= 2 * screen.width
    if not fits or not screen.draws:
        screen.line(IN_WORDS + words)
    else:
        from drill.drawings import cells

        columns = screen.console.width if whole else screen.width
        rows = screen.console.height - 2 if whole else _rows(screen, question)
        screen.picture(cells(drawing, columns, rows))
    screen.line()


def _rows(screen: Screen, question: Question) -> int:
    """As large as the window allows while what is asked still stands below it."""
    from drill.model import ChoiceKey

    part = question.parts[0]
    asked = part.ask.split("\n")
    if isinstance(part.key, ChoiceKey):
        asked += [f"  {option.letter}   {option.text}" for option in part.key.options]
    below = sum(len(line) // screen.width + 1 for line in asked) + _AROUND
    height = screen.console.height
    return max(_LEAST, min(_MOST, int(height * _OF_WINDOW), height - below))


def _show_graph(screen: Screen, graph: Graph, whole: bool) -> None:
    from drill.drawings import graph_grid, graph_in_words, graph_rows

    drawn: tuple[str, ...] | None = None
    faint: tuple[str, ...] = ()
    if screen.draws:
        wide, high = screen.console.width, screen.console.height
        columns = wide if whole else min(_WIDEST_GRAPH, wide)
        rows = high - 2 if whole else min(_TALLEST_GRAPH, high - _ROWS_BELOW_GRAPH)
        drawn, faint = graph_rows(graph, columns, rows), graph_grid(graph, columns, rows)
    if drawn is None:
        screen.line(IN_WORDS + graph_in_words(graph))
    else:
        screen.picture(drawn, faint)
    screen.line()
