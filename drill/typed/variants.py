"""British, American and older spellings of one word, read as the same word.

The pairs are common practice: aluminum and aluminium, sulphate and sulfate. None of them changes
one chemical term into another.
"""

from __future__ import annotations

import re
from functools import lru_cache

_PAIRS = [
    (re.compile(pattern), to)
    for pattern, to in (
        (r"sulph", "sulf"),
        (r"aluminum", "aluminium"),
        (r"cesium", "caesium"),
        (r"(?<![a-z])(discol|col|vap|od|flav|behavi|fav)or", r"\1our"),
        (r"(?<![a-z])colourimet", "colorimet"),
        (r"(?<=[a-z]{2})([lndmr])iz(?=[eai*])", r"\1is"),
        (r"(catal|anal|hydrol|electrol)yz", r"\1ys"),
        (r"(?<![a-z])((?:centi|milli|deci|kilo)?(?:met|lit))er(?=s?(?![a-z]))", r"\1re"),
        (r"(?<![a-z])center", "centre"),
        (r"(?<![a-z])fiber", "fibre"),
        (r"(?<![a-z])gray", "grey"),
        (r"(?<![a-z])mold", "mould"),
        (r"vapouris", "vaporis"),
        (r"(?<![a-z])([a-z]{3,})-([1-9])-([a-z]{2,6})(?![a-z])", r"\1\2\3"),  # propan-1-ol
    )
]


@lru_cache(maxsize=8192)
def one_spelling(text: str) -> str:
    """Lower-case `text` with every such word in the spelling that the program uses to compare."""
    for pattern, to in _PAIRS:
        text = pattern.sub(to, text)
    return text
