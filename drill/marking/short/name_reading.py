"""Which known names an answer holds, and what is left of it when they are set aside.

    "the zinc oxide that didn't react"  ->  zinc oxide, nothing left
    "C is the conical flask"            ->  conical flask, nothing left
    "gas burette"                       ->  burette, "gas" left

Words that change nothing are set aside too: fillers, where it stands, what it is made of, what the
subject adds. None of them is set aside where a look-alike turns on it.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from drill.typed.names import NameRules, misspells, plain_name
from drill.typed.spelling import is_word, nearest

LONGEST = 500  # characters of an answer that are read for names
_MOST_WORDS = 40
_LABEL = re.compile(
    r"^\s*(?:(?:part|label|letter|object|item|apparatus)\s+)?[A-Za-z]\s*"
    r"(?:\bis\b|\bwould be\b|=|:|-\s|\.\s|\))\s*(?=\w)",
    re.IGNORECASE,
)
# what follows tells where it is, what it does or why: it names nothing
_CLAUSE = re.compile(
    r"\s+(?:that|which|where|who|when|because|since|so|as|coz|cuz|used|holding|containing|filled|"
    r"full of|connected|attached|to (?!the environment)\w+|for \w+ing|it|they|you|we|left on|"
    r"formed|made (?:of|from|in|by)|dissolved in|in|on|under|over|above|below|inside|from|at the|"
    r"with)\b.*",
    re.DOTALL,
)
_DENIED = re.compile(
    r"\b(?:not|isn'?t|rather than|instead of|never)\s+(?:an? |the |just )?[^,;.]*$"
)
_DENYING = frozenset({"not", "isn't", "isnt", "rather", "than", "instead", "never"})
_PIECES = re.compile(r"[,;/\n]|\bor\b|\baka\b|\balso (?:called|known as)\b|\.\s", re.IGNORECASE)
_FILLERS = (
    "a an the some its it is this that be would could must looks look like called name named of i "
    "think thing type kind sort piece apparatus equipment just one use used maybe probably "
    "was are my answer so and simple standard normal lab laboratory science school chemistry "
    "chemical proper special sometimes known as pair set"
)
_APPEARANCE = (
    "inverted upside down upturned upright vertical horizontal sideways glass metal plastic rubber "
    "wooden wood steel iron porcelain ceramic pyrex small large big little tall wide narrow long "
    "short thin thick round empty full clean dry hot cold electric electrical electronic digital "
    "graduated calibrated marked open closed fluted folded heated lit lighted top bottom left "
    "right upper lower middle second first"
)
FILLERS, _LOOKS = frozenset(_FILLERS.split()), frozenset(_APPEARANCE.split())


@dataclass(frozen=True)
class KnownNames:
    """A key's names in plain spelling, each with how the author wrote it."""

    accepted: Mapping[str, str]
    alike: Mapping[str, str]
    rules: NameRules

    @property
    def numbered(self) -> bool:
        """Whether the number in a name's brackets is part of what is asked for."""
        return any(self.rules.numeral.search(name) for name in self.accepted)


@dataclass(frozen=True)
class NamesRead:
    """`right` and `alike` names that were said, in plain spelling; `left` the words beside them.

    `exact` says that every right one was spelt to the letter.
    """

    right: tuple[str, ...]
    alike: tuple[str, ...]
    left: tuple[str, ...]
    exact: bool


def read_names(typed: str, names: KnownNames) -> NamesRead:
    """Everything an answer names."""
    right: list[str] = []
    alike: list[str] = []
    left: list[str] = []
    exact, before = True, ""
    for piece in _pieces(typed, names):
        found = _read(_completed(piece, before, names), names)
        right += found.right
        alike += found.alike
        left += found.left
        exact = exact and found.exact
        before = piece
    return NamesRead(tuple(right), tuple(alike), tuple(left), exact)


def _pieces(typed: str, names: KnownNames) -> Iterator[str]:
    """The answer's parts in plain spelling; one that only says more about it is passed over."""
    text = _LABEL.sub("", typed[:LONGEST])
    whole = plain_name(text, names.rules)
    if whole in names.accepted or whole in names.alike:
        yield whole
        return
    for index, piece in enumerate(_PIECES.split(text)):
        plain = plain_name(piece, names.rules)
        if not plain or (
            index and re.match(r"(?:it|they|because|used|to|for|with|this|you)\b", plain)
        ):
            continue
        yield plain


def _completed(piece: str, before: str, names: KnownNames) -> str:
    """ "copper oxide or carbonate": the second is a name with the first word of the one before."""
    if not before or _read(piece, names).right or len(piece.split()) > 1:
        return piece
    whole = " ".join([*before.split()[:-1], piece])
    return whole if whole in names.accepted else piece


