"""Which known names an answer holds, and what is left of it when they are set aside.

    "the zinc oxide that didn't react"  ->  zinc oxide, nothing left
    "C is the conical flask"            ->  conical flask, nothing left
    "gas burette"                       ->  burette, "gas" left

Words that change nothing are set aside too: fillers, where it stands, what it is made of, what the
subject adds. None of them is set aside where a look-alike turns on it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from drill.marking.short.beside_names import (
    JOINS,
    OPENING,
    STARTERS,
    is_explanation,
    is_meant,
    is_opening,
    starts_explanation,
)
from drill.marking.short.known_names import KnownNames, is_neutral, tells
from drill.typed.names import NameRules, misspells, plain_name
from drill.typed.spelling import is_word, nearest

LONGEST = 500  # characters of an answer that are read for names
_MOST_WORDS = 40
_SLIPS = 3  # letters that a misspelt word may have more or less, a plural's s with them
_LABEL = re.compile(
    r"^\s*(?:(?:part|label|letter|object|item|apparatus)\s+)?[A-Za-z]\s*"
    r"(?:\bis\b|\bwould be\b|=|:|-\s|\.\s|\))\s*(?=\w)",
    re.IGNORECASE,
)
_DENIED = re.compile(
    r"\b(?:not|isn'?t|rather than|instead of|never)\s+(?:an? |the |just )?[^,;.]*$"
)
_DENYING = frozenset({"not", "isn't", "isnt", "rather", "than", "instead", "never"})
_UNSURE = re.compile(
    r"\b(?:not|don'?t)\s+(?:\w+\s+)?(?:sure|certain|know|remember)\b|(?:\bisn'?t it|innit)\W*$",
    re.IGNORECASE,
)
_ABBREVIATED = re.compile(r"\b([a-z])\.\s?([a-z])\.(?=\W|$)", re.IGNORECASE)  # d.c., i.e.
_WITH = re.compile(r"\bw/(?=\s|[a-z])\s*|\bw/o\b", re.IGNORECASE)
# what another name may stand behind, and what only more about it stands behind
_OTHER = r"[/\n]|\bor\b|\baka\b|\balso (?:called|known as)\b"
_PIECES = re.compile(rf"({_OTHER}|[,;:?!]|\s-+\s|\.(?=\s|$))", re.IGNORECASE)
_BRACKET = re.compile(r"(?<![A-Z])\(([^()]*)\)")


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
    found: list[NamesRead] = []
    before = ""
    for piece, other in _pieces(typed, names):
        said = _completed(piece, before, names) if other else piece
        named = any(one.right or one.alike for one in found)
        # "with the acid or alkali in it": the explanation goes on
        other = other and not (named and set(before.split()[1:]) & STARTERS)
        found.append(_read(said, names, named=named, other=other))
        before = piece
    return NamesRead(
        tuple(name for one in found for name in one.right),
        tuple(name for one in found for name in one.alike),
        tuple(word for one in found for word in one.left),
        all(one.exact for one in found),
    )


def _pieces(typed: str, names: KnownNames) -> Iterator[tuple[str, bool]]:
    """The answer's parts in plain spelling, each with whether it may be another name."""
    text = _ABBREVIATED.sub(r"\1\2", _WITH.sub("with ", _LABEL.sub("", typed[:LONGEST])))
    text = _brackets_out(_UNSURE.sub(" ", text), names.rules)
    whole = plain_name(text, names.rules, reasons=True)
    if whole in names.accepted or whole in names.alike:
        yield whole, False
        return
    split = _PIECES.split(text)
    for between, piece in zip(["", *split[1::2]], split[::2], strict=True):
        plain = plain_name(piece, names.rules, reasons=True)
        if plain:
            yield plain, bool(re.fullmatch(_OTHER, between, re.IGNORECASE))


def _brackets_out(text: str, rules: NameRules) -> str:
    """What stands in brackets, as a piece of its own; a number that belongs to a name stays."""

    def piece(found: re.Match[str]) -> str:
        number = rules.number and re.fullmatch(rules.number, found[1].strip(), re.IGNORECASE)
        return found[0] if number else f" ; {found[1]} ; "

    return _BRACKET.sub(piece, text)


def _completed(piece: str, before: str, names: KnownNames) -> str:
    """ "copper oxide or carbonate": the second is a name with the first word of the one before."""
    if not before or piece in names.alike or piece in names.accepted or len(piece.split()) > 1:
        return piece
    whole = " ".join([*before.split()[:-1], piece])
    return whole if whole in names.accepted else piece


_Match = tuple[int, int, str, bool]  # from, to, the name, whether to the letter


