"""Every key of a question's file, described once: this checks a file and writes the docs.

Words are for a teacher who has never programmed. Each example is read by a test.
"""

from __future__ import annotations

from collections.abc import Mapping

from drill.bank.keys import Key

FORMAT = 1

COURSES = ("combined foundation", "combined higher", "separate foundation", "separate higher")

# common practice in papers at 16, no source
COMMAND_WORDS = (
    "name", "give", "state", "identify", "choose", "describe", "explain", "suggest", "calculate",
    "determine", "show that", "compare", "evaluate", "justify", "plan", "predict", "sketch",
    "label", "complete", "plot",
)  # fmt: skip

PART_KINDS = (
    "number", "reading", "choice", "name", "order", "written", "formula", "equation", "table",
    "levels",
)  # fmt: skip

DRAW_KINDS = ("range", "choice", "row", "names", "shuffle", "pick", "readings")

_NUMBERS = ("number", "reading")
_LISTED = ("name", "formula", "equation")
_POINTED = ("written", "levels")

TEMPLATE = (
    Key("format", "whole", "Which version of these rules the file follows; always the first line.",
        "format = 1", required=True, low=1, high=10**6),
    Key("title", "text", "What the question is about, as a student sees it.",
        'title = "Mass of crystals by difference"', required=True),
    Key("skills", "texts", "The skills it practises, from skills.toml; the first one is what is "
        "scheduled.", 'skills = ["calc.mass-by-difference"]', required=True, low=1, high=8),
    Key("command_word", "text", "What the question tells the student to do.",
        'command_word = "calculate"', required=True, allowed=COMMAND_WORDS),
    Key("course", "texts", "Which courses may be asked it.",
        'course = ["combined higher", "separate higher"]', required=True, allowed=COURSES,
        low=1, high=4),
    Key("stem", "text", "What is told before the parts.",
        'stem = "A student makes crystals of copper sulfate."', default=""),
    Key("safety", "text", "A line of caution shown with the question.",
        'safety = "Wear eye protection. Follow your school\'s own risk assessment."', default=""),
    Key("picture", "text", "The drawing shown with it.", 'picture = "evaporating-basin"',
        default=""),
    Key("seconds", "whole", "How long it takes a student; left out, it follows from its parts.",
        "seconds = 90", low=5, high=3600),
    Key("was", "texts", "Ids it had before it was renamed, so that its history stays.",
        'was = ["salts/crystal-mass"]', default=()),
    Key("retired", "truth", "No longer asked; old answers stay readable.", "retired = false",
        default=False),
    Key("draw", "table", "What differs from one student to the next, drawn in this order.",
        'draw = { basin = { from = 38.00, to = 60.00, step = 0.01, unit = "g" } }', default=None),
    Key("work", "table", "What is worked out from the draws, exactly and with units, in this "
        "order.", 'work = { half = { is = "3 / 2" } }', default=None),
    Key("require", "table", "What must hold, in words, and the formula that tells; other numbers "
        "are drawn until all of it does.", 'require = { "one is less than two" = "1 < 2" }',
        default=None),
    Key("part", "tables", "The parts, lettered a, b, c in this order, each headed [[part]].",
        '[[part]]\nkind = "name"\nask = "Name the black solid."\naccept = ["copper oxide"]',
        required=True, low=1, high=12),
)  # fmt: skip

