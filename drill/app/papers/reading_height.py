"""From which height a scale was read, told from which way the reading is off.

With the eye above the level of a liquid the line that seems to meet it is one further up, with the
eye below it one further down; only on a burette do the numbers get larger downwards.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.model import Mark, NumberKey, Scale

ABOVE = "scale read too far up, as if from above"
BELOW = "scale read too far down, as if from below"
HEIGHTS = (ABOVE, BELOW)
LIQUIDS = {"cylinder": 1, "burette": -1, "thermometer": 1}
"""Upright scales with a liquid, and whether their numbers get larger upwards."""
_WHICH_LINE = ("parallax", "top-of-curve", "line-above", "line-below", "whole-divisions")
"""Mistakes about which line it is: each may also be the height, and only many tell."""
_LEAST, _MOST = Fraction(2, 5), 3
"""Divisions by which a reading is off; less is how it was rounded, more is another mistake."""


def seen_from(mark: Mark, key: NumberKey, scale: Scale) -> str:
    """`ABOVE` or `BELOW` when the height explains a wrong reading, else "".

    A mistake of another sort that has a name of its own keeps it.
    """
    way = LIQUIDS.get(scale.shape)
    if way is None or mark.value is None or mark.slip not in (None, *_WHICH_LINE):
        return ""
    off = way * (mark.value - key.value) / scale.division
    if key.unit != scale.unit or not _LEAST <= abs(off) <= _MOST:
        return ""
    return ABOVE if off > 0 else BELOW
