"""The words a learner may type instead of an answer."""

from __future__ import annotations

import re

_PASS = frozenset(
    (
        "pass", "skip", "idk", "dk", "dunno", "i dunno", "dont know", "don't know", "i dont know",
        "i don't know", "i do not know", "do not know", "no idea", "not sure", "no clue",
    )
)  # fmt: skip
_AT_THE_DESK = frozenset(
    (
        "?", "stop", "appeal", "fix", "faulty", "example", "table", "larger", "calc", "help",
        "question", "drawing",
    )
)  # fmt: skip
_AFTERWARDS = ("more", "again")
"""Also possible answers in words: taken only where no such answer is waited for."""
WORDS_AFTER = "more, again, appeal, fix, faulty, stop"
HELP = (
    ("?", "a hint"),
    ("example", "another question of the kind, worked; counts as a hint"),
    ("table", "this question's data, and what a printed paper brings along"),
    ("calc 2 * 3.5", "a calculator; then take makes its line your working"),
    ("question", "the question again, with its options"),
    ("drawing", "the drawing in words"),
    ("larger", "the drawing as large as the window"),
    ("pass", "see how it goes, without marks"),
    ("more", "after a mark: the rest of the worked answer"),
    ("again", "after a mark: type the right answer once yourself"),
    ("appeal", "after a mark: it should earn more; your teacher or tutor decides"),
    ("fix", "after a mark: what you meant to type; both are kept"),
    ("faulty", "the question itself is wrong"),
    ("stop", "end the sitting; every answer is kept"),
)
"""Every word with what it does."""


def word_in(text: str, afterwards: bool = False) -> tuple[str, str]:
    """The word and what follows it; ("", text) when it is none.

    `afterwards`: after a verdict, or where no answer in words is waited for.
    """
    first, _, rest = text.strip().partition(" ")
    word = first.casefold()
    if word in ("calc", "take") and (rest or word == "calc" or afterwards):
        return word, rest.strip()
    whole = text.strip().casefold()
    if whole in _AT_THE_DESK or (afterwards and whole in _AFTERWARDS) or whole == "take":
        return whole, ""
    return "", text


def is_word(text: str) -> bool:
    """Whether it is one of the words, however late: no reason and no answer."""
    folded = text.strip().casefold()
    return folded in _AT_THE_DESK or folded in _AFTERWARDS or passes(folded)


def passes(text: str) -> bool:
    """Whether the text gives the part up, in any of the usual phrases."""
    plain = re.sub(r"[\s.!…]+", " ", text.replace("’", "'")).strip().casefold()
    return plain in _PASS