DRAW = (
    Key("from", "formula", "The lowest value; may be a formula over earlier draws.", "from = 20",
        required=True, kinds=("range",)),
    Key("to", "formula", "The highest value.", "to = 40", required=True, kinds=("range",)),
    Key("step", "formula", "From one possible value to the next; for readings, the finest "
        "division.", "step = 5", required=True, kinds=("range", "readings")),
    Key("one_of", "values", "One of these, each as likely.",
        'one_of = ["zinc oxide", "magnesium oxide"]', required=True, kinds=("choice",), low=1,
        high=200),
    Key("row_of", "text", "A row of this table of facts; its columns are then named with a dot, "
        "as route.acid.", 'row_of = "salts"', required=True, kinds=("row",)),
    Key("where", "table", "Which rows: a column and the value, or values, it must have.",
        'where = { class_use = "yes" }', kinds=("row",), default=None),
    Key("person", "truth", "A student's name, different from the others drawn.", "person = true",
        required=True, kinds=("names",)),
    Key("shuffle", "values", "These, in an order of their own.",
        'shuffle = ["first", "second", "third"]', required=True, kinds=("shuffle",), low=2,
        high=60),
    Key("pick", "whole", "So many of the list in `of`, none twice.", "pick = 2", required=True,
        kinds=("pick",), low=1, high=60),
    Key("of", "values", "What is picked from.", 'of = ["zinc", "iron", "copper"]', required=True,
        kinds=("pick",), low=1, high=200),
    Key("readings", "whole", "So many readings of the same thing, a little apart.",
        "readings = 4", required=True, kinds=("readings",), low=1, high=20),
    Key("centre", "formula", "The value the readings lie round.", "centre = 24.10", required=True,
        kinds=("readings",)),
    Key("spread", "formula", "How far a reading may lie from it.", "spread = 0.10", required=True,
        kinds=("readings",)),
    Key("anomaly", "truth", "Whether one of the readings lies far outside.", "anomaly = true",
        kinds=("readings",), default=False),
    Key("unit", "text", "The unit of the numbers.", 'unit = "cm3"', default="",
        kinds=("range", "choice", "shuffle", "pick", "readings")),
    Key("decimals", "whole", "How many decimal places are shown; left out, as many as `from` and "
        "`step` are written with.", "decimals = 2", low=0, high=6,
        kinds=("range", "choice", "shuffle", "pick", "readings")),
    Key("first", "value", "What seed 0 takes; for a row, its id.", "first = 25",
        kinds=("range", "choice", "row", "names")),
)  # fmt: skip

# the key that tells which kind of draw it is
DRAW_TOLD_BY = {
    "from": "range", "one_of": "choice", "row_of": "row", "person": "names",
    "shuffle": "shuffle", "pick": "pick", "readings": "readings",
}  # fmt: skip

WORK = (
    Key("is", "formula", "How it is worked out.", 'is = "2 * 3"', required=True),
    Key("unit", "text", "The unit it comes out in; another scale or dimension is a fault.",
        'unit = ""', default=""),
    Key("called", "text", "What it is called in the worked answer.",
        'called = "mass of crystals"', default=""),
    Key("decimals", "whole", "How many decimal places are shown.", "decimals = 2", low=0, high=8),
    Key("figures", "whole", "How many significant figures are shown.", "figures = 3", low=1,
        high=8),
)  # fmt: skip

_VALUE_KEYS = (
    Key("answer", "formula", "The right answer: a name from [work], or a formula.",
        'answer = "12.5"', required=True, kinds=_NUMBERS),
    Key("unit", "text", "The unit of the answer, printed beside the answer line.", 'unit = "g"',
        default="", kinds=_NUMBERS),
    Key("unit_asked", "truth", "Whether the student must give the unit.", "unit_asked = true",
        default=False, kinds=_NUMBERS),
    Key("decimals", "whole", "Decimal places of the model answer.", "decimals = 2", low=0, high=8,
        kinds=_NUMBERS),
    Key("figures", "whole", "Significant figures of the model answer.", "figures = 3", low=1,
        high=8, kinds=_NUMBERS),
    Key("award", "table", "The marks: method, value, unit, figures (number); species, balance, "
        "states (equation). Left out: all for the value.", "award = { value = 1 }", default=None,
        kinds=(*_NUMBERS, "equation")),
    Key("between", "pair", "The lowest and highest value accepted, for one read off a drawing.",
        'between = ["11", "13"]', default=None, kinds=_NUMBERS),
    Key("slip", "tables", "Known wrong routes, each headed [[part.slip]].",
        '[[part.slip]]\nid = "half"\ngives = "6.25"\nsays = "That is half of it."',
        default=(), high=30, kinds=_NUMBERS),
)  # fmt: skip

