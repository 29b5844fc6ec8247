"""How many things the words of a question ask for."""

from __future__ import annotations

import re

_NUMBERS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_ASKED = re.compile(rf"\b({'|'.join(_NUMBERS)}|[1-6])\b", re.IGNORECASE)


def number_asked(ask: str) -> int:
    """The number in the last line: "Identify the TWO statements" is 2; 0 when none is said."""
    found = _ASKED.findall(ask.rstrip().rpartition("\n")[2])
    return _NUMBERS.get(found[-1].lower()) or int(found[-1]) if found else 0
