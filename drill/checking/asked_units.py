"""An ask that names a unit must name the one beside the answer line, and a quantity has one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from drill.checking.report import Finding
from drill.model import NumberKey, Part, PartSpec, Question, Template
from drill.quantities import unit_of

_NAMED = re.compile(
    r"\b(?:[Gg]ive|[Cc]alculate|[Ww]ork out|[Ff]ind|answer)\b[^.]*?\bin ([^\s.,;:?]+)"
)
# what has no unit: a count, a quotient, a relative value
_PURE = re.compile(
    r"\b(?:number|how many|how often|times|divided by|ratio|relative|R[fF]|x)\b", re.IGNORECASE
)
_PRINTED = re.compile(r"(?:\d|\bin) ([^\s.,;:?]+)")
_WORDS = {"grams": "g", "moles": "mol"}


def units_agree(template: Template, question: Question) -> Iterator[Finding]:
    """ "in mol" beside an answer line in mmol makes every right answer wrong by a thousand."""
    for spec, part in zip(template.parts, question.parts, strict=True):
        if not isinstance(part.key, NumberKey):
            continue
        if not part.key.unit:
            yield from _has_none(part, spec, question.text)
            continue
        wanted = unit_of(part.key.unit)
        for word in _NAMED.findall(part.ask):
            named = unit_of(_WORDS.get(word, word))
            if named is None or wanted is None or not named.symbol:
                continue
            if named.dimension == wanted.dimension and named.scale != wanted.scale:
                says = f'part {part.id} asks for "{word}", but its unit is {part.key.unit}.'
                line = spec.lines.get("unit", spec.line)
                yield Finding(f"unit {part.id}", line, says, "Let the two agree.")


def _has_none(part: Part, spec: PartSpec, text: str) -> Iterator[Finding]:
    """A number without a unit in a question that prints one: its unit would be refused."""
    last = re.split(r"(?<=[.?!])\s+(?=[A-Z])|\n", part.ask.rstrip())
    if any(_PURE.search(sentence) for sentence in last[-2:]):
        return
    units = map(unit_of, _PRINTED.findall(f"{text}\n{part.ask}"))
    found = next((unit.symbol for unit in units if unit and unit.symbol), None)
    if found:
        says = (
            f"part {part.id} has no unit, and the question prints {found}: a typed unit is refused."
        )
        hint = 'Give the values their unit, "x * (1 in g)", or ask for what has none.'
        yield Finding(f"unit {part.id}", spec.line, says, hint, "note")