PART = (
    Key("kind", "text", "How it is answered.", 'kind = "number"', required=True,
        allowed=PART_KINDS),
    Key("ask", "text", "What is asked.", 'ask = "Calculate the mass of the crystals."',
        required=True),
    Key("skill", "text", "The skill of this part; left out, the question's first.",
        'skill = "calc.mass-by-difference"', default=""),
    Key("hint", "text", "A nudge, shown when the student types ?.",
        'hint = "What else is on the balance?"', default=""),
    *_VALUE_KEYS,
    Key("option", "tables", "The options, each headed [[part.option]].",
        '[[part.option]]\ntext = "a beaker"\nsays = "Its marks are only a rough guide."',
        required=True, low=2, high=10, kinds=("choice",)),
    Key("several", "truth", "Whether more than one option may be right.", "several = true",
        default=False, kinds=("choice",)),
    Key("keep_order", "truth", "Whether the options stay in this order.", "keep_order = true",
        default=False, kinds=("choice",)),
    Key("steps", "texts", "The steps, in the right order.",
        'steps = ["warm the acid", "add the base", "filter", "evaporate"]', required=True, low=3,
        high=10, kinds=("order",)),
    Key("why", "table", "For a step, why it must come there.",
        'why = { "filter" = "The excess solid must be out before evaporating." }', default=None,
        kinds=("order",)),
    Key("accept", "texts", "What is right: names, formulae or equations; the first is the model.",
        'accept = ["copper oxide", "copper(II) oxide"]', required=True, low=1, high=40,
        kinds=_LISTED),
    Key("look_alikes", "table", "Names that are easily mixed up with it, each with the difference "
        "that decides.", 'look_alikes = { "copper" = "Copper is the metal, not its oxide." }',
        default=None, kinds=("name",)),
    Key("max", "whole", "The most marks; left out, the sum of its points.", "max = 2", low=1,
        high=12, kinds=("written",)),
    Key("asked", "whole", "How many answers are asked for: beyond them, a wrong one cancels a "
        "right one.", "asked = 2", low=1, high=10, kinds=("written",)),
    Key("point", "tables", "The marking points, each headed [[part.point]].",
        '[[part.point]]\nid = "acid"\nsays = "all the acid reacts"\n'
        'accept = [["acid", "reacts"]]', required=True, low=1, high=20, kinds=("written",)),
    Key("point", "tables", "What a good answer holds, each headed [[part.point]].",
        '[[part.point]]\nid = "acid"\nsays = "all the acid reacts"\n'
        'accept = [["acid", "reacts"]]', default=(), high=20, kinds=("levels",)),
    Key("level", "tables", "The levels, best first, each headed [[part.level]].",
        '[[part.level]]\nmarks = 6\nsays = "The method would give the result."', required=True,
        low=2, high=4, kinds=("levels",)),
    Key("cells", "table", "The cells to fill in, each a number headed [part.cells.NAME].",
        'cells = { mean = { answer = "12.5" } }', required=True, kinds=("table",)),
    Key("model_answer", "text", "An answer that earns full marks.",
        'model_answer = "So that all of the acid reacts."', required=True, kinds=_POINTED),
    Key("model_answer", "text", "An answer that earns full marks; left out, it is built from the "
        "key.", 'model_answer = "12.5 g"', default="",
        kinds=(*_NUMBERS, *_LISTED, "choice", "order", "table")),
    Key("worked", "text", "Words for the worked answer, besides what is built from the key.",
        'worked = "Take the mass of the basin away."', default=""),
)  # fmt: skip

CELL = tuple(
    Key(key.name, key.holds, key.says, key.example.replace("[part.", "[part.cells.mean."),
        key.required, key.default, (), key.allowed, key.low, key.high)
    for key in _VALUE_KEYS
)  # fmt: skip

