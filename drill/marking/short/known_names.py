"""A key's names in plain spelling, and which words beside one of them change nothing."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from drill.typed.names import NameRules, word_set

_FILLERS = (
    "a an the some its it is this that be would could must looks look like called name named of i "
    "think thing type kind sort piece apparatus equipment just one use used maybe probably "
    "was are my answer so and simple standard normal lab laboratory science school "
    "proper special sometimes known as pair set lol tho though haha idk bro please lot "
    "bit rest what's whats thingy thingie bits"
)
_APPEARANCE = (
    "inverted upside down upturned upright vertical horizontal sideways glass metal plastic rubber "
    "wooden wood porcelain ceramic pyrex small large big little tall wide narrow long "
    "short thin thick round empty full clean dry hot cold electric electrical electronic digital "
    "graduated calibrated marked open closed fluted folded heated lit lighted top bottom left "
    "right upper lower middle second first stainless hard soft heavy light spare new old glowing "
    "burning one two three four"
)
FILLERS, _LOOKS = frozenset(_FILLERS.split()), frozenset(_APPEARANCE.split())
_MATERIALS = word_set(
    "china clay cork cotton cardboard foam polystyrene silicone stone paper plastic glass"
)
_COLOURS = word_set(
    "white black grey red blue green yellow orange purple violet pink brown cream colourless "
    "clear transparent see-through coloured"
)


_MADE_LIKE = re.compile(r"(?:^|[a-z])(?:legged|sided|necked|shaped|sized|proof)$")


@dataclass(frozen=True)
class KnownNames:
    """A key's names in plain spelling, each with how the author wrote it."""

    accepted: Mapping[str, str]
    alike: Mapping[str, str]
    rules: NameRules
    ask: str = ""

    @property
    def of_substance(self) -> bool:
        """Whether a metal beside the name would be another substance, not what it is made of."""
        is_symbol, deciding = self.rules.is_symbol, self.rules.deciding
        return any(is_symbol(said) or deciding.search(said) for said in self.accepted.values())

    @property
    def asked(self) -> frozenset[str]:
        """The words that the last sentence of the question uses of what is asked for."""
        last = re.split(r"(?<=[.?!:])\s+|\n", self.ask.strip().lower())[-1]
        return frozenset(re.findall(r"[a-z]{3,}", last)) - self.rules.things

    @property
    def numbered(self) -> bool:
        """Whether the number in a name's brackets is part of what is asked for."""
        return any(self.rules.numeral.search(name) for name in self.accepted)


def tells(word: str, names: KnownNames) -> bool:
    """Whether a look-alike has this word, so that it may change which thing is meant."""
    return any(word in name.split() for name in names.alike)


def is_neutral(word: str, names: KnownNames) -> bool:
    """Whether a word beside a name changes nothing here."""
    if word in FILLERS or not re.search(r"\w", word) or re.fullmatch(r"[a-z]{3,}ly", word):
        return True
    if tells(word, names):
        return False
    if _MADE_LIKE.search(word) or word in names.asked:
        return True
    neutral = names.rules.neutral
    for own, other in neutral.contrary:
        if word in own and _use(other, names.accepted) and not _use(own, names.accepted):
            return False
    if word in _LOOKS or word in neutral.before or word in neutral.behind:
        return True
    if word in _COLOURS | _MATERIALS | names.rules.metals:
        return _is_looks(word, names)
    return any(word in name.split() for name in names.accepted) or _is_size(word)


def _is_looks(word: str, names: KnownNames) -> bool:
    """A colour or a material: not where every name has another one, nor a metal of a substance."""
    metals = names.rules.metals
    if word in metals and names.of_substance:
        return _use((word,), names.accepted)
    own = _COLOURS if word in _COLOURS else _MATERIALS | metals
    return not all(own & set(name.split()) for name in names.accepted) or _use(
        (word,), names.accepted
    )


def _is_size(word: str) -> bool:
    """ "50", "cm3": how much it holds."""
    return bool(re.fullmatch(r"\d+(?:\.\d+)?(?:ml|cm\^?3|cm|l|g)?|ml|cm\^?3", word))


def _use(words: Collection[str], names: Collection[str]) -> bool:
    return any(word in words for name in names for word in name.split())