def _read(said: str, names: KnownNames, *, named: bool, other: bool) -> NamesRead:
    """The names of one piece; `named` says that one stood before, `other` that "or" did."""
    if not names.numbered:
        said = names.rules.numeral.sub("", said)
    if said in names.accepted:
        return NamesRead((said,), (), (), True)
    words = said.split()[:_MOST_WORDS]
    things = names.rules.things
    taken = _taken(words, names)
    if not taken:
        explains = not other and (named or words[0] in STARTERS) and is_explanation(words, things)
        left = () if explains else _left(range(len(words)), words, names, lead=not named)
        return NamesRead((), (), left, True)
    first = next(match for match in taken if not _describes(match, taken, words, names))
    start = 0 if named and not other and starts_explanation(words, things) else first[1]
    cut = _explained_from(words, start, taken, names)
    read = _named(words, cut, taken, names)
    if named and not other and read.alike:  # "copper nitrate - the salt that is left"
        neutral = names.rules.neutral.before | names.rules.neutral.behind
        kept = tuple(name for name in read.alike if not set(name.split()) <= neutral)
        return replace(read, alike=kept)
    return read


def _explained_from(
    words: Sequence[str], start: int, taken: Sequence[_Match], names: KnownNames
) -> int:
    """Where an explanation begins, behind the first name."""
    covered = {at for begin, end, *_ in taken for at in range(begin, end)} if start else set()
    for at in range(start, len(words)):
        if (
            at not in covered
            and not (start and tells(words[at], names))
            and starts_explanation(words[at:], names.rules.things)
        ):
            return at
    return len(words)


def _taken(words: list[str], names: KnownNames) -> list[_Match]:
    """The names that stand in these words, none over another."""
    taken: list[_Match] = []
    for match in sorted(_matches(words, names), key=lambda one: _rank(one, names)):
        if all(match[1] <= start or match[0] >= end for start, end, *_ in taken):
            taken.append(match)
    return sorted(taken)


def _named(words: list[str], cut: int, taken: list[_Match], names: KnownNames) -> NamesRead:
    """What is named before `cut`, and behind it only what could be meant as an answer."""
    head = [match for match in taken if match[0] < cut]
    tail = [m for m in taken if m[0] >= cut and is_meant(words[cut:], m[0] - cut, m[2], names.ask)]
    denied = [m for m in head if _DENIED.search(" ".join(words[: m[0]]) + " ")]
    held = [m for m in (*head, *tail) if m not in denied]
    right = tuple(name for _, _, name, _ in held if name in names.accepted)
    alike = tuple(
        m[2] for m in held if m[2] in names.alike and not _describes(m, held, words, names)
    )
    covered = {at for start, end, *_ in head for at in range(start, end)}
    rest = [at for at in range(cut) if at not in covered]
    left = [*_before(words, head, rest, names), *_behind(words, head, rest, names)]
    if _refused(words, cut):
        left.append("not")
    left = [word for word in left if not (denied and word in _DENYING)]
    return NamesRead(right, alike, tuple(left), all(m[3] for m in held))


def _refused(words: Sequence[str], cut: int) -> bool:
    """ "a burette is not used": what is behind the name says no to it."""
    behind = " ".join(words[cut : cut + 3])
    return bool(
        cut
        and re.match(r"(?:is|are|was|would be) (?:not|wrong|never)\b|(?:isn'?t|wasn'?t)\b", behind)
    )


def _before(
    words: Sequence[str], head: Sequence[_Match], rest: Sequence[int], names: KnownNames
) -> tuple[str, ...]:
    first = min((m[0] for m in head if m[2] in names.accepted), default=head[0][0] if head else 0)
    lead = words[:first]
    neutral = {at for at in rest if at < first and is_neutral(words[at], names)}
    if is_opening(lead, neutral, names.rules.things):
        return ()
    return tuple(words[at] for at in rest if at < first and at not in neutral)


def _behind(
    words: Sequence[str], head: Sequence[_Match], rest: Sequence[int], names: KnownNames
) -> tuple[str, ...]:
    first = min((m[0] for m in head if m[2] in names.accepted), default=head[0][0] if head else 0)
    return _left([at for at in rest if at >= first], words, names, lead=False)


def _left(
    places: Iterable[int], words: Sequence[str], names: KnownNames, *, lead: bool
) -> tuple[str, ...]:
    """The words that do change something; before a name a speaker's own words do not."""
    return tuple(
        words[at]
        for at in places
        if not is_neutral(words[at], names) and not (lead and words[at] in OPENING)
    )


def _describes(
    match: _Match, among: Iterable[_Match], words: Sequence[str], names: KnownNames
) -> bool:
    """ "zinc oxide residue", "the residue is zinc oxide": where the zinc oxide is, not what."""
    start, end, name, _ = match
    neutral = names.rules.neutral.before | names.rules.neutral.behind
    beside = {*words[max(0, start - 2) : start], *words[end : end + 1]}
    return (
        name in names.alike
        and all(word in neutral for word in name.split())
        and any(other[2] in names.accepted for other in among)
        and not beside & (JOINS | {"a", "with"})
    )


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
    if abs(len(window) - len(name)) > _SLIPS * (name.count(" ") + 1):
        return False
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


@lru_cache(maxsize=8192)
def _singular(name: str) -> str:
    return re.sub(r"(?<=[a-z]{3})(?<!s)(?<!u)s\b", "", name)
