"""Every key of a graph drawn with a question, described once: for checking and for the docs."""

from __future__ import annotations

from drill.bank.schema.fields import Field

GRAPH = (
    Field("title", "text", "What the graph shows.", 'title = "Gas from magnesium and acid"',
        required=True),
    Field("x", "table", "The horizontal axis.", 'x = { quantity = "time", unit = "s" }',
        required=True),
    Field("y", "table", "The axis up the side. The program chooses the numbers of both axes: steps "
        "of 1, 2 or 5, more than half of the grid used, zero included when that costs little.",
        'y = { quantity = "volume of gas", unit = "cm3" }', required=True),
    Field("points", "table", "The plotted points, drawn as crosses.",
        'points = { x = "[10, 20, 30]", y = "(0.6 in cm3/s) * x" }', default=None),
    Field("line", "tables", "The lines drawn, each headed [[graph.line]].",
        '[[graph.line]]\ny = "(0.6 in cm3/s) * x"\nfrom = "0"\nto = "30"', default=(), high=8),
)  # fmt: skip

AXIS = (
    Field("quantity", "text", "What is measured along it.", 'quantity = "time"', required=True),
    Field("unit", "text", "Its unit.", 'unit = "s"', default=""),
    Field("from", "formula", "A value the axis must reach down to, besides what is drawn.",
        'from = "0"', default=None),
    Field("to", "formula", "A value the axis must reach up to, besides what is drawn.",
        'to = "60"', default=None),
)  # fmt: skip

POINTS = (
    Field("x", "formula", "The x values: a list.", 'x = "[10, 20, 30]"',
        required=True),
    Field("y", "formula", "The y values, worked out point by point: x is the point's own "
        "x value, and a list of the same length is used item by item. Add a draw of readings for "
        "scatter, with its anomaly.", 'y = "(0.6 in cm3/s) * x"', required=True),
)  # fmt: skip

LINE = (
    Field("y", "formula", "A formula in x: a straight line, or a smooth curve.",
        'y = "(0.6 in cm3/s) * x"', default=None),
    Field("from", "formula", "The value of x at which it begins.", 'from = "0"', default=None),
    Field("to", "formula", "The value of x at which it ends.", 'to = "30"', default=None),
    Field("through", "table", "Instead of a formula: a smooth curve through these points.",
        'through = { x = "[0, 10, 30]", y = "[0, 9, 18]" }', default=None),
    Field("at", "formula", "Instead of a formula: a vertical line at this value of x.",
        'at = "20"', default=None),
    Field("dashed", "truth", "Whether it is dashed, as where a line is carried on beyond the "
        "points.",
        "dashed = true", default=False),
    Field("label", "text", "A word or letter at its end.", 'label = "A"', default=""),
)  # fmt: skip
