"""Lengths of time as ISO 8601 writes them, "PT12.346S", to the millisecond."""

from __future__ import annotations

import re
from fractions import Fraction

_LONGEST = 40
_FORM = r"PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d+)?)S)?"


def duration(milliseconds: int) -> str:
    """Whole milliseconds as seconds: 12346 -> "PT12.346S"."""
    whole, rest = divmod(milliseconds, 1000)
    return f"PT{whole}.{rest:03}".rstrip("0").rstrip(".") + "S" if rest else f"PT{whole}S"


def milliseconds_of(text: str) -> int | None:
    """Hours, minutes and seconds of a duration as milliseconds; None when it is not one."""
    found = re.fullmatch(_FORM, text, re.ASCII) if len(text) <= _LONGEST else None
    if found is None or not any(found.groups()):
        return None
    hours, minutes, seconds = (Fraction(part or 0) for part in found.groups())
    return round(((hours * 60 + minutes) * 60 + seconds) * 1000)
