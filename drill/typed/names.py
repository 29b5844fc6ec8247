"""Compares names: a misspelling is accepted, another real name is wrong. Subjects may add rules."""

from __future__ import annotations

import re
from collections.abc import Callable

from msgspec import Struct

from drill.typed.spelling import is_word, nearest
from drill.typed.typed_text import flat
from drill.typed.variants import one_spelling

Rewrites = tuple[tuple[re.Pattern[str], str], ...]

_LEAD = re.compile(
    r"^(?:(?:i think|it is|it's|its|this is|that is|the answer is|answer|called|maybe|probably|use)"
    r"\b[\s:]*)+"
)
_AND = re.compile(r"\s*&\s*|\s+\+\s+|\s+'?n'\s+")
_REASON = re.compile(r"\s(?:because|since|so that|as it)\b.*", re.DOTALL)
_DOUBLED = re.compile(r"([a-z])\1")  # one letter for two changes no name: litle, burrette
_E_KEPT = re.compile(r"e(?=ing$)")  # measureing
_ARTICLE = re.compile(r"^(?:a|an|the|some)\s+")
_LONG = 6  # letters of a word that may hold two slips
_NEVER = re.compile(r"(?!)()")  # finds nothing; the group is for those that put it back


def word_set(words: str) -> frozenset[str]:
    """The words of a line, as a set."""
    return frozenset(words.split())


class Heard(Struct, frozen=True):
    """Rules for names spelled phonetically.

    `sounds` are rewritten in both names before comparison, and `silent` letters are left out. Only
    names containing `silent` letters are compared in this way, with words of the same ending.
    """

    sounds: Rewrites
    silent: re.Pattern[str]


class NeutralWords(Struct, frozen=True):
    """Words beside a name that do not affect the mark, unless the question is about them.

    `before` and `behind` say where they may stand; of each pair in `contrary` the first contradict
    the second: a word of one set is not neutral when an accepted name uses one of the other.
    """

    before: frozenset[str] = frozenset()
    behind: frozenset[str] = frozenset()
    contrary: tuple[tuple[frozenset[str], frozenset[str]], ...] = ()


class NameRules(Struct, frozen=True):
    """What a subject adds to the comparing of names; the defaults add nothing.

    Args:
        short: abbreviations written out before anything else, in lower-case text.
        number: a number in brackets that belongs to a name, without its brackets.
        bare_number: the same typed without brackets.
        deciding: endings that change which substance a name means.
        heard: how names are written by ear.
        neutral: words that may stand beside a name.
        note: words on an answer that is of another sort than a name, as a symbol; "" for none.
        is_symbol: whether a text is a symbol for a thing and no name.
        same_symbol: whether two symbols stand for the same thing.
        terms: words of the subject that a general list of words lacks; never misspellings.
        things: what the names of this subject's things end in: beside a name, another thing.
        metals: materials that can be substances as well: beside a substance's name, another one.
    """

    short: Rewrites = ()
    number: str = ""
    bare_number: re.Pattern[str] = _NEVER
    deciding: re.Pattern[str] = _NEVER
    heard: Heard | None = None
    neutral: NeutralWords = NeutralWords()
    note: Callable[[str], str] = lambda typed: ""
    is_symbol: Callable[[str], bool] = lambda text: False
    same_symbol: Callable[[str, str], bool] = lambda one, other: False
    terms: frozenset[str] = frozenset()
    things: frozenset[str] = frozenset()
    metals: frozenset[str] = frozenset()

    @property
    def numeral(self) -> re.Pattern[str]:
        """The number of a name in plain spelling, with the space before it."""
        return re.compile(rf" \({self.number}\)") if self.number else _NEVER


def plain_name(text: str, rules: NameRules, *, reasons: bool = False) -> str:
    """Lower case, no article, no lead-in, one space between words, no dots or brackets alone.

    A reason behind "because" is left out unless `reasons` are to be kept.
    """
    line = flat(text).lower()
    for pattern, to in rules.short:
        line = pattern.sub(to, line)
    line = _AND.sub(" and ", line.strip().strip(".!?,;: \"'"))
    line = _ARTICLE.sub("", _LEAD.sub("", line))
    belongs = rf"(?!\s*{rules.number}\s*\))" if rules.number else ""
    line = re.sub(rf"\({belongs}[^)]*\)", " ", line)
    line = line if reasons else _REASON.sub("", line)
    if rules.number:
        line = re.sub(rf"\s*\(\s*({rules.number})\s*\)", r" (\1)", line)
    line = " ".join(re.split(r"[\s\-_]+", line)).strip()
    return one_spelling(rules.bare_number.sub(r" (\1)", line))


def misspells(said: str, name: str, rules: NameRules) -> bool:
    """Whether `said` is `name`, or no words of its own and near it, word by word."""
    typed, meant = said.split(), name.split()
    if len(typed) != len(meant):
        return "".join(typed) == "".join(meant)
    return all(_same_word(one, other, rules) for one, other in zip(typed, meant, strict=True))


def _same_word(typed: str, meant: str, rules: NameRules) -> bool:
    if typed == meant:
        return True
    if not (typed.isalpha() and meant.isalpha()):
        return False  # a number in brackets or a charge is what it says
    if _DOUBLED.sub(r"\1", typed) == _DOUBLED.sub(r"\1", meant):
        return True
    if _E_KEPT.sub("", typed) == meant:
        return True
    if is_word(typed) or typed in rules.terms:
        return False
    ending = rules.deciding.search(meant)
    if ending is None or typed.endswith(ending[0]):
        return bool(nearest(typed, (meant,))) or (ending is None and _by_ear(typed, meant))
    return rules.heard is not None and _sounds_like(typed, meant, rules.heard)


def _by_ear(typed: str, meant: str) -> bool:
    """Whether a long word with the same beginning has at most two slips: conicle for conical."""
    from rapidfuzz.distance import OSA

    if min(len(typed), len(meant)) < _LONG or typed[:2] != meant[:2]:
        return False
    return OSA.distance(typed, meant, score_cutoff=2) <= 2


def _sounds_like(typed: str, meant: str, rules: Heard) -> bool:
    """Whether a non-word is a phonetic spelling of a name, with the same ending."""
    heard, name = _by_sound(typed, rules), _by_sound(meant, rules)
    if heard[-2:] != name[-2:] or not rules.silent.search(meant):
        return False
    return heard == name or bool(nearest(heard, (name,)))


def _by_sound(word: str, rules: Heard) -> str:
    """Doubled letters once, the sounds in one spelling, without what is silent."""
    word = _DOUBLED.sub(r"\1", word)
    for pattern, to in rules.sounds:
        word = pattern.sub(to, word)
    return rules.silent.sub("", word)
