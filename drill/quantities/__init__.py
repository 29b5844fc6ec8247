"""Exact numbers with units, the expression language, and chemical formulae.

Everything here is a value: what cannot be read or worked out is a `Fault`, never an exception, and
nothing an author or a learner writes can make it slow or large. Formulae are loaded when they are
first asked for: most questions have none, and every start is waited for.
"""

from typing import TYPE_CHECKING

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

if TYPE_CHECKING:
    from drill.quantities.formulae import Formula, molar_mass, parse_formula
    from drill.quantities.formulae_equations import Equation, read_equation, unbalanced
    from drill.quantities.formulae_typed import Species, readings

__all__ = [
    "FUNCTIONS",
    "PLAIN",
    "Equation",
    "Expression",
    "FactsRow",
    "Fault",
    "Formula",
    "Function",
    "Quantity",
    "Species",
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
    "read_equation",
    "readings",
    "run_steps",
    "same_dimension",
    "show",
    "show_decimals",
    "show_figures",
    "text_of",
    "to_figures",
    "to_plain",
    "unbalanced",
    "unit_of",
]

_LATER = {
    "Formula": "formulae",
    "molar_mass": "formulae",
    "parse_formula": "formulae",
    "Equation": "formulae_equations",
    "read_equation": "formulae_equations",
    "unbalanced": "formulae_equations",
    "Species": "formulae_typed",
    "readings": "formulae_typed",
}


def __getattr__(name: str) -> object:
    """The names of formulae, loaded when first used (PEP 562)."""
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
