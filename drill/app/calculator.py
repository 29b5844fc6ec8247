"""A calculator for one line of figures. It works exactly and never runs what is typed."""

from __future__ import annotations

from dataclasses import dataclass

from drill.quantities import PLAIN, Fault, Quantity, evaluate, parse, show_figures

_SIGNS = str.maketrans({"×": "*", "÷": "/", "−": "-", "–": "-", "·": "*"})
_FIGURES = 10
_LONGEST = 200


@dataclass(frozen=True)
class Sum:
    """A line that was worked out: as it was typed, and what it comes to.

    `exact`: `value` is all of it, not rounded.
    """

    typed: str
    value: str
    exact: bool


def worked_out(typed: str) -> Sum | str:
    """The result of a line of figures, or a sentence saying why it cannot be worked out.

    Args:
        typed: numbers, + - * / ^, brackets, sqrt(…); also × and ÷.
    """
    line = typed.strip().removesuffix("=").strip()
    if not line or len(line) > _LONGEST:
        return "Type a sum, as: calc 100 * 3.77 / 9.2"
    read = parse(line.translate(_SIGNS))
    found = read if isinstance(read, Fault) else evaluate(read, {})
    if isinstance(found, Fault):
        return _refused(found)
    if not isinstance(found, Quantity) or found.unit != PLAIN:
        return "The calculator takes numbers alone, without units."
    shown = _shown(found)
    return Sum(line, shown.rstrip("…"), not shown.endswith("…"))


def _refused(fault: Fault) -> str:
    said = fault.message[:1].upper() + fault.message[1:]
    hint = "" if " in " in fault.hint else fault.hint  # units are for authors
    return f"{said}. {hint}".rstrip()


def _shown(found: Quantity) -> str:
    """To ten figures; … stands for any more."""
    text = show_figures(found.value, _FIGURES)
    if "." in text and "e" not in text.casefold() and "10^" not in text:
        text = text.rstrip("0").rstrip(".")
    return text if _same(text, found) else f"{text}…"


def _same(text: str, found: Quantity) -> bool:
    again = parse(text.replace(" ", "").translate(_SIGNS))
    value = evaluate(again, {}) if not isinstance(again, Fault) else again
    return isinstance(value, Quantity) and value.value == found.value
