"""The starter for each kind of question: what it needs, and a comment on what it may have.

"calculation" is no kind of part: it is a question of three number parts, each worked from the last.
"""
# ruff: noqa: E501  (an author's text stands on one line)

from __future__ import annotations

from collections.abc import Mapping


def _starter(title: str, skill: str, command: str, body: str) -> str:
    return f"""\
format = 1
title = "{title}"
# From skills.toml; the first one is what is scheduled.
skills = ["{skill}"]
command_word = "{command}"
# Any of combined or separate, foundation or higher.
course = ["combined foundation", "combined higher", "separate foundation", "separate higher"]
# seconds = 60            # how long it takes; left out, it follows from the parts
# safety = "Wear eye protection. Follow your school's own risk assessment."

{body}"""


_NUMBER = """\
# What differs from one student to the next, drawn in this order.
[draw]
basin = { from = 38.00, to = 60.00, step = 0.01, unit = "g" }
crystals = { from = 2.00, to = 6.00, step = 0.01, unit = "g" }

# What is worked out, exactly and with units. What is printed names its decimals or figures.
[work]
total = { is = "basin + crystals", unit = "g", decimals = 2, called = "mass of basin and crystals" }
mass = { is = "total - basin", unit = "g", decimals = 2, called = "mass of crystals" }

# What must hold; other numbers are drawn until all of it does.
[require]
"the crystals weigh less than the basin" = "mass < basin"

[[part]]
kind = "number"
ask = "An empty basin has a mass of {basin}. With dry crystals it is {total}. Calculate the mass of the crystals."
answer = "mass"
hint = "What else is on the balance?"
# award = { method = 1, value = 1 }     # marks; left out: one mark, for the value

# A known wrong route: what it gives, from the printed numbers, and what the student is told.
[[part.slip]]
id = "basin-not-subtracted"
gives = "total"
says = "That is the basin and the crystals together: take away the empty basin."
"""

_CALCULATION = '''\
# 1. What differs from one student to the next, drawn in this order. Change the numbers to yours.
[draw]
boat = { from = 1.20, to = 2.40, step = 0.01, unit = "g" }
solid = { from = 2.00, to = 8.00, step = 0.01, unit = "g" }    # never printed: only the readings are
volume = { one_of = [100, 200, 250], unit = "cm3" }
sample = { from = 15, to = 45, step = 5, unit = "cm3" }

# 2. What is worked out, a line for each answer, with units. Convert inside the formula: (volume in dm3).
[work]
both = { is = "boat + solid", unit = "g", decimals = 2 }
mass = { is = "both - boat", unit = "g", decimals = 2, called = "mass of sodium chloride" }
conc = { is = "mass / (volume in dm3)", unit = "g/dm3", called = "concentration" }
taken = { is = "conc * (sample in dm3)", unit = "g", called = "mass in the sample" }

# 3. What must hold, in words; other numbers are drawn until it does.
[require]
"the concentration is a usual one" = "10 < conc < 80"

# 4. The parts. `answer` names a line of [work]; {name} prints a value with its unit.
[[part]]
kind = "number"
skill = "calc.mass-by-difference"
ask = """
A student makes a solution of sodium chloride.
Empty weighing boat: {boat}.
Boat with sodium chloride: {both}.
Calculate the mass of sodium chloride."""
hint = "What else is on the balance?"
answer = "mass"

# A known wrong route: what it gives, from the printed numbers, and what the student is told.
# `says` may be left out where slips.toml has the id, as here.
[[part.slip]]
id = "container-not-subtracted"
gives = "both"

# This answer is worked from the one before it. A student who got (a) wrong and works on from that
# value is marked right here: nothing has to be written for it.
[[part]]
kind = "number"
skill = "calc.mass-concentration"
ask = """
All of it is dissolved in water. The volume of the solution is {volume}.
Calculate the concentration in g/dm3.
Give your answer to 3 significant figures."""
hint = "There are 1000 cm3 in 1 dm3."
answer = "conc"
figures = 3
award = { method = 1, value = 1, figures = 1 }     # left out: one mark, for the value

[[part.slip]]
id = "cm3-not-changed"
gives = "mass / volume"
earns = 1                                          # the marks this route still deserves

[[part.slip]]
id = "inverted"
gives = "volume / 1000 / mass"

[[part]]
kind = "number"
skill = "calc.mass-concentration"
ask = "The student takes {sample} of this solution. Calculate the mass of sodium chloride in it."
hint = "The concentration is the mass in 1 dm3."
answer = "taken"
figures = 3
award = { method = 1, value = 1 }

[[part.slip]]
id = "cm3-not-changed"
gives = "conc * sample"
earns = 1

[[part.slip]]
id = "divided-for-multiplied"
gives = "conc / (sample / 1000)"
'''

_READING = """\
[draw]
level = { from = 11.0, to = 18.5, step = 0.5, unit = "cm3" }

[work]
low = { is = "level - (0.5 in cm3)", unit = "cm3", decimals = 1 }
high = { is = "level + (0.5 in cm3)", unit = "cm3", decimals = 1 }

[[part]]
kind = "reading"
ask = "On a measuring cylinder the long lines are {low} and {high}. The meniscus is halfway between them. Give the volume."
answer = "level"
# between = ["level - 0.1", "level + 0.1"]   # the lowest and highest reading accepted

[[part.slip]]
id = "line-below"
gives = "low"
says = "That is the line below the meniscus: read halfway on."
"""

