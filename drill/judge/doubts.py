"""What the judge says where a number is not what it worked out."""

from __future__ import annotations

from typing import NamedTuple


class Doubt(NamedTuple):
    """`about` names the number, `line` is the author's, `says` what it is and what it should be.

    `hint` is what the author can do.
    """

    about: str
    line: int
    says: str
    hint: str = "Report this fault."


def differs(about: str, line: int, found: object, worked: object) -> Doubt:
    """A number or a text that the judge reads otherwise."""
    return Doubt(about, line, f"{about} is {found}; to the second judge it is {worked}.")


def otherwise(about: str, line: int, found: str) -> Doubt:
    """A text that prints another number."""
    says = f'the {about} prints a number otherwise than the second judge: "{found[:80]}".'
    return Doubt(about, line, says)
