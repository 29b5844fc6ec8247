"""An option said in one's own words: most of its words, and clearly fewer of every other option's.

    "spitting out", "it could spit at you"  ->  "hot liquid may spit out of the basin"

A word that many options share counts little. A "not" on one side only, a number or a colour that
the option lacks and a word that means the contrary of one of its own speak against it.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from drill.model import Option
from drill.subjects import every
from drill.typed.names import word_set
from drill.typed.spelling import is_word, nearest
from drill.typed.variants import one_spelling

_LEAST = 0.5  # of the weight of one word that no other option has
_CLEARLY = 0.5  # the next option may have at most this share of the best one's weight
_SHARE = 0.5  # of the words said, the option must have as many
_SMALL_WORDS = word_set(
    "a an the is are it its it's of to and that this be was were been being option answer one with "
    "in on at by for from i we you they he she them their his her your think would could should "
    "may might can will must so if when then there here do does did has have had as or any some "
    "because just really also now get gets got going go goes than very up"
)
_DENIAL = re.compile(
    r"\b(?:not|no|never|without|nothing|none|neither|nor|cannot|stop(?:s|ped)?|no longer"
    r"|(?:do|does|did|is|are|was|were|ca|wo|would|could|has|have|had|should)n'?t)\b"
)
_CONTRARY = (
    "top bottom", "above below", "over under", "above under", "over below", "large small",
    "big small", "high low", "hot cold", "warm cold", "first last", "more less", "more few",
    "before after", "full empty", "open clos", "left right", "right wrong", "fast slow",
    "quick slow", "up down", "increas decreas", "rise fall", "ris fall", "in out",
    "start end", "strong weak", "dry wet", "dry damp", "clean dirty", "light dark", "long short",
    "thick thin", "too enough",
)  # fmt: skip
_CONTRARIES = frozenset(
    frozenset(pair.split())
    for pair in (*_CONTRARY, *(pair for one in every() for pair in one.wording.contraries))
)
_COLOURS = word_set(
    "white black red blue green yellow orange purple violet pink brown cream colourless grey lilac"
)
_SHORTEST = 4  # letters of a beginning that may stand for a word: temp, conc


@dataclass(frozen=True)
class _Said:
    """Stems of the words that carry meaning, those of no real word apart, and whether denied."""

    words: frozenset[str]
    misspelt: frozenset[str]
    denied: bool


def paraphrased(options: Sequence[Option], text: str) -> Option | None:
    """The option that is told in other words, or None where several or none could be."""
    said = _said(text)
    held = {option.letter: _said(option.text) for option in options}
    weight = {letter: _weight(said, words, held.values()) for letter, words in held.items()}
    alike = [one for one in options if held[one.letter].denied == said.denied]
    ranked = sorted(alike, key=lambda one: -weight[one.letter])
    if not said.words or not ranked:
        return None
    option = ranked[0]
    best, words = weight[option.letter], held[option.letter]
    second = weight[ranked[1].letter] if len(ranked) > 1 else 0
    if best < max(_LEAST, *weight.values()) or second > _CLEARLY * best:
        return None
    known = [word for word in said.words if _is_in(word, said, words.words)]
    fits = len(known) >= _SHARE * len(said.words) and not _speaks_against(said, words)
    return option if fits else None


def _said(text: str) -> _Said:
    text = one_spelling(text.lower().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'"))
    found = re.findall(r"\d+(?:\.\d+)?|[a-z']+", _DENIAL.sub(" ", text))
    words = [word for word in found if word not in _SMALL_WORDS]
    return _Said(
        frozenset(map(_uninflected, words)),
        frozenset(_uninflected(word) for word in words if not is_word(word)),
        bool(_DENIAL.search(text)),
    )


def _uninflected(word: str) -> str:
    """A word without its inflection: spitting, spits -> spit; rinsed, rinse -> rins."""
    word = word.removesuffix("'s")
    cut = re.sub(r"(?<=[a-z]{3})(?:ing|ed|er|es|s|ly)$", "", word)
    return re.sub(r"e$", "", re.sub(r"([bdgmnprt])\1$", r"\1", cut)) if len(cut) > 2 else word


def _weight(said: _Said, words: _Said, everyone: Collection[_Said]) -> float:
    """Each word of the option that was said, by how few options have it."""
    return sum(
        1 / sum(word in one.words for one in everyone)
        for word in words.words
        if any(_is_in(typed, said, frozenset({word})) for typed in said.words)
    )


def _is_in(typed: str, said: _Said, words: frozenset[str]) -> bool:
    """The word, the beginning of one ("temp"), or near one and no word itself."""
    if typed in words:
        return True
    if len(typed) >= _SHORTEST and any(word.startswith(typed) for word in words):
        return True
    return typed in said.misspelt and bool(nearest(typed, words))


def _speaks_against(said: _Said, words: _Said) -> bool:
    """Whether what was said is at odds with this option."""
    extra = {word for word in said.words if not _is_in(word, said, words.words)}
    if any(word[0].isdigit() or word in _COLOURS for word in extra):
        return True
    return any(frozenset((one, other)) in _CONTRARIES for one in extra for other in words.words)
