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
_AROUND = 3  # rows: a blank one, the marks, the answer


def show_picture(screen: Screen, question: Question) -> None:
    """Line art; words in plain mode and where the screen cannot show it.

    Raises:
        DrillError: the drawing is not there or is no drawing.
    """
    if question.graph is not None:
        _show_graph(screen, question.graph)
        return
    drawing, words = drawing_of(question)
    fits = not drawing.exact or drawing.width <= 2 * screen.width
    if screen.plain or not fits or not screen.console.encoding.lower().startswith("utf"):
        screen.line(words)
    else:
        from drill.drawings import cells

        screen.picture(cells(drawing, screen.width, _rows(screen, question)))
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


def _show_graph(screen: Screen, graph: Graph) -> None:
    from drill.drawings import graph_in_words, graph_rows

    drawn = None
    if not screen.plain and screen.console.encoding.lower().startswith("utf"):
        columns = min(_WIDEST_GRAPH, screen.console.width)
        rows = min(_TALLEST_GRAPH, screen.console.height - _ROWS_BELOW_GRAPH)
        drawn = graph_rows(graph, columns, rows)
    if drawn is None:
        screen.line(graph_in_words(graph))
    else:
        screen.picture(drawn)
    screen.line()
