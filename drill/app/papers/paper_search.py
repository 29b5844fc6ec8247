"""Choosing the questions of a paper: a first choice at random, then exchanged until none is better.

Every chance is a draw from the project's own stream, so a seed chooses the same for ever.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from drill.app.papers.balance import Balance, Candidate
from drill.generate import choose

_FIRST, _AGAIN = 1500, 400
_KEPT_APART = 100.0
_NEW = 2.0  # one that was not on the paper to be mended: it may tell what others ask for

Pairs = Collection[frozenset[str]]


def chosen(
    candidates: Sequence[Candidate],
    balance: Balance,
    seed: int,
    before: Sequence[Candidate] = (),
    apart: Pairs = (),
) -> list[Candidate]:
    """The candidates that make the best paper found; all different, never more than there are.

    Args:
        before: a paper to begin from, mended where need be; else one at random.
        apart: templates of which two must not stand together.
    """
    if not candidates:
        return []
    names = frozenset(one.template for one in before)
    best = _best(_Search(candidates, balance, apart, names), seed, before)
    if balance.missed(best) > 1:  # too little: of some things and skills more than is good
        return _best(_Search(candidates, balance, apart, names, twice=True), seed, before)
    return best


def _best(search: _Search, seed: int, before: Sequence[Candidate]) -> list[Candidate]:
    there = {one.template for one in search.candidates}
    inside = [one for one in before if one.template in there] or search.at_random(seed)
    steps, name = (_AGAIN, f"mend {len(search.apart)}") if before else (_FIRST, "choose")
    cost = search.cost(inside)
    for step in range(steps):
        tried = search.changed(inside, choose(seed, f"{name} {step}", 1 << 60))
        new = search.cost(tried)
        if new <= cost:
            inside, cost = tried, new
    return inside


class _Search:
    """`twice`: a thing or a skill may come more often, as there is too little else."""

    def __init__(
        self,
        candidates: Sequence[Candidate],
        balance: Balance,
        apart: Pairs,
        before: frozenset[str],
        twice: bool = False,
    ) -> None:
        self.candidates, self.balance = candidates, balance
        self.apart, self.before, self.twice = apart, before, twice

    def cost(self, inside: Sequence[Candidate]) -> float:
        """What speaks against a paper, those kept apart counted in."""
        names = {one.template for one in inside}
        together = sum(pair <= names for pair in self.apart)
        new = len(names - self.before) if self.before else 0
        return self.balance.cost(inside) + _KEPT_APART * together + _NEW * new

    def at_random(self, seed: int) -> list[Candidate]:
        """Candidates in a random order until the marks are reached."""
        left = list(self.candidates)
        found: list[Candidate] = []
        marks = 0
        while left and marks < self.balance.wanted:
            one = left.pop(choose(seed, f"begin {len(left)}", len(left)))
            if self._fits(one, found):
                found.append(one)
                marks += one.marks
        return found

    def changed(self, inside: Sequence[Candidate], draw: int) -> list[Candidate]:
        """One question out, one or two in, or one in another's place, as the draw has it."""
        draws = _digits(draw)
        out = list(inside)
        move = next(draws) % 8
        if out and move != 0:  # 0: only in
            out.pop(next(draws) % len(out))
        for _ in range({1: 0, 2: 2}.get(move, 1)):  # 1: only out
            new = self.candidates[next(draws) % len(self.candidates)]
            if self._fits(new, out):
                out.append(new)
        return out

    def _fits(self, new: Candidate, inside: Sequence[Candidate]) -> bool:
        """Whether it is not there yet; nor, unless twice, too much of its thing or its skills."""
        if any(one.template == new.template for one in inside):
            return False
        if self.twice:
            return True
        again = new.object and any(one.object == new.object for one in inside)
        return not again and self.balance.leaves_room(new, inside)


def _digits(draw: int) -> Iterator[int]:
    """Some numbers below 4096 out of one large one."""
    while True:
        draw, digit = divmod(draw, 4096)
        yield digit
