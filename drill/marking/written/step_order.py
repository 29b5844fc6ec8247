"""When each step of a described method is done: not always in the order in which it is told.

"Filter it, but only after heating" heats first; "Before that, warm the acid" goes back. What cannot
be told from such words is doubtful, and nothing is held against the learner for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

from drill.marking.written.sentences import AnswerWord

_JOINING = frozenset(("and", "but", "so", "then", "only", "just", "also", "or", "well", "ok"))
_LIMITING = frozenset(("only", "just"))
_BACK = frozenset(("that", "this", "these", "then", "hand", "doing"))
_FURTHER_BACK = frozenset(("any", "all", "everything", "anything", "starting"))
_TELLING_MORE = frozenset(("that", "which"))
# "after that", "after a week": what follows comes later, as it is told
_ONWARD = frozenset(("that", "this", "which", "it", "then", "a", "an", "some", "few", "about"))
# a clause with one of these tells of something done earlier, and not by how much
_EARLIER = frozenset(("had", "what", "came", "previously", "already", "earlier"))


class Moment(NamedTuple):
    """The place of a word's clause in the order of doing, and whether it is certain."""

    at: int
    sure: bool


class _Clause(NamedTuple):
    numbers: tuple[int, ...]
    texts: tuple[str, ...]

    @property
    def lead(self) -> tuple[str, ...]:
        """Its words from the first that is more than a joining word."""
        for place, text in enumerate(self.texts):
            if text not in _JOINING and not text.isdecimal():
                return self.texts[place:]
        return ()


def moments(words: Sequence[AnswerWord]) -> list[Moment]:
    """For every word when what it tells is done; what one clause tells is done together."""
    done, doubtful = _order(words)
    rank = {number: index for index, clause in enumerate(done) for number in clause.numbers}
    return [Moment(rank[word.clause], word.clause not in doubtful) for word in words]


def _order(words: Sequence[AnswerWord]) -> tuple[list[_Clause], set[int]]:
    """The clauses in the order of doing, and those whose place is doubtful."""
    done: list[_Clause] = []
    doubtful: set[int] = set()
    statement = 0  # where in `done` the statement begins that "before that" goes behind of
    for _, group in groupby(words, key=lambda word: word.sentence):
        clauses = _clauses(group)
        at = begin = len(done)
        went_back = False
        for index, clause in enumerate(clauses):
            back = _goes_back(clause)
            if back is not None:
                at = begin = 0 if back else statement
                went_back = True
            elif _is_fronted_before(clause) and not _told_before(clauses[:index]):
                done.insert(at, clause)
                if not _told_before(clauses[index + 1 :]):
                    doubtful.update(clause.numbers)
                continue
            late = _steps_back(clause, clauses[:index])
            at = max(begin, at - late)
            done.insert(at, clause)
            at += 1 + late
            if not _EARLIER.isdisjoint(clause.texts):
                doubtful.update(clause.numbers)
        statement = begin if went_back or _told_before(clauses) else statement
    return done, doubtful


def _clauses(words: Iterable[AnswerWord]) -> list[_Clause]:
    """The clauses of a sentence; what tells more of the one before it belongs to it."""
    found: list[_Clause] = []
    for number, group in groupby(words, key=lambda word: word.clause):
        texts = tuple(word.text for word in group)
        if found and texts[0] in _TELLING_MORE:
            last = found.pop()
            found.append(_Clause((*last.numbers, number), (*last.texts, *texts)))
        else:
            found.append(_Clause((number,), texts))
    return found


def _told_before(clauses: Sequence[_Clause]) -> bool:
    return any(clause.lead for clause in clauses)


def _goes_back(clause: _Clause) -> bool | None:
    """False for "before that", True for "before any of this", None for neither."""
    lead = clause.lead
    if lead[:1] == ("beforehand",) or ("but" in clause.texts[:2] and lead[:1] == ("first",)):
        return True
    if lead[:1] != ("before",):
        return None
    if len(lead) == 1 or lead[1] in _FURTHER_BACK:
        return True
    # "before that you warm it", but not "before it cools"
    return False if lead[1] in _BACK else None


def _is_fronted_before(clause: _Clause) -> bool:
    return clause.lead[:1] == ("before",)


def _steps_back(clause: _Clause, told: Sequence[_Clause]) -> int:
    """How many clauses an "after" or "once" behind a statement goes back: it was done first.

    "…, and then, once it is cold, …" stands in front of a statement of its own and does not.
    """
    if not _names_the_earlier(clause):
        return 0
    for back, before in enumerate(reversed(told), 1):
        if before.lead:
            return back
        if _LIMITING.isdisjoint(before.texts):
            return 0
    return 0


def _names_the_earlier(clause: _Clause) -> bool:
    lead = clause.lead
    if lead[:1] == ("once",):
        return True
    if lead[:1] != ("after",) or len(lead) < 2:
        return False
    return lead[1] not in _ONWARD and not lead[1][0].isdigit()
