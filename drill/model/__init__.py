"""The frozen values that pass from room to room of the program, shared by all of them.

    bank:      an author's text becomes a `Template`
    generate:  a template and a seed become a `Question` of `Part`s, each with its `Key`
    marking:   a part and what was typed become a `Mark`

Nothing here computes; whatever is exact is a `Fraction` or a `Quantity` of `drill.quantities`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from drill.model.deck import COURSES, SIDES, Deck, Paper, Practical, Skill, Topic
from drill.model.mark import LONGEST_REPLY, Mark, PointMark, Shares
from drill.model.question import (
    Chain,
    ChoiceKey,
    Key,
    LevelsKey,
    MadeKey,
    NameKey,
    NumberKey,
    Option,
    OrderKey,
    Part,
    Point,
    Question,
    Scale,
    Slip,
    SubjectKey,
    TableKey,
    WrittenKey,
)
from drill.model.template import (
    Draw,
    OptionSpec,
    PartSpec,
    Pattern,
    PointSpec,
    Requirement,
    ScaleSpec,
    SlipSpec,
    Template,
)
from drill.model.wording import Leaning, Learned, Way, WordPairs

if TYPE_CHECKING:
    from drill.model.graph import (
        Axis,
        AxisSpec,
        Graph,
        GraphLine,
        GraphPoint,
        GraphSpec,
        LineSpec,
        PointsSpec,
    )

__all__ = [
    "COURSES",
    "LONGEST_REPLY",
    "SIDES",
    "Axis",
    "AxisSpec",
    "Chain",
    "ChoiceKey",
    "Deck",
    "Draw",
    "Graph",
    "GraphLine",
    "GraphPoint",
    "GraphSpec",
    "Key",
    "Leaning",
    "Learned",
    "LevelsKey",
    "LineSpec",
    "MadeKey",
    "Mark",
    "NameKey",
    "NumberKey",
    "Option",
    "OptionSpec",
    "OrderKey",
    "Paper",
    "Part",
    "PartSpec",
    "Pattern",
    "Point",
    "PointMark",
    "PointSpec",
    "PointsSpec",
    "Practical",
    "Question",
    "Requirement",
    "Scale",
    "ScaleSpec",
    "Shares",
    "Skill",
    "Slip",
    "SlipSpec",
    "SubjectKey",
    "TableKey",
    "Template",
    "Topic",
    "Way",
    "WordPairs",
    "WrittenKey",
]


def __getattr__(name: str) -> Any:
    """Values of graphs, loaded when the first one is needed: a start without a graph has none."""
    if name in __all__ and name not in globals():
        from drill.model import graph

        return getattr(graph, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