SLIP = (
    Key("id", "text", "A short name for it.", 'id = "basin-not-subtracted"', required=True),
    Key("gives", "formula", "The value it leads to: arithmetic on the printed numbers, without "
        "units, read in the unit of the part.", 'gives = "6.25"', required=True),
    Key("says", "text", "What the student is told. May be left out when slips.toml has the id.",
        'says = "Take the mass of the basin away."', default=""),
    Key("earns", "whole", "The marks this route still deserves.", "earns = 0", default=0, low=0,
        high=20),
    Key("when", "formula", "Only when this holds.", 'when = "1 < 2"', default=None),
)  # fmt: skip

OPTION = (
    Key("text", "text", "The option.", 'text = "a measuring cylinder"', required=True),
    Key("right", "truth", "Whether it is right.", "right = false", default=False),
    Key("right_when", "formula", "It is right when this holds.", 'right_when = "1 > 2"',
        default=None),
    Key("says", "text", "For a wrong option: why it is wrong.",
        'says = "Its marks are only a rough guide."', default=""),
    Key("when", "formula", "Only offered when this holds.", 'when = "1 < 2"', default=None),
)  # fmt: skip

POINT = (
    Key("id", "text", "A short name for it.", 'id = "acid-used-up"', required=True),
    Key("says", "text", "The idea, as a mark scheme has it.", 'says = "all of the acid reacts"',
        required=True),
    Key("accept", "patterns", "Patterns that earn it: concepts of lexicon.toml, or plain words, "
        "that stand together.", 'accept = [["acid", "used"], { all = ["no", "acid"], window = 4 }]',
        required=True, low=1, high=60),
    Key("reject", "patterns", "Patterns that lose it again.", 'reject = [["acid", "excess"]]',
        default=(), high=60),
    Key("ignore", "patterns", "Patterns that change nothing.", 'ignore = ["faster"]',
        default=(), high=60),
    Key("marks", "whole", "Its marks.", "marks = 1", default=1, low=1, high=6),
    Key("needs", "texts", "Points without which it is not given.", 'needs = ["other"]',
        default=()),
)  # fmt: skip

PATTERN = (
    Key("all", "texts", "The concepts or words, all of which must be there; `not x` must not.",
        'all = ["acid", "used"]', required=True, low=1, high=12),
    Key("window", "whole", "The most words from the first to the last of them.", "window = 8",
        low=1, high=60),
    Key("ordered", "truth", "Whether they must come in this order.", "ordered = true",
        default=False),
    Key("polarity", "text", "yes: stated, not denied; no: denied; any: either.",
        'polarity = "any"', default="yes", allowed=("yes", "no", "any")),
    Key("linked", "truth", "Whether a because-word must join them.", "linked = true",
        default=False),
)  # fmt: skip

LEVEL = (
    Key("marks", "whole", "The most marks of this level.", "marks = 6", required=True, low=1,
        high=12),
    Key("says", "text", "What an answer of this level looks like.",
        'says = "The method would give the result; key details are there."', required=True),
)  # fmt: skip

AWARDS: Mapping[str, tuple[str, ...]] = {
    "number": ("method", "value", "unit", "figures"),
    "reading": ("method", "value", "unit", "figures"),
    "equation": ("species", "balance", "states"),
}

# heading in the docs -> its keys
GROUPS: Mapping[str, tuple[Key, ...]] = {
    "The question": TEMPLATE,
    "A draw: `[draw]`, `name = { … }`": DRAW,
    "A step: `[work]`, `name = { … }`": WORK,
    "A part: `[[part]]`": PART,
    "A slip of a number: `[[part.slip]]`": SLIP,
    "An option of a choice: `[[part.option]]`": OPTION,
    "A marking point: `[[part.point]]`": POINT,
    "A pattern, where more than a list of words is needed: `{ all = [ … ] }`": PATTERN,
    "A level of an extended answer: `[[part.level]]`": LEVEL,
}
