"""Exact numbers with units, figures, chemical formulae, and the expression language of questions."""

from drill.quantities.evaluate import evaluate
from drill.quantities.figures import (
    decimals_of,
    figures_of,
    half_even,
    half_up,
    show,
    show_decimals,
    show_figures,
    to_figures,
)
from drill.quantities.formulae import Formula, molar_mass, parse_formula
from drill.quantities.parser import Expression, parse
from drill.quantities.unit_reading import unit_of
from drill.quantities.units import convert, same_dimension
from drill.quantities.values import PLAIN, Fault, Quantity, Row, Unit, Value
from drill.quantities.work import Step, run_steps, to_plain

__all__ = [
    "PLAIN",
    "Expression",
    "Fault",
    "Formula",
    "Quantity",
    "Row",
    "Step",
    "Unit",
    "Value",
    "convert",
    "decimals_of",
    "evaluate",
    "figures_of",
    "half_even",
    "half_up",
    "molar_mass",
    "parse",
    "parse_formula",
    "run_steps",
    "same_dimension",
    "show",
    "show_decimals",
    "show_figures",
    "to_figures",
    "to_plain",
    "unit_of",
]
