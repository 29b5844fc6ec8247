"""An author's `[graph]`: axes, points and lines, each formula in it read and its names checked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drill.bank.files.toml_lines import KeyPath
from drill.bank.files.validation import checked
from drill.bank.reading.name_checks import KnownName, NameScope
from drill.bank.reading.work_reader import check_unit
from drill.bank.schema.graph_schema import AXIS, GRAPH, LINE, POINTS
from drill.model import AxisSpec, GraphSpec, LineSpec, PointsSpec

IN_X = "x"  # what a formula of the graph calls a place along the bottom
_WAYS = ("y", "through", "at")


def read_graph(raw: Mapping[str, Any], names: NameScope) -> GraphSpec | None:
    """The graph, once draws and steps are known; None when it has a fault."""
    return _Reader(names).graph(raw)


class _Reader:
    def __init__(self, names: NameScope) -> None:
        self.names, self.faults = names, names.faults
        self.inner = NameScope(names.faults, names.subject)  # the same names, and x
        self.inner.known = {**names.known, IN_X: KnownName()}

    def graph(self, raw: Mapping[str, Any]) -> GraphSpec | None:
        where: KeyPath = ("graph",)
        before = len(self.faults.found)
        clean = checked(raw, GRAPH, where, self.faults, "", "graph")
        if IN_X in self.names.known:
            message = "in the formulas of a graph x is the place along the bottom."
            self.faults.add(where, message, "Give the draw or step x another name.")
        axes = [self._axis(clean[name], (*where, name)) for name in ("x", "y")]
        points = self._points(clean["points"], (*where, "points"))
        lines = [self._line(one, (*where, "line", i)) for i, one in enumerate(clean["line"] or ())]
        if points is None and not lines:
            message = "nothing is drawn: the graph has no points and no line."
            self.faults.add(where, message, "Write points or [[graph.line]].")
        self.names.looked_in |= self.inner.looked_in
        if len(self.faults.found) > before:
            return None
        x, y = (axis for axis in axes if axis is not None)
        title = self.names.text(clean["title"], (*where, "title"))
        kept = tuple(line for line in lines if line is not None)
        return GraphSpec(title, x, y, points, kept, self.faults.lines.of(where))

    def _axis(self, raw: Mapping[str, Any] | None, where: KeyPath) -> AxisSpec | None:
        if raw is None:
            return None
        clean = checked(raw, AXIS, where, self.faults, "", "an axis")
        check_unit(clean["unit"], (*where, "unit"), self.faults)
        return AxisSpec(
            self.names.text(clean["quantity"] or "", (*where, "quantity")),
            clean["unit"],
            self.names.formula(clean["from"], (*where, "from")),
            self.names.formula(clean["to"], (*where, "to")),
            self.faults.lines.of(where),
        )

    def _points(self, raw: Mapping[str, Any] | None, where: KeyPath) -> PointsSpec | None:
        if raw is None:
            return None
        clean = checked(raw, POINTS, where, self.faults, "", "points")
        x = self.names.formula(clean["x"], (*where, "x"))
        y = self.inner.formula(clean["y"], (*where, "y"))
        if x is None or y is None:
            return None
        return PointsSpec(x, y, self.faults.lines.of(where))

    def _line(self, raw: Mapping[str, Any], where: KeyPath) -> LineSpec | None:
        clean = checked(raw, LINE, where, self.faults, "", "a line")
        ways = [way for way in _WAYS if way in raw]
        if len(ways) != 1:
            message = f"a line has one of {', '.join(_WAYS)}; got {' and '.join(ways) or 'none'}."
            self.faults.add(where, message, 'Write for example: y = "0.6 * x"')
            return None
        ends = [end for end in ("from", "to") if end in raw]
        if (ways[0] == "y" and len(ends) < 2) or (ways[0] != "y" and ends):
            message = "from and to stand with y, and only there."
            self.faults.add(where, message, "Say where the line of a formula begins and ends.")
        return LineSpec(
            self.inner.formula(clean["y"], (*where, "y")),
            self.names.formula(clean["from"], (*where, "from")),
            self.names.formula(clean["to"], (*where, "to")),
            self._points(clean["through"], (*where, "through")),
            self.names.formula(clean["at"], (*where, "at")),
            clean["dashed"],
            self.names.text(clean["label"], (*where, "label")),
            self.faults.lines.of(where),
        )
