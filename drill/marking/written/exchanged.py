"""Who does what, and which way: whether an answer reads better with some of its words turned.

"Acid filters the oxide" has the words of a right answer and says something else. For every thing of
a part, and every word that tells which way, it is known what stood about it in right samples and in
the bank's prose. Where two things fit far better in each other's place, or directions the other way
round, one by one or all together, what they say is not what was sampled: a person must look.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from itertools import combinations, groupby
from math import log
from typing import NamedTuple

from drill.marking.written.opposites import OPPOSITES
from drill.marking.written.sentences import LONGEST_REACH, AnswerWord
from drill.model import Learned

_PASSED_OVER = """the a an of its it this that some your is are was be would will can could so and
just then they not no never nor"""
_SKIPPED = frozenset(_PASSED_OVER.split())
_REACH = 3  # words on either side
_UNSEEN = 0.3  # what one never seen there counts
_BETTER = 6.0  # log of the odds from which an exchange is told
_USUAL = 16  # words that count; in a longer answer as much more is asked, for chance finds more
_PAIR = 2  # words of one direction, with its opposite
_MOST = 6  # things of an answer that are tried
DENIED = "!"  # stands before the key of a word that is denied
THERE = "="  # the context of a direction that is said at all
THING = "."  # stands among the contexts of what the part speaks of

Roles = Mapping[str, Mapping[str, float]]
Turn = Mapping[str, str]


class Clause(NamedTuple):
    """The keys of a clause's words that count, with the place of each in the answer."""

    number: int
    sentence: int
    keys: tuple[str, ...]
    places: tuple[int, ...]


def clauses(words: Iterable[AnswerWord]) -> list[Clause]:
    """The clauses of an answer: a direction known by its word, all else by its stem."""
    found: list[Clause] = []
    for _, group in groupby(enumerate(words), lambda one: one[1].clause):
        numbered = list(group)
        clause = [word for _, word in numbered]
        kept = [at for at, word in enumerate(clause) if word.text not in _SKIPPED]
        keys = tuple(_key(clause, at) for at in kept)
        if keys:
            places = tuple(numbered[at][0] for at in kept)
            found.append(Clause(clause[0].clause, clause[0].sentence, keys, places))
    return found


def _key(clause: Sequence[AnswerWord], at: int) -> str:
    word = clause[at]
    near = range(max(0, at - LONGEST_REACH), at)
    denied = sum(clause[before].denies >= at - before for before in near) % 2
    return DENIED * denied + (word.text if word.text in OPPOSITES else word.stem)


def bare(key: str) -> str:
    """A key without the sign that it is denied."""
    return key.removeprefix(DENIED)


def contexts(words: Iterable[AnswerWord]) -> Iterator[tuple[str, str]]:
    """Each key with what stands about it in its clause: "<react" before it, ">filter" behind."""
    for clause in clauses(words):
        yield from _contexts(clause.keys)


def _contexts(keys: Sequence[str]) -> Iterator[tuple[str, str]]:
    for place, key in enumerate(keys):
        if bare(key) in OPPOSITES:
            yield key, THERE
        for before in keys[max(0, place - _REACH) : place]:
            yield key, f"<{before}"
        for after in keys[place + 1 : place + 1 + _REACH]:
            yield key, f">{after}"


def roles_of(learned: Learned, points: Collection[str]) -> Roles:
    """What was learned of a part, for the points that it asks for here."""
    asked = frozenset(points)
    best = max(
        learned.ways,
        key=lambda way: len(way.points & asked) / len(way.points | asked or "?"),
        default=None,
    )
    return learned.roles if best is None else {**learned.roles, **best.roles}


class Turned(NamedTuple):
    """The places of words that would rather be turned, and those of all that they speak of."""

    places: frozenset[int]
    reached: frozenset[int]


def exchanged(words: Sequence[AnswerWord], roles: Roles) -> Turned | None:
    """What would rather be turned, or None.

    A direction by itself reaches no further than its clause, all else its sentence.

    Args:
        roles: for a key, how often each context was seen about it.
    """
    told = clauses(words) if roles else []
    now = [_fit(clause.keys, roles) for clause in told]
    gains = [(_gains(told, now, turn, roles), turn) for turn in _turns(told, roles)]
    best, turn = max(gains, key=lambda one: sum(one[0].values()), default=({}, {}))
    enough = _BETTER * max(1.0, sum(len(one.keys) for one in told) / _USUAL)
    if sum(best.values()) <= enough:
        return None
    better = [one for one in told if best.get(one.number, 0.0) > 0]
    pairs = [pair for one in better for pair in zip(one.places, one.keys, strict=True)]
    places = frozenset(place for place, key in pairs if key in turn)
    if len(turn) <= _PAIR and all(bare(key) in OPPOSITES for key in turn):
        near = {one.number for one in better}
        return Turned(places, frozenset(at for at, one in enumerate(words) if one.clause in near))
    near = {one.sentence for one in better}
    return Turned(places, frozenset(at for at, one in enumerate(words) if one.sentence in near))


# ---------------------------------------------------------------- what could be turned


def _turns(told: Sequence[Clause], roles: Roles) -> Iterator[Turn]:
    """Two things exchanged, a direction turned, then all directions together."""
    keys = list(dict.fromkeys(key for clause in told for key in clause.keys))
    things = [key for key in keys if THING in roles.get(key, ())][:_MOST]
    yield from ({one: two, two: one} for one, two in combinations(things, 2))
    ways = [_opposite(key, keys) for key in keys if bare(key) in OPPOSITES]
    yield from ways
    if len(ways) > 1:
        joint: dict[str, str] = {}
        for turn in ways:
            joint |= {key: to for key, to in turn.items() if key not in joint}
        yield joint


def _opposite(key: str, keys: Sequence[str]) -> Turn:
    """A direction reversed; where its opposite is there too, both are."""
    sign = DENIED if key[0] == DENIED else ""
    other = sign + OPPOSITES[bare(key)]
    return {key: other, other: key} if other in keys else {key: other}


# ---------------------------------------------------------------- how well it fits


def _gains(
    told: Sequence[Clause], now: Sequence[float], turn: Turn, roles: Roles
) -> dict[int, float]:
    """For each clause that it turns how much better it fits than `now`."""
    return {
        clause.number: _fit([turn.get(key, key) for key in clause.keys], roles) - fit
        for clause, fit in zip(told, now, strict=True)
        if not turn.keys().isdisjoint(clause.keys)
    }


def _fit(keys: Sequence[str], roles: Roles) -> float:
    return sum(
        log(roles[key].get(context, 0.0) + _UNSEEN)
        for key, context in _contexts(keys)
        if key in roles
    )