def _read(said: str, names: KnownNames) -> NamesRead:
    """The names of one piece: of the whole, else without the clause behind."""
    if not names.numbered:
        said = names.rules.numeral.sub("", said)
    if said in names.accepted:
        return NamesRead((said,), (), (), True)
    found = _named(said, names)
    head = _CLAUSE.sub("", said)
    if found.left and head and head != said and not found.alike:
        shorter = _named(head, names)
        if shorter.right and not shorter.left:
            return shorter
    return found


_Match = tuple[int, int, str, bool]  # from, to, the name, whether to the letter


def _named(said: str, names: KnownNames) -> NamesRead:
    words = said.split()[:_MOST_WORDS]
    taken: list[_Match] = []
    for match in sorted(_matches(words, names), key=lambda one: _rank(one, names)):
        if all(match[1] <= start or match[0] >= end for start, end, *_ in taken):
            taken.append(match)
    taken.sort()
    covered = {at for start, end, *_ in taken for at in range(start, end)}
    rest = [word for at, word in enumerate(words) if at not in covered]
    denied = [m for m in taken if _DENIED.search(" ".join(words[: m[0]]) + " ")]
    held = [m for m in taken if m not in denied]
    right = tuple(name for _, _, name, _ in held if name in names.accepted)
    alike = tuple(name for _, _, name, _ in held if name in names.alike)
    if right:  # "zinc oxide residue" says where the zinc oxide is
        alike = tuple(name for name in alike if not _only_describes(name, names.rules))
    left = tuple(
        word for word in rest if not _is_neutral(word, names) and not (denied and word in _DENYING)
    )
    return NamesRead(right, alike, left, all(m[3] for m in held))


def _only_describes(name: str, rules: NameRules) -> bool:
    return all(word in rules.neutral.before | rules.neutral.behind for word in name.split())


def _rank(match: _Match, names: KnownNames) -> tuple[int, int, int]:
    """Long before short, to the letter before misspelt, right before look-alike."""
    start, end, name, exact = match
    return start - end, 0 if exact else 1, 0 if name in names.accepted else 1


def _matches(words: list[str], names: KnownNames) -> Iterator[_Match]:
    """Every place where a known name stands; a place that two of them are near has none."""
    for size in range(1, 8):
        of_size = [n for n in (*names.accepted, *names.alike) if abs(len(n.split()) - size) <= 1]
        for start in range(len(words) - size + 1):
            window = " ".join(words[start : start + size])
            found = [name for name in of_size if _is(window, name, names.rules)]
            same = [name for name in found if name == window]
            sides = {name in names.accepted for name in found}
            if same or len(sides) == 1:
                yield start, start + size, (same or found)[0], bool(same)


def _is(window: str, name: str, rules: NameRules) -> bool:
    """The name, in the plural too, or misspelt as no other word."""
    if window == name or _singular(window) == _singular(name):
        return True
    if len(window.split()) != len(name.split()):
        return _run_together(window, name)
    if sorted(window.split()) == sorted(name.split()):
        return True
    return misspells(_singular(window), _singular(name), rules)


def _run_together(window: str, name: str) -> bool:
    """ "testtube", "stop clock", "testube": other spaces, and one slip where it is no word."""
    typed, meant = window.replace(" ", ""), name.replace(" ", "")
    return typed == meant or (
        typed == window and not is_word(typed) and meant in nearest(typed, (meant,))
    )


def _singular(name: str) -> str:
    return re.sub(r"(?<=[a-z]{3})(?<!s)(?<!u)s\b", "", name)


def _is_neutral(word: str, names: KnownNames) -> bool:
    """Whether a word beside a name changes nothing here."""
    if word in FILLERS:
        return True
    if any(word in name.split() for name in names.alike):
        return False
    neutral = names.rules.neutral
    for own, other in neutral.contrary:
        if word in own and _use(other, names.accepted) and not _use(own, names.accepted):
            return False
    if word in _LOOKS or word in neutral.before or word in neutral.behind:
        return True
    return any(word in name.split() for name in names.accepted) or _is_size(word)


def _is_size(word: str) -> bool:
    """ "50", "cm3": how much it holds."""
    return bool(re.fullmatch(r"\d+(?:\.\d+)?(?:ml|cm\^?3|cm|l|g)?|ml|cm\^?3", word))


def _use(words: Collection[str], names: Collection[str]) -> bool:
    return any(word in words for name in names for word in name.split())
