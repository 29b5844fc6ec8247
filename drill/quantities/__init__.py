"""Exact numbers with units, the expression language, and chemical formulae.

Everything here is a value: what cannot be read or worked out is a `Fault`, never an exception, and
nothing an author or a learner writes can make it slow or large.
"""

from drill.quantities.evaluate import evaluate
from drill.quantities.figures import (
    decimals_of,
    figures_between,
    figures_of,
    half_even,
    half_up,
    show,
    show_decimals,
    show_figures,
    to_figures,
)
from drill.quantities.formulae import Formula, molar_mass, parse_formula
from drill.quantities.functions import FUNCTIONS, Function
from drill.quantities.nodes import Expression
from drill.quantities.parser import parse
from drill.quantities.unit_reading import unit_of
from drill.quantities.units import convert, pretty, same_dimension
from drill.quantities.values import PLAIN, Fault, Quantity, Row, Unit, Value
from drill.quantities.work import Step, run_steps, to_plain
from drill.quantities.writing import text_of

__all__ = [
    "FUNCTIONS",
    "PLAIN",
    "Expression",
    "Fault",
    "Formula",
    "Function",
    "Quantity",
    "Row",
    "Step",
    "Unit",
    "Value",
    "convert",
    "decimals_of",
    "evaluate",
    "figures_between",
    "figures_of",
    "half_even",
    "half_up",
    "molar_mass",
    "parse",
    "parse_formula",
    "pretty",
    "run_steps",
    "same_dimension",
    "show",
    "show_decimals",
    "show_figures",
    "text_of",
    "to_figures",
    "to_plain",
    "unit_of",
]
