"""Names of substances: endings that decide, words that change nothing, numbers in brackets."""

from __future__ import annotations

import re

from drill.subjects.chemistry.typed_formulae import readings
from drill.typed.names import Heard, NameRules, NeutralWords, word_set

_DRY = frozenset({"solid", "powder", "powdered", "crystals", "crystal"})
_WET = frozenset({"solution", "dilute", "aqueous"})
_ELEMENT = frozenset({"metal", "atom", "atoms", "element", "molecule", "gas"})
_ION = frozenset({"ion", "ions", "cation", "anion"})

# terms that lists of everyday words lack, so that they are not taken for misspellings
_TERMS = frozenset(
    {"biuret", "sulfite", "sulfide", "sulfate", "nitrite", "nitride", "nitrate", "chlorate"}
    | {"chlorite", "chloride", "bromate", "bromide", "iodate", "iodide", "phosphide", "phosphite"}
    | {"phosphate", "carbide", "carbonate", "hydride", "hydroxide", "oxide", "peroxide", "silicate"}
    | {"ethane", "ethene", "ethanol", "methanal", "propane", "propene", "butane", "butene"}
    | {"cuprous", "cupric", "ferrous", "ferric", "eluate", "solute", "solvent", "titre", "titrant"}
)

# the last words of names of kit and of substances: beside a right name, another thing
_THINGS = word_set(
    "burette buret pipette dropper cylinder syringe flask beaker tube basin dish crucible pot "
    "lid funnel paper filtrate residue stand clamp boss tripod gauze mat mesh triangle tongs "
    "holder peg burner bunsen thermometer balance pestle mortar rack jar pipe cup calorimeter "
    "plate timer stopwatch stopclock clock goggles filler bath hotplate heater mantle jacket "
    "desiccator cupboard hood oven condenser tank adaptor bung stopper cork shelf trough "
    "spatula spoon scoop loop rod boat tray forceps tweezers bottle splint stirrer tile tap "
    "stopcock battery cell lead cable electrode anode cathode electrolyte ammeter voltmeter "
    "probe lamp bulb clip oxide hydroxide carbonate sulfate sulfite sulfide chloride nitrate "
    "nitrite nitride bromide iodide dioxide monoxide peroxide ammonia hydrogen oxygen "
    "nitrogen chlorine bromine iodine lithium sodium potassium calcium magnesium aluminium "
    "zinc iron ethanol methane"
)

# what kit is made of; beside the name of a substance, another substance
_METALS = word_set(
    "iron steel copper brass aluminium tin zinc nichrome platinum nickel silver carbon graphite"
)

# "excess copper oxide", "the solution": said beside a name, they are neither right nor wrong
_NEUTRAL = NeutralWords(
    before=frozenset(
        {"excess", "unreacted", "leftover", "left", "over", "remaining", "undissolved", "extra"}
        | {"solid", "powdered", "dilute", "dil", "aqueous", "hydrated", "dissolved", "pure"}
        | {"blue", "green", "white", "black", "colourless", "clear", "pink", "yellow", "brown"}
        | {
            "salt",
            "compound",
            "substance",
            "chemical",
            "chemistry",
            "acid",
            "base",
            "insoluble",
            "soluble",
        }
    ),
    behind=frozenset(
        {"solution", "powder", "crystals", "crystal", "solid", "residue", "filtrate"}
        | {"ion", "ions", "cation", "anion"}
    ),
    contrary=((_DRY, _WET), (_WET, _DRY), (_ELEMENT, _ION)),
)

# oxid, nitrat, sulfait, oxyde: written as heard, these can be no other term
_HEARD = Heard(
    sounds=(
        (re.compile("ph"), "f"),
        (re.compile("y|ie|ei"), "i"),
        (re.compile("a[iy]|ei?gh"), "a"),
    ),
    silent=re.compile(r"(?<=id|at|it)e(?=s?$)"),
)


def _note(typed: str) -> str:
    """What to say of a name answered in symbols of more than one atom."""
    return "That is a formula; the name is asked for." if _is_symbol(typed) else ""


def _is_symbol(text: str) -> bool:
    """Whether it is a formula, of more than one atom or with a charge."""
    said = readings(text.strip().rstrip("."))
    return any(sum(one.atoms.values()) > 1 or one.charge for one in said)


def _same_symbol(one: str, other: str) -> bool:
    """Whether two formulae are of the same thing."""
    if not one[:1].isupper():
        return False
    said = {species.same for species in readings(one)}
    return any(species.same in said for species in readings(other))


NAMES = NameRules(
    short=((re.compile(r"\bsol'?n\b|\(aq\)"), " solution"),),
    number="[ivx]+",  # copper(II) oxide
    bare_number=re.compile(
        r"(?<=[a-z]{3}) (i{1,3}|iv|vi{0,2})(?! (?:think|guess|would))(?= [a-z]{3}|$)"
    ),
    # endings that make another substance of it, or another state of the metal
    deciding=re.compile(r"(?:ide|ate|ite|ane|ene|ine|ous|ic)s?$|^\(?[ivx]+\)?$"),
    heard=_HEARD,
    neutral=_NEUTRAL,
    note=_note,
    is_symbol=_is_symbol,
    same_symbol=_same_symbol,
    terms=_TERMS,
    things=_THINGS,
    metals=_METALS,
)
