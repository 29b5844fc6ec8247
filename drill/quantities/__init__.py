"""Exact numbers with units, and the expression language.

Errors are values: what cannot be read or worked out is a `Fault`, never an exception. Limits on
size and depth keep any input from an author or a learner from using much time or memory.
"""

from drill.quantities.evaluation.evaluator import evaluate
from drill.quantities.evaluation.functions import FUNCTIONS, Function
from drill.quantities.evaluation.steps import Step, run_steps, to_plain
from drill.quantities.expressions.nodes import Expression
from drill.quantities.expressions.parser import parse
from drill.quantities.expressions.writing import text_of
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
from drill.quantities.units.conversion import convert, pretty, same_dimension
from drill.quantities.units.unit_reading import unit_of
from drill.quantities.values import PLAIN, FactsRow, Fault, Quantity, Unit, Value

__all__ = [
    "FUNCTIONS",
    "PLAIN",
    "Expression",
    "FactsRow",
    "Fault",
    "Function",
    "Quantity",
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
    "parse",
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
