"""A scale in words: between which numbers, and how many small divisions from which of them.

That is what one sees in the drawing; working out the reading is left to the reader.
"""

from __future__ import annotations

from fractions import Fraction

from drill.drawings.window import number_on
from drill.model import Scale
from drill.plaintext import counted

# what is read, and where the larger numbers stand
_WHAT = {
    "cylinder": ("the bottom of the curved surface", "upwards", "above"),
    "burette": ("the bottom of the curved surface", "downwards", "below"),
    "thermometer": ("the end of the liquid", "upwards", "above"),
    "syringe": ("the edge of the plunger", "to the right", "to the right of"),
    "ruler": ("the end of the strip", "to the right", "to the right of"),
    "meter": ("the pointer", "to the right", "to the right of"),
}


def scale_in_words(scale: Scale) -> str:
    """The same information as the drawing, without the reading."""
    if scale.shape == "display":
        shown = shown_digits(scale)
        return f"The display of a {scale.name} shows {shown}; its unit is {scale.unit}."
    what, way, side = _WHAT[scale.shape]
    divisions = (scale.reading - scale.low) / scale.division
    count = divisions % scale.spaces
    number = number_on(scale, scale.reading - count * scale.division)
    after = number_on(scale, scale.reading + (scale.spaces - count) * scale.division)
    head = (
        f"{_article(scale.name)} {scale.name} marked in {scale.unit}. The numbers get larger {way}."
    )
    if not count:
        return f"{head} {_sentence(what)} is level with the line at {number}."
    return (
        f"{head} From {number} to {after} there are {scale.spaces} small divisions. "
        f"{_sentence(what)} is {_counted(count)} {side} the line at {number}."
    )


def shown_digits(scale: Scale) -> str:
    """What a display shows: a place for each place of its division."""
    places = next((n for n in range(7) if (scale.division * 10**n).denominator == 1), 6)
    return f"{float(scale.reading):.{places}f}"


def _counted(count: Fraction) -> str:
    whole, rest = divmod(count, 1)
    if not rest:
        return counted(whole, "small division")
    half = "half" if rest == Fraction(1, 2) else f"{float(rest):.1f}"
    if not whole:
        return f"{half} a small division" if half == "half" else f"{half} of a small division"
    if half == "half":
        return f"{whole} and a half small divisions"
    return f"{float(count):.1f} small divisions"


def _article(name: str) -> str:
    return "An" if name[0] in "aeio" else "A"


def _sentence(text: str) -> str:
    return text[0].upper() + text[1:]
