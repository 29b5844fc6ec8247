"""Words of chemistry that answers of any kind use. Common practice, no source."""

from __future__ import annotations

from drill.subjects.interface import Unitless, Wording

WORDING = Wording(
    directions=(
        "soluble insoluble",
        "cathode anode",
        "pure impure",
        "saturated unsaturated",
        "exothermic endothermic",
        "oxidised reduced",
        "conductor insulator",
        "conductors insulators",
        "reactant product",
    ),
    contraries=("acid alkali",),
    short_forms={
        "evap": "evaporate",
        "filt": "filter",
        "ppt": "precipitate",
        "cryst": "crystallisation",
    },
)

# relative masses are ratios; the molar mass in g/mol has the same number
FORMULA_MASS = Unitless(
    "formula mass", r"formula mass|atomic mass|\bM_?r\b|\bA_?r\b", ("g", "g/mol")
)
