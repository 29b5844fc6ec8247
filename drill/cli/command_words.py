"""The words a learner may type instead of an answer."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping

_PASS = frozenset(
    (
        "pass", "skip", "idk", "dk", "dunno", "i dunno", "dont know", "don't know", "i dont know",
        "i don't know", "i do not know", "do not know", "no idea", "not sure", "no clue",
        "i give up", "give up", "pass please", "i pass", "skip it", "skip this", "skip this one",
        "i have no idea", "i've no idea", "im not sure", "i'm not sure", "i am not sure",
        "i haven't a clue",
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
_ALIKE = {
    "stop": ("stop", "quit", "exit", "bye", "goodbye", "bye bye"),
    "?": ("hint", "hints", "clue"),
    "help": ("help", "/help", "--help", "-h"),
}
"""Words that mean one of ours, alone or with a "please"."""
_LIKELY = {
    "stop": (
        "q", "x", ":q", ":q!", "leave", "end", "out", "finish", "finished", "done", "close",
        "cancel", "abort", "enough", "logout", "log out", "log off", "go", "go home", "esc",
    ),
    "?": ("h", "clues", "tip", "tips"),
}  # fmt: skip
"""Likely ones, where no answer in words is waited for; an answer may be called so."""
_COURTESY = frozenset(("please", "pls", "plz", "now", "thanks"))
_WISHED = (
    "i im i'm want wanna to would i'd like can could may me let let's get need give a an some "
    "the this here just how do you we have of it"
)
_WISHES = _COURTESY | frozenset(_WISHED.split())
REFUSED = "Type it again; or ? for a hint, pass, or stop."
WORDS_AFTER = "more, again, appeal, fix, faulty, stop"
HELP = (
    ("?", "a hint"),
    ("example", "another question of the kind, worked; counts as a hint"),
    ("table", "this question's data, and what a printed paper brings along"),
    ("calc 2 * 3.5", "a calculator; then take makes its line your working"),
    ("question", "the question again, with its options"),
    ("drawing", "the drawing in words"),
    ("larger", "the drawing as large as the window"),
    ("pass", "leave it: no marks, and the answer is shown"),
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
    return _alike(text, _ALIKE, _COURTESY), text


def likely_word(text: str) -> str:
    """The word that is likely meant where a letter or a number is waited for; "" for none.

    Ask before it is done, where it could be an answer.
    """
    return _alike(text, _ALIKE, _WISHES) or _alike(text, _LIKELY, _WISHES)


def _alike(text: str, words: Mapping[str, Collection[str]], without: Collection[str]) -> str:
    """Ours for a text that is nothing but one of these words and some of `without`."""
    plain = text.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").casefold()
    said = [word.strip(".,!?") for word in plain.split()]
    left = " ".join(word for word in said if word and word not in without)
    return next((ours for ours, alike in words.items() if left in alike), "")


def is_word(text: str) -> bool:
    """Whether it is one of the words, however late: no reason and no answer."""
    folded = text.strip().casefold()
    ours = folded in _AT_THE_DESK or folded in _AFTERWARDS or passes(folded)
    return ours or bool(_alike(text, _ALIKE, _COURTESY))


def passes(text: str) -> bool:
    """Whether the text gives the part up, in any of the usual phrases."""
    plain = re.sub(r"[\s.!…]+", " ", text.replace("’", "'")).strip().casefold()
    return plain in _PASS
