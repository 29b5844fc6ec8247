"""What is told to somebody who hears the screen: nothing that asks them to look."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.cli.screen import Screen

_LOOK = re.compile(
    r"(?:^|(?<=[.:;?!] )|(?<=, so )|(?<=, and ))([Ll])ook (?:closely )?"
    r"(at|into|for|whether|where|how|what|which|when|who|under|below|above|between|behind|round"
    r"|inside|along|beside|again)\b([^.:;?!]*)",
    re.MULTILINE,
)
"""Somebody is asked to look; not "look up", "look down on it" or "what does it look like"."""
_AT = {"at": "", "into": " inside"}


def said(screen: Screen, text: str) -> str:
    """A hint, a reason or a wrong route as this screen tells it."""
    return without_eyes(text) if screen.plain else text


def without_eyes(text: str) -> str:
    """The same without looking: `without_eyes("Look at the lid.")` is "Check the lid."."""
    return _LOOK.sub(_checked, text)


def _checked(found: re.Match[str]) -> str:
    rest = re.sub(r"\b(and|,) at\b", r"\1", found[3])
    rest = re.sub(r"\band into\b", "and inside", rest)
    verb = "check" if found[1] == "l" else "Check"
    return f"{verb}{_AT.get(found[2], ' ' + found[2])}{rest}"
