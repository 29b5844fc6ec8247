"""A written answer as words: sentences, clauses, stems, and which of them deny what follows."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby, pairwise

from drill.subjects import every
from drill.typed.typed_text import flat
from drill.typed.variants import one_spelling

_TOKEN = re.compile(r"[a-z][a-z0-9]*|\d+(?:\.\d+)?|[.!?;\n]+|[,:()%]|-(?=\s)")
_JOINED = [
    (re.compile(pattern), to)
    for pattern, to in (
        (r"\bw/o\b", "without"),
        (r"\bw/", "with "),
        (r"\b(conc|concn|temp|vol|soln|approx|evap|cryst|equip|dil)\.", r"\1"),
        (r"\b(?:can't|cant|cannot|can not)\b", "can not"),
        (r"\b(?:won't|wont)\b", "will not"),
        (
            r"\b(do|does|did|is|are|was|were|could|would|should|has|have|had)(?:n't|nt|n)\b",
            r"\1 not",
        ),
        (r"\b(it|that|there|what|he|she)'s\b", r"\1 is"),
        (r"\bits\b", "it"),
        (r"'(?:s|re|ll|ve|d|m)\b", ""),
        (r"'", ""),
        (r"\be\.g\.?|\beg\b", "for example"),
        (r"\bi\.e\.?", "that is"),
        (r"(?<=[a-z])[-/](?=[a-z])", " "),
        (r"\b(alot)\b", "a lot"),
        (r"\b([a-z])\.([a-z])\b\.?", r"\1\2"),
        (r"\bbp\b|\bbpt\b", "boiling point"),
        (r"\bmp\b|\bmpt\b", "melting point"),
        (r"\((\d+(?:\.\d+)?)\)", r" \1 "),
        (r"~(?=\s*\d)", " about "),
        (r"\+(?=ve\b|\s*(?:electrode|terminal|pole)\b)(?:ve\b)?", " positive "),
        (r"(?<![a-z0-9])-(?:ve\b|(?=\s*(?:electrode|terminal|pole)\b))", " negative "),
        (r"(?<![a-z0-9])e-(?![a-z0-9])", "electrons"),
        (r"\b([a-z]{1,2}\d?)\+(?=[\s,.;:)/]|$)", r"\1 "),
        (r"&|\+", " and "),
        (r"\b(step \d)\s*[:.)-]", r"\1 "),
        (r"↑|⬆|⇧", " increases "),
        (r"↓|⬇|⇩", " decreases "),
        (r"≥|>=", " at least "),
        (r"(?<!-)-+>|(?<!=)=+>|→|⇒", " so "),
        (r"(?<=[a-z] )=|(?<=[a-z])=", " is "),
        (r"\bcos\b|\bcuz\b|\bcoz\b|\bbc\b|\bbcuz\b|\bbecos\b|\bbecuase\b", "because"),
    )
]
# notes in haste; common practice, no source
_HASTE = {
    "vol": "volume", "vols": "volumes", "temp": "temperature", "temps": "temperatures",
    "conc": "concentration", "concn": "concentration", "soln": "solution", "sol": "solution",
    "xs": "excess", "thru": "through", "tho": "though", "diff": "different", "equip": "equipment",
    "approx": "about", "prob": "probably", "rxn": "reaction", "w": "with", "b4": "before",
    "u": "you", "ur": "your", "pt": "point", "pts": "points", "const": "constant",
    "cyl": "cylinder", "secs": "seconds", "mins": "minutes", "wld": "would", "shld": "should",
    "cld": "could",
}  # fmt: skip
_SHORT = dict(
    pair
    for short_forms in (_HASTE, *(one.wording.short_forms for one in every()))
    for pair in short_forms.items()
)
# the steps of an answer that begins with a number are sentences, each with its number
_NUMBERED = re.compile(r"\s*[1-9][.)]\s")
_NUMBER = re.compile(r"(?:^|(?<=\s))([1-9])[.)]\s")
_NOTING = re.compile(r"->|=>|→|⇒|(?<=[a-z] )=|(?<=[a-z]):[^:\n]*(?<=[a-z]):")
_ENDS = frozenset(".!?;\n")
# these open a statement of their own, so a denial before them does not reach behind them
_OPENERS = """but because so when once until till if while although though as since then and
otherwise therefore hence thus whereas which unless after before that"""
_DENIERS = """not no never none nor neither nothing cannot hardly barely
stop stops stopping stopped prevent prevents preventing prevented avoid avoids avoiding avoided
fail fails failed unable lack lacks lacking"""
_BREAKS = frozenset(_OPENERS.split())
# how many words a denial reaches; "without the lid heat is lost" denies the lid and not the heat
_DENIES = {**dict.fromkeys(_DENIERS.split(), 4), "not": 6, "never": 6, "without": 2}
LONGEST_REACH = 6
_HELPERS = """do does did will would can could is are was were has have had should may might"""
HELPING = frozenset(_HELPERS.split())
# words of grammar, which are told apart where others are known by their endings only
_GRAMMAR = """a an the is are was be been it its they them this that these those so to of in with
and because for from at by on up out off if or but as than then when you your i we he she there all
not no none will would can could should has have had do does did into through more most less some
any which who what how where until after before while also very too just only"""
LITTLE_WORDS = frozenset(_GRAMMAR.split())
# an answer of five words or more with none of these is a list of keywords, not a statement
_LITTLE = """a an the is are was be been it its they them this that these those so to of in with and
because for from at by on up out off if or but as then than when you your i we he she there all
not no none more less only over under will would can could should has have had do does did into
through use uses make makes get gets stop stops go goes wear keep keeps give gives need put let lets
helps allows means becomes removes prevents reduces completely fully totally entirely clearer better
larger bigger smaller higher lower faster quicker slower easier purer some"""
_STATING = frozenset(_LITTLE.split())
_PARTICLES = frozenset({"up", "out", "off", "over", "on", "in"})
_LIST = 5
_NOTED = 2.3  # words in each of several notes, on average
_FEW_WORDS = 2.0  # the same where three notes or more are set apart by stops
_NO_DENIAL = frozenset({("not", "only"), ("not", "just"), ("no", "matter"), ("not", "necessarily")})
_WITHDRAWING = frozenset(
    {("no", "sorry"), ("sorry", "no"), ("no", "wait"), ("wait", "no"), ("scrap", "that")}
)
_WRONG = (["that", "is", "wrong"], ["that", "was", "wrong"], ["i", "mean", ","])
_INSTEAD = frozenset({("instead", "of"), ("rather", "than")})


@dataclass(frozen=True, slots=True)
class AnswerWord:
    """One word of an answer: as typed (lower case), its stem, its sentence and its clause.

    `piece` tells what stands between two commas or stops. `denies` is how many words behind it a
    denial reaches, 0 when it denies nothing.
    """

    text: str
    stem: str
    sentence: int
    clause: int
    denies: int
    piece: int = 0


def split(text: str) -> list[str]:
    """Lower-case words, numbers and the marks that end a sentence or part a clause."""
    line = flat(text).lower()
    if _NUMBERED.match(line):
        line = _NUMBER.sub(r". \1 ", line)
    for pattern, to in _JOINED:
        line = pattern.sub(to, line)
    line = one_spelling(line)
    return [_SHORT.get(token, token) for token in _TOKEN.findall(line)]


def is_noted(text: str) -> bool:
    """Whether signs stand for verbs: "damp → too heavy", "precise: Red. accurate: Blue".

    Their order is not that of prose.
    """
    return _NOTING.search(flat(text).lower()) is not None


def words_of(text: str) -> list[AnswerWord]:
    """The words of an answer, each told its sentence, clause and piece."""
    found: list[AnswerWord] = []
    sentence = clause = piece = 0
    tokens = _without_withdrawn(split(text))
    for index, token in enumerate(tokens):
        if token[0] in _ENDS:
            sentence, clause, piece = sentence + 1, clause + 1, piece + 1
            continue
        if token in {",", ":", "(", ")", "-"}:
            clause, piece = clause + 1, piece + 1
            continue
        if token in _BREAKS:
            clause += 1
        after = tokens[index + 1] if index + 1 < len(tokens) else ""
        reach = _reach(token, after)
        found.append(AnswerWord(token, stem(token), sentence, clause, reach, piece))
    return found


def _without_withdrawn(tokens: list[str]) -> list[str]:
    """What was taken back is not marked: "until it is dry - no sorry, until half is left".

    As with work that was crossed out, the statement just before goes, and nothing further back.
    """
    kept: list[str] = []
    index = 0
    while index < len(tokens):
        if tuple(tokens[index : index + 2]) not in _WITHDRAWING:
            kept.append(tokens[index])
            index += 1
            continue
        while kept and not kept[-1][0].isalnum():
            kept.pop()
        while kept and kept[-1][0].isalnum() and kept[-1] not in _BREAKS:
            kept.pop()
        index += 2
        if tokens[index : index + 1] == [","] and tokens[index + 1 : index + 4] in _WRONG:
            index += 4
    return kept


def is_keyword_list(words: Sequence[AnswerWord]) -> bool:
    """Whether the answer only names things and states nothing of them.

    A verb among them ("acid reacts filtered pure") states nothing yet. Nor does a particle, unless
    its clause is short and still has room for who did it: "acid used up, filter pure salt" is said
    in haste, "acid used up filter excess pure" and "acid, used up, filter" are lists. Phrases that
    are set apart are notes.
    """
    texts = [word.text for word in words]
    if len(texts) < _LIST or not (_STATING - _PARTICLES).isdisjoint(texts):
        return False
    stammers = any(one == other for one, other in pairwise(texts))
    hasty = any(map(_is_hasty_statement, _clauses(words))) or _are_notes(words)
    return stammers or not hasty


def _are_notes(words: Sequence[AnswerWord]) -> bool:
    """Whether commas or stops part phrases: "yellow flame hides colour, blue has none"."""
    sizes = [len(list(group)) for _, group in groupby(words, lambda one: one.piece)]
    notes = len({word.sentence for word in words})
    if notes >= 3 and notes == len(sizes):
        return len(words) >= _FEW_WORDS * notes
    return len(sizes) > 1 and min(sizes) > 1 and len(words) >= _NOTED * len(sizes)


def _clauses(words: Sequence[AnswerWord]) -> list[list[str]]:
    return [[word.text for word in group] for _, group in groupby(words, lambda one: one.clause)]


def _is_hasty_statement(clause: list[str]) -> bool:
    return 3 <= len(clause) < _LIST and not _PARTICLES.isdisjoint(clause)


def _reach(token: str, after: str) -> int:
    if (token, after) in _NO_DENIAL:
        return 0
    return 3 if (token, after) in _INSTEAD else _DENIES.get(token, 0)


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """The stem the English Snowball rules give; short words and formulae are their own."""
    if len(word) < 4 or not word.isalpha():
        return word
    return str(_stemmer().stemWord(word))


@lru_cache(maxsize=1)
def _stemmer():  # type: ignore[no-untyped-def]
    import snowballstemmer

    return snowballstemmer.stemmer("english")
