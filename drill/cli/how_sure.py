"""How sure a learner is of an answer, before it is marked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drill.cli.command_words import is_word

if TYPE_CHECKING:
    from drill.cli.screen import Screen

_WORDS = ("guess", "fairly", "certain")


def how_sure(screen: Screen) -> str:
    """One of three words, or "" where it was skipped; anything else is asked about again."""
    asking = "How sure? guess, fairly or certain (Enter: skip) > "
    while word := screen.ask(asking).strip().casefold():
        found = [one for one in _WORDS if one.startswith(word)]
        if found:
            return found[0]
        if is_word(word):
            break
        screen.line("One of the three words, please, or Enter.")
    return ""
