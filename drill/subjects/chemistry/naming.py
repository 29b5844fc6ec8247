"""Names of substances: endings that decide, words that change nothing, numbers in brackets."""

from __future__ import annotations

import re

from drill.subjects.chemistry.typed_formulae import readings
from drill.typed.names import Heard, NameRules, NeutralWords

_DRY = frozenset({"solid", "powder", "powdered", "crystals", "crystal"})
_WET = frozenset({"solution", "dilute", "aqueous"})

# "excess copper oxide", "the solution": said beside a name, they are neither right nor wrong
_NEUTRAL = NeutralWords(
    before=frozenset(
        {"excess", "unreacted", "leftover", "left over", "remaining"}
        | {"solid", "powdered", "dilute", "aqueous"}
    ),
    behind=frozenset(
        {"solution", "powder", "crystals", "crystal", "left over", "leftover", "solid"}
    ),
    contrary=((_DRY, _WET), (_WET, _DRY)),
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
    said = readings(typed.strip().rstrip("."))
    is_formula = any(sum(one.atoms.values()) > 1 for one in said)
    return "That is a formula; the name is asked for." if is_formula else ""


NAMES = NameRules(
    short=((re.compile(r"\bsol'?n\b|\(aq\)"), " solution"),),
    number="[ivx]+",  # copper(II) oxide
    bare_number=re.compile(r"(?<=[a-z]{3}) (i{1,3}|iv|vi{0,2})(?= [a-z]{4})"),  # copper II oxide
    # endings that make another substance of it, or another state of the metal
    deciding=re.compile(r"(?:ide|ate|ite|ane|ene|ine|ous|ic)s?$|^\(?[ivx]+\)?$"),
    heard=_HEARD,
    neutral=_NEUTRAL,
    note=_note,
)
