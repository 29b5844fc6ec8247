"""Every key of a part, described once, for checking and for the docs: one list for all kinds."""

from __future__ import annotations

from collections.abc import Mapping

from drill.bank.schema.fields import Field
from drill.frozen import replace
from drill.subjects import SubjectKind

PART_KINDS = ("number", "reading", "choice", "name", "order", "written", "table", "levels")

_NUMBERS = ("number", "reading")
_POINTED = ("written", "levels")

_VALUE_KEYS = (
    Field("answer", "formula", "The right answer: a name from [work], or a formula.",
        'answer = "12.5"', required=True, kinds=_NUMBERS),
    Field("unit", "text", "The unit of the answer, printed beside the answer line.", 'unit = "g"',
        default="", kinds=_NUMBERS),
    Field("unit_asked", "truth", "Whether the student must give the unit.", "unit_asked = true",
        default=False, kinds=_NUMBERS),
    Field("decimals", "whole", "Decimal places of the model answer.", "decimals = 2", low=0, high=8,
        kinds=_NUMBERS),
    Field("figures", "whole", "Significant figures of the model answer.", "figures = 3", low=1,
        high=8, kinds=_NUMBERS),
    Field("award", "table", "The marks: method, value, unit, figures. Left out: one, for the "
        "value.", "award = { method = 1, value = 1 }", default=None, kinds=_NUMBERS),
    Field("between", "pair", "The lowest and highest value accepted, for one read off a drawing.",
        'between = ["11", "13"]', default=None, kinds=_NUMBERS),
    Field("read_off", "table", "Which names the student reads off the graph, and on which "
        "axis: each "
        "may be off by half a small division, and every answer that follows is accepted.",
        'read_off = { high = "y", low = "y" }', default=None, kinds=_NUMBERS),
    Field("slip", "tables", "Known wrong routes, each headed [[part.slip]].",
        '[[part.slip]]\nid = "half"\ngives = "6.25"\nsays = "That is half of it."',
        default=(), high=30, kinds=_NUMBERS),
)  # fmt: skip

PART = (
    Field("kind", "text", "How it is answered.", 'kind = "number"', required=True,
        allowed=PART_KINDS),
    Field("ask", "text", "What is asked.", 'ask = "Calculate the mass of the crystals."',
        required=True),
    Field("skill", "text", "The skill of this part; left out, the question's first.",
        'skill = "calc.mass-by-difference"', default=""),
    Field("hint", "text", "A nudge, shown when the student types ?.",
        'hint = "What else is on the balance?"', default=""),
    *_VALUE_KEYS,
    Field("option", "tables", "The options, each headed [[part.option]].",
        '[[part.option]]\ntext = "a measuring cylinder"\nright = true\n'
        '[[part.option]]\ntext = "a beaker"\nsays = "Its marks are only a rough guide."',
        required=True, low=2, high=10, kinds=("choice",)),
    Field("several", "truth", "Whether more than one option may be right.", "several = true",
        default=False, kinds=("choice",)),
    Field("keep_order", "truth", "Whether the options stay in this order.", "keep_order = true",
        default=False, kinds=("choice",)),
    Field("steps", "texts", "The steps, in the right order.",
        'steps = ["warm the acid", "add the base", "filter", "evaporate"]', required=True, low=3,
        high=10, kinds=("order",)),
    Field("why", "table", "For a step, why it must come there.",
        'why = { "filter" = "The excess solid must be out before evaporating." }', default=None,
        kinds=("order",)),
    Field("award", "table", "The marks: value, at most one fewer than there are steps. One is lost "
        "for every step that has to be moved (common practice, no source). Left out: one.",
        "award = { value = 3 }", default=None, kinds=("order",)),
    Field("accept", "texts", "The names that are right; the first is the model answer.",
        'accept = ["copper oxide", "copper(II) oxide"]', required=True, low=1, high=40,
        kinds=("name",)),
    Field("look_alikes", "table", "Names that are easily mixed up with it, each with the "
        "difference "
        "that decides.", 'look_alikes = { "copper" = "Copper is the metal, not its oxide." }',
        default=None, kinds=("name",)),
    Field("max", "whole", "The most marks; left out, the sum of its points.", "max = 1", low=1,
        high=12, kinds=("written",)),
    Field("asked", "whole", "How many answers are asked for: beyond them, a wrong one cancels a "
        "right one.", "asked = 2", low=1, high=10, kinds=("written",)),
    Field("point", "tables", "The marking points, each headed [[part.point]].",
        '[[part.point]]\nid = "acid"\nsays = "all the acid reacts"\n'
        'accept = [["acid", "reacts"]]', required=True, low=1, high=20, kinds=("written",)),
    Field("point", "tables", "What a good answer holds, each headed [[part.point]].",
        '[[part.point]]\nid = "acid"\nsays = "all the acid reacts"\n'
        'accept = [["acid", "reacts"]]', default=(), high=20, kinds=("levels",)),
    Field("level", "tables", "The levels, best first, each headed [[part.level]].",
        '[[part.level]]\nmarks = 6\nsays = "The method would give the result."\n'
        '[[part.level]]\nmarks = 3\nsays = "Some steps are missing."', required=True,
        low=2, high=4, kinds=("levels",)),
    Field("cells", "table", "The cells to fill in, each a number headed [part.cells.NAME].",
        'cells = { mean = { answer = "12.5" } }', required=True, kinds=("table",)),
    Field("model_answer", "text", "An answer that earns full marks.",
        'model_answer = "So that all of the acid reacts."', required=True, kinds=_POINTED),
    Field("model_answer", "text", "An answer that earns full marks; left out, it is built from the "
        "key.", 'model_answer = "12.5 g"', default="",
        kinds=(*_NUMBERS, "name", "choice", "order", "table")),
    Field("worked", "text", "Words for the worked answer, besides what is built from the key.",
        'worked = "Take the mass of the basin away."', default=""),
)  # fmt: skip