_CHOICE = """\
[[part]]
kind = "choice"
ask = "Which apparatus is best for measuring 25 cm3 of acid when the base is in excess?"
# several = true          # more than one may be right
# keep_order = true       # options stay in this order

[[part.option]]
text = "a measuring cylinder"
right = true

# Every wrong option says why it is wrong.
[[part.option]]
text = "a beaker"
says = "The marks on a beaker are only a rough guide."

[[part.option]]
text = "a balance"
says = "A balance measures mass, not volume."
"""

_NAME = """\
[[part]]
kind = "name"
ask = "Name the dish in which a salt solution is evaporated."
# Every name that is right; the first one is the model answer.
accept = ["evaporating basin", "evaporating dish", "basin"]

# Names that are easily mixed up with it, each with the difference that decides.
[part.look_alikes]
"crucible" = "A crucible is for heating a solid strongly; a solution would spit out of it."
"beaker" = "A beaker is too tall and narrow: a wide dish lets water leave."
"""

_ORDER = """\
[[part]]
kind = "order"
ask = "Put the steps for making a salt from an insoluble base in order."
# In the right order; students see them mixed up.
steps = [
    "warm the acid",
    "add the base until some is left over",
    "filter",
    "evaporate until crystals form on a cold rod",
    "leave to crystallise",
]

# For a step, why it must come there.
[part.why]
"filter" = "The excess base must be out before the solution is evaporated."
"""

_WRITTEN = """\
[[part]]
kind = "written"
ask = "Explain why the base is added in excess."
max = 1
model_answer = "So that all of the acid reacts."

# One idea each. A pattern lists concepts of lexicon.toml, or plain words, that stand together.
[[part.point]]
id = "acid-reacts"
says = "so that all of the acid reacts"
accept = [
    ["all", "acid", "react"],
    { all = ["no|none", "acid", "left|remains"], window = 8, polarity = "any" },
]
# reject = [["base", "used up"]]     # loses the mark again
# Sample answers with the marks they deserve go beside this file, in NAME.answers.jsonl:
# {"part": "a", "answer": "so that all the acid reacts", "points": {"acid-reacts": 1}}
"""

_FORMULA = """\
[[part]]
kind = "formula"
ask = "Give the formula of blue copper(II) sulfate crystals, with five waters of crystallisation."
accept = ["CuSO4.5H2O"]
"""

_EQUATION = """\
[[part]]
kind = "equation"
ask = "Write a balanced equation for the reaction of magnesium oxide with hydrochloric acid."
accept = ["MgO + 2HCl -> MgCl2 + H2O"]
# Marks; add states = 1 when state symbols are asked for.
award = { species = 1, balance = 1 }
"""

_TABLE = """\
[draw]
first_titre = { from = 23.00, to = 24.00, step = 0.10, unit = "cm3" }

[work]
second_titre = { is = "first_titre + (0.10 in cm3)", unit = "cm3", decimals = 2 }
mean = { is = "mean([first_titre, second_titre])", unit = "cm3", decimals = 2 }

[[part]]
kind = "table"
ask = "Two titres are {first_titre} and {second_titre}. Complete the table with their mean."

# Each cell is marked as a number.
[part.cells.mean]
answer = "mean"

[[part.cells.mean.slip]]
id = "added-only"
gives = "first_titre + second_titre"
says = "That is the sum: divide it by two."
"""

_LEVELS = """\
[[part]]
kind = "levels"
ask = "Describe how to make pure, dry crystals of a salt from an insoluble base and an acid."
model_answer = "Warm the acid. Add the base, stirring, until some is left over. Filter. Evaporate the solution over boiling water until crystals form on a cold rod. Leave it to crystallise, then pat the crystals dry."

# Best first. The student sets the mark, with these words beside the answer.
[[part.level]]
marks = 6
says = "The method would give the result; its key details are there."

[[part.level]]
marks = 4
says = "The method mostly works; one key step is missing or out of place."

[[part.level]]
marks = 2
says = "Some right steps, but the method would not work."

# What a good answer holds, to look for.
[[part.point]]
id = "excess"
says = "adds the base until some is left over"
accept = [["excess"], ["left over"]]

[[part.point]]
id = "filter"
says = "filters off what is left over"
accept = [["filter"]]
"""

STARTERS: Mapping[str, str] = {
    "number": _starter(
        "Mass of crystals by difference", "calc.mass-by-difference", "calculate", _NUMBER
    ),
    "calculation": _starter(
        "Making a solution: three parts",
        'calc.mass-concentration", "calc.mass-by-difference',
        "calculate",
        _CALCULATION,
    ),
    "reading": _starter("Reading between two lines", "measure.read-scale", "give", _READING),
    "choice": _starter("Choosing apparatus for a volume", "apparatus.choose", "choose", _CHOICE),
    "name": _starter("Naming the dish", "apparatus.identify", "name", _NAME),
    "order": _starter("Steps for making a salt", "salts.method-order", "complete", _ORDER),
    "written": _starter("Why the base is in excess", "salts.excess", "explain", _WRITTEN),
    "formula": _starter("Formula of the crystals", "salts.naming", "give", _FORMULA),
    "equation": _starter("Equation for making a salt", "salts.equation", "complete", _EQUATION),
    "table": _starter("Mean of two titres", "titration.concordance", "complete", _TABLE),
    "levels": _starter("Method for making a salt", "salts.method-order", "describe", _LEVELS),
}
