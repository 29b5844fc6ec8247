"""What the judge reports when a number differs from the one it worked out."""

from __future__ import annotations

from typing import NamedTuple


class Doubt(NamedTuple):
    """`about` names the number, `line` is the author's, `says` is the value found and expected.

    `hint` is what the author can do.
    """

    about: str
    line: int
    says: str
    hint: str = "Report this fault."


def differs(about: str, line: int, found: object, worked: object) -> Doubt:
    """A number or a text on which the judge disagrees."""
    return Doubt(about, line, f"{about} is {found}; to the second judge it is {worked}.")


def otherwise(about: str, line: int, found: str) -> Doubt:
    """A text that prints another number."""
    says = f'the {about} prints a number otherwise than the second judge: "{found[:80]}".'
    return Doubt(about, line, says)