def part_fields(own: Mapping[str, SubjectKind]) -> tuple[Field, ...]:
    """The keys of a part, with these kinds of a subject allowed besides the general ones."""
    names = tuple(own)
    general = (
        replace(field, allowed=(*field.allowed, *names))
        if field.name == "kind"
        else replace(field, kinds=(*field.kinds, *names))
        if field.name == "model_answer" and not field.required
        else field
        for field in PART
    )
    return (*general, *(field for kind in own.values() for field in kind.fields))


CELL = tuple(
    Field(key.name, key.holds, key.says, key.example.replace("[part.", "[part.cells.mean."),
        key.required, key.default, (), key.allowed, key.low, key.high)
    for key in _VALUE_KEYS
)  # fmt: skip

SLIP = (
    Field("id", "text", "A short name for it.", 'id = "basin-not-subtracted"', required=True),
    Field("gives", "formula", "The value it leads to: arithmetic on the printed numbers, without "
        "units, read in the unit of the part.", 'gives = "6.25"', required=True),
    Field("says", "text", "The feedback the student reads. May be left out when slips.toml has "
        "the id.", 'says = "Take the mass of the basin away."', default=""),
    Field("earns", "whole", "The marks this route still deserves.", "earns = 0", default=0, low=0,
        high=20),
    Field("when", "formula", "Only when this holds.", 'when = "1 < 2"', default=None),
)  # fmt: skip

OPTION = (
    Field("text", "text", "The option.", 'text = "a measuring cylinder"', required=True),
    Field("right", "truth", "Whether it is right.", "right = false", default=False),
    Field("right_when", "formula", "It is right when this holds.", 'right_when = "1 > 2"',
        default=None),
    Field("says", "text", "For a wrong option: why it is wrong.",
        'says = "Its marks are only a rough guide."', default=""),
    Field("when", "formula", "Only offered when this holds.", 'when = "1 < 2"', default=None),
)  # fmt: skip

POINT = (
    Field("id", "text", "A short name for it.", 'id = "acid-used-up"', required=True),
    Field("says", "text", "The idea, as a mark scheme has it.", 'says = "all of the acid reacts"',
        required=True),
    Field("accept", "patterns", "Patterns that earn it: concepts of lexicon.toml, or plain words, "
        "that stand together.", 'accept = [["acid", "used"], { all = ["no", "acid"], window = 4 }]',
        required=True, low=1, high=60),
    Field("reject", "patterns", "Patterns that lose it again.", 'reject = [["acid", "excess"]]',
        default=(), high=60),
    Field("ignore", "patterns", "Patterns that change nothing.", 'ignore = ["faster"]',
        default=(), high=60),
    Field("marks", "whole", "Its marks.", "marks = 1", default=1, low=1, high=6),
    Field("needs", "texts", "Points without which it is not given.", 'needs = ["other"]',
        default=()),
    Field("cap", "whole", "The most marks of an answer without this step, or where a reject line "
        "finds something.", "cap = 4", default=None, kinds=("levels",), low=0, high=20),
    Field("after", "text", "The point of the step that must be done before this one. Where the "
        "answer has them the other way round, the level below the best is the most.",
        'after = "other"', default="", kinds=("levels",)),
    Field("when", "formula", "Asked for only when this holds, so that one part can ask in several "
        "readings.", 'when = "1 < 2"', default=None),
)  # fmt: skip

PATTERN = (
    Field("all", "texts", "The concepts or words, all of which must be there; `not x` must not.",
        'all = ["acid", "used"]', required=True, low=1, high=12),
    Field("window", "whole", "The most words from the first to the last of them.", "window = 8",
        low=1, high=60),
    Field("ordered", "truth", "Whether they must come in this order.", "ordered = true",
        default=False),
    Field("orders", "texts", "The orders they may come in, each by their places in the list, those "
        "with `not` left out; `drill bank check` proposes those of right sample answers.",
        'orders = ["1-2", "2-1"]', default=(), high=24),
    Field("polarity", "text", "yes: stated, not denied; no: denied; any: either.",
        'polarity = "any"', default="yes", allowed=("yes", "no", "any")),
)  # fmt: skip

LEVEL = (
    Field("marks", "whole", "The most marks of this level.", "marks = 6", required=True, low=1,
        high=12),
    Field("says", "text", "What an answer of this level looks like.",
        'says = "The method would give the result; key details are there."', required=True),
)  # fmt: skip

AWARDS: Mapping[str, tuple[str, ...]] = {
    "number": ("method", "value", "unit", "figures"),
    "reading": ("method", "value", "unit", "figures"),
    "order": ("value",),
}
