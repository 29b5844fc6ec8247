"""Every key of a question, its draws and its steps, described once: for checking and for the docs.

Words are for a teacher who has never programmed. Each example is read by a test.
"""

from __future__ import annotations

from drill.bank.schema.fields import Field
from drill.model import COURSES, SIDES

FORMAT = 1


# common practice in papers at 16, no source
COMMAND_WORDS = (
    "name", "give", "state", "identify", "choose", "describe", "explain", "suggest", "calculate",
    "determine", "show that", "compare", "evaluate", "justify", "plan", "predict", "sketch",
    "label", "complete", "plot",
)  # fmt: skip

TEMPLATE = (
    Field("format", "whole", "Which version of these rules the file follows; always the first "
        "line.",
        "format = 1", required=True, low=1, high=10**6),
    Field("title", "text", "What the question is about, as a student sees it.",
        'title = "Mass of crystals by difference"', required=True),
    Field("skills", "texts", "The skills it practises, from skills.toml; the first one is what is "
        "scheduled.", 'skills = ["calc.mass-by-difference"]', required=True, low=1, high=8),
    Field("command_word", "text", "What the question tells the student to do.",
        'command_word = "calculate"', required=True, allowed=COMMAND_WORDS),
    Field("course", "texts", "Which courses may be asked it.",
        'course = ["combined higher", "separate higher"]', required=True, allowed=COURSES,
        low=1, high=4),
    Field("side", "text", "Which side of the practical it asks about: data are tables, graphs and "
        "readings off drawings.", 'side = "calculation"', default="", allowed=SIDES),
    Field("object", "text", "What it is about, in a word or two, so that a sitting can vary it.",
        'object = "burette"', default=""),
    Field("stem", "text", "The text before the parts.",
        'stem = "A student makes crystals of copper sulfate."', default=""),
    Field("safety", "text", "A line of caution shown with the question.",
        'safety = "Wear eye protection. Follow your school\'s own risk assessment."', default=""),
    Field("picture", "text", "The drawing shown with it, a file of drawings/ without .svg.",
        'picture = "evaporating-basin"', default=""),
    Field("scale", "table", "A scale drawn with it: the draw that holds a row of instruments.csv, "
        "and the formula for what it shows.",
        'scale = { of = "cylinder", reads = "level" }', default=None),
    Field("graph", "table", "A graph drawn with it; its keys stand below [graph].",
        'graph = { title = "Gas made", x = { quantity = "time", unit = "s" }, '
        'y = { quantity = "volume of gas", unit = "cm3" }, '
        'points = { x = "[10, 20, 30]", y = "(0.6 in cm3/s) * x" } }', default=None),
    Field("seconds", "whole", "How long it takes a student; left out, it follows from its parts.",
        "seconds = 90", low=5, high=3600),
    Field("was", "texts", "Ids it had before it was renamed, so that its history stays.",
        'was = ["salts/crystal-mass"]', default=()),
    Field("retired", "truth", "No longer asked; old answers stay readable.", "retired = false",
        default=False),
    Field("draw", "table", "What differs from one student to the next, drawn in this order.",
        'draw = { basin = { from = 38.00, to = 60.00, step = 0.01, unit = "g" } }', default=None),
    Field("work", "table", "What is worked out from the draws, exactly and with units, in this "
        "order.", 'work = { half = { is = "3 / 2" } }', default=None),
    Field("require", "table", "What must hold, in words, and the formula that tells; other numbers "
        "are drawn until all of it does.", 'require = { "one is less than two" = "1 < 2" }',
        default=None),
    Field("part", "tables", "The parts, lettered a, b, c in this order, each headed [[part]].",
        '[[part]]\nkind = "name"\nask = "Name the black solid."\naccept = ["copper oxide"]',
        required=True, low=1, high=12),
)  # fmt: skip

