"""Steps to be put in order: which one is out of place, and why it belongs elsewhere."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.marking.short.order_reading import read_order
from drill.model import Mark, OrderKey, Part, PointMark
from drill.typed.awarding import nothing, settled


def mark_order(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """All marks for the right order; one less for every step that has to be moved."""
    key = part.key
    assert isinstance(key, OrderKey)
    read = read_order(typed, dict(key.steps))
    if not read.letters:
        shown = " ".join(sorted(key.right))
        asks = f"{read.asks} Each letter once, please: {shown} in your order.".lstrip()
        return nothing(part, asks, readable=False)
    given = read.letters
    moved = _out_of_place(given, key.right)
    if not moved:
        return _all(part, f"Right: {' '.join(key.right)}. {_one_reason(key)}".rstrip())
    texts = dict(key.steps)
    letter = moved[0]
    says = f"Step {letter} is out of place: {_place(letter, key.right, texts)}"
    why = key.why.get(texts[letter])
    if why:
        says = f"{says} {why}"
    if len(moved) > 1:
        says = f"{says} In all, {len(moved)} steps have to be moved."
    return _less(part, len(moved), says)


def _one_reason(key: OrderKey) -> str:
    """Why one of the steps stands where it does: the second one's if it has a reason."""
    texts = dict(key.steps)
    reasons = [key.why[texts[letter]] for letter in key.right if texts[letter] in key.why]
    return reasons[1] if len(reasons) > 1 else next(iter(reasons), "")


def _all(part: Part, says: str) -> Mark:
    return settled(part, [PointMark(p.id, p.marks, p.marks, says) for p in part.points], says)


def _less(part: Part, lost: int, says: str) -> Mark:
    points: list[PointMark] = []
    for point in part.points:
        taken = min(lost, point.marks)
        lost -= taken
        points.append(PointMark(point.id, point.marks - taken, point.marks, says))
    return settled(part, points, says)


def _place(letter: str, right: str, texts: Mapping[str, str]) -> str:
    """Where a step belongs, told by its neighbour."""
    index = right.index(letter)
    if index == 0:
        return f'"{texts[letter]}" comes first.'
    before = right[index - 1]
    return f'"{texts[letter]}" comes straight after "{texts[before]}".'


def _out_of_place(given: str, right: str) -> list[str]:
    """The fewest letters that must be moved, in the order of `given`."""
    places = [right.index(letter) for letter in given]
    kept = _longest_rising(places)
    return [letter for index, letter in enumerate(given) if index not in kept]


def _longest_rising(values: list[int]) -> set[int]:
    """Indexes of a longest increasing run (not necessarily side by side); at most 26 values."""
    best: list[list[int]] = []
    none: list[int] = []
    for index, value in enumerate(values):
        before = [run for run in best if values[run[-1]] < value]
        longest: list[int] = max(before, key=len, default=none)
        best.append([*longest, index])
    found: list[int] = max(best, key=len, default=none)
    return set(found)
