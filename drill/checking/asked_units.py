"""An ask that names a unit must name the one beside the answer line."""

from __future__ import annotations

import re
from collections.abc import Iterator

from drill.checking.report import Finding
from drill.model import NumberKey, Question, Template
from drill.quantities import unit_of

_NAMED = re.compile(
    r"\b(?:[Gg]ive|[Cc]alculate|[Ww]ork out|[Ff]ind|answer)\b[^.]*?\bin ([^\s.,;:?]+)"
)
_WORDS = {"grams": "g", "moles": "mol"}


def units_agree(template: Template, question: Question) -> Iterator[Finding]:
    """ "in mol" beside an answer line in mmol makes every right answer wrong by a thousand."""
    for spec, part in zip(template.parts, question.parts, strict=True):
        if not isinstance(part.key, NumberKey) or not part.key.unit:
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