DRAW = (
    Field("from", "formula", "The lowest value; may be a formula over earlier draws.", "from = 20",
        required=True, kinds=("range",)),
    Field("to", "formula", "The highest value.", "to = 40", required=True, kinds=("range",)),
    Field("step", "formula", "From one possible value to the next; for readings, the finest "
        "division.", "step = 5", required=True, kinds=("range", "readings")),
    Field("one_of", "values", "One of these, each as likely: numbers, or words in quotes.",
        'one_of = [0.5, 1.0, 2.0]', required=True, kinds=("choice",), low=1,
        high=200),
    Field("row_of", "text", "A row of this table of facts; its columns are then named with a dot, "
        "as route.acid.", 'row_of = "salts"', required=True, kinds=("row",)),
    Field("where", "table", "Which rows: a column and the value, or values, it must have.",
        'where = { class_use = "yes" }', kinds=("row",), default=None),
    Field("person", "truth", "A student's name, different from the others drawn.", "person = true",
        required=True, kinds=("names",)),
    Field("shuffle", "values", "These, in an order of their own: numbers, or words in quotes.",
        'shuffle = [5, 10, 15]', required=True, kinds=("shuffle",), low=2,
        high=60),
    Field("pick", "whole", "So many of the list in `of`, none twice.", "pick = 2", required=True,
        kinds=("pick",), low=1, high=60),
    Field("of", "values", "What is picked from: numbers, or words in quotes.",
        'of = [5, 10, 15]', required=True,
        kinds=("pick",), low=1, high=200),
    Field("readings", "whole", "So many readings of the same thing, a little apart.",
        "readings = 4", required=True, kinds=("readings",), low=1, high=20),
    Field("centre", "formula", "The value the readings lie round.", "centre = 24.10", required=True,
        kinds=("readings",)),
    Field("spread", "formula", "How far a reading may lie from it.", "spread = 0.10", required=True,
        kinds=("readings",)),
    Field("anomaly", "truth", "Whether one of the readings lies far outside.", "anomaly = true",
        kinds=("readings",), default=False),
    Field("unit", "text", "The unit of the numbers.", 'unit = "cm3"', default="",
        kinds=("range", "choice", "shuffle", "pick", "readings")),
    Field("decimals", "whole", "How many decimal places are shown; left out, as many as `from` and "
        "`step` are written with.", "decimals = 2", low=0, high=6,
        kinds=("range", "choice", "shuffle", "pick", "readings")),
    Field("first", "value", "What seed 0 takes.", "first = 25", kinds=("range",)),
    Field("first", "value", "Which of them seed 0 takes.", "first = 1.0", kinds=("choice",)),
    Field("first", "value", "The id of the row that seed 0 takes.", 'first = "CuO_H2SO4"',
        kinds=("row",)),
    Field("first", "value", "The name that seed 0 takes.", 'first = "Sam"', kinds=("names",)),
)  # fmt: skip

SCALE = (
    Field("of", "text", "The name of the draw that holds a row of instruments.csv.",
        'of = "cylinder"', required=True),
    Field("reads", "formula", "What it shows, in the unit of that row.", 'reads = "level"',
        required=True),
)  # fmt: skip

# the key that tells which kind of draw it is
DRAW_TOLD_BY = {
    "from": "range", "one_of": "choice", "row_of": "row", "person": "names",
    "shuffle": "shuffle", "pick": "pick", "readings": "readings",
}  # fmt: skip

WORK = (
    Field("is", "formula", "How it is worked out.", 'is = "2 * 3"', required=True),
    Field("unit", "text", "The unit it comes out in; another scale or dimension is a fault.",
        'unit = ""', default=""),
    Field("called", "text", "What it is called in the worked answer.",
        'called = "mass of crystals"', default=""),
    Field("decimals", "whole", "How many decimal places are shown.", "decimals = 2", low=0, high=8),
    Field("figures", "whole", "How many significant figures are shown.", "figures = 3", low=1,
        high=8),
)  # fmt: skip
