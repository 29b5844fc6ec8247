"""What a learner is told of a written answer: what is missing, in the question's spelling."""

from __future__ import annotations

from collections.abc import Sequence

from drill.marking.written.findings import PointFinding
from drill.model import PointMark

_SPELLINGS = (("sulf", "sulph"), ("aluminium", "aluminum"), ("crystallis", "crystalliz"))


def headline(points: Sequence[PointMark], findings: Sequence[PointFinding], most: int) -> str:
    """All ideas that are missing, or what is not sure; never "Right" while that is open.

    Where more ideas would do than are asked for, it says how many more are wanted.
    """
    if sum(point.marks for point in points if not point.unsure) >= most:
        return "Right."
    pairs = list(zip(points, findings, strict=True))
    earned = sum(point.marks for point in points)
    lost = [(point, one.spec.says) for point, one in pairs if not (point.marks or point.unsure)]
    if lost and earned < most:
        return _missing(lost, most - earned)
    doubted = list(dict.fromkeys(one.spec.says for point, one in pairs if point.unsure))
    if doubted:
        return f"Not sure whether this is said: {'; '.join(doubted)}."
    return "Something is missing."


def _missing(lost: Sequence[tuple[PointMark, str]], wanted: int) -> str:
    """One reason in front, where a point was lost by what was said, then every idea missing."""
    reasons = [point.because for point, _ in lost if not point.because.startswith("missing")]
    reason = f"{_capital(reasons[0].partition('; missing')[0])}. " if reasons else ""
    ideas = list(dict.fromkeys(says for _, says in lost))
    several = len(lost) > wanted and len(ideas) > 1
    head = f"{wanted} more wanted, of these" if several else "Missing"
    return f"{reason}{head}: {'; '.join(ideas)}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def as_spelt(text: str, like: str) -> str:
    """The text with sulfur and the like spelt as `like` spells them."""
    lower = like.lower()
    for one, other in _SPELLINGS:
        if other in lower and one not in lower:
            text = text.replace(one, other).replace(one.capitalize(), other.capitalize())
        elif one in lower and other not in lower:
            text = text.replace(other, one).replace(other.capitalize(), one.capitalize())
    return text
