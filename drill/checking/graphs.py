"""A question's graph fits a screen of 80 by 24, holds all that is drawn, and can be read.

Every value read off has a tolerance of half a small division, and no common mistake gives a value
within the tolerance.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from drill.checking.report import Finding
from drill.drawings import graph_rows
from drill.model import Axis, Graph, NumberKey, PartSpec, Question, Template

COLUMNS, ROWS = 80, 17
_LONGEST = 60  # characters of what is measured along an axis


def graph_can_be_read(template: Template, question: Question) -> Iterator[Finding]:
    """Checks that the graph is drawn, lies inside its axes, and leads to the answers by reading."""
    graph = question.graph
    if graph is None or template.graph is None:
        return
    line = template.graph.line
    if question.picture or question.scale is not None:
        says = "a question has a graph or another drawing, not both."
        yield Finding("graph and picture", line, says, "Keep one of them.")
    if graph_rows(graph, COLUMNS, ROWS) is None:
        says = f"the graph does not fit a screen of {COLUMNS} columns and 24 rows."
        yield Finding("graph size", line, says, "Let its values lie closer together.")
    for label in (graph.x.label, graph.y.label):
        if len(label) > _LONGEST:
            says = f'"{label}" is {len(label)} characters long, at most {_LONGEST} fit.'
            yield Finding(f"label {label}", line, says, "Say it shorter.")
    yield from _inside(graph, line)
    for spec, part in zip(template.parts, question.parts, strict=True):
        if spec.read_off and isinstance(part.key, NumberKey):
            yield from _room(spec, part.id, part.key)


def _inside(graph: Graph, line: int) -> Iterator[Finding]:
    drawn = [*graph.points, *(point for one in graph.lines for point in one.path)]
    for x, y in drawn:
        if not (_on(graph.x, x) and _on(graph.y, y)):
            says = f"the point {float(x):g}, {float(y):g} of the graph lies outside its axes."
            yield Finding("graph inside", line, says, "Report this fault.")
            return


def _on(axis: Axis, value: Fraction) -> bool:
    return axis.low <= value <= axis.high


def _room(spec: PartSpec, letter: str, key: NumberKey) -> Iterator[Finding]:
    line = spec.lines.get("read_off", spec.line)
    if key.low is None or key.high is None or not key.low < key.value < key.high:
        says = f"part {letter} has no tolerance for reading the graph."
        yield Finding(f"room {letter}", line, says, "Name what is read in read_off.")
        return
    for slip in key.slips:
        if key.low <= slip.value <= key.high:
            says = f'the slip "{slip.id}" of part {letter} lies within the tolerance for reading.'
            yield Finding(f"slip room {letter} {slip.id}", line, says, "Add a requirement.")
