"""Written answers, marked idea by idea: what is accepted, what is rejected, what earns nothing.

Every mark shows the words that earned it, every mark missed the idea that is missing. Where the
words point both ways the marker says it is not sure, and gives its guess.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction

from drill.frozen import replace
from drill.marking.written.exchanged import Turned, exchanged, roles_of
from drill.marking.written.feedback import as_spelt, headline
from drill.marking.written.findings import Findings, PointFinding, findings_in
from drill.marking.written.leaning import leans
from drill.marking.written.word_order import order_of
from drill.model import Learned, Mark, Part, PointMark, WrittenKey
from drill.typed.awarding import settled

# How far above chance the order of the words must be, in standard deviations: below the first
# nothing is earned, below the second nothing for sure. Measured on the bank's own sample answers
# with each question's left out; .5 lets pass what is noted in haste and stops 78 % when shuffled.
_ORDERS = (0.5, 0.85)
_ORDERS_UNPROVEN = (-0.5, 0.6)
_PROVEN = 35  # samples that a scheme was held against
# How far an answer must lean to a point whose nearest line lacks one word. On samples held out one
# fifth at a time, with the lines that only they show: a guess is wrong in 48 % of what lacks no
# word, 15 % of what lacks one. Leaning alone found 1 of 52, leaning away from a line 2 of 225.
_LEANS = 0.6
_NOTHING = Learned()


def mark_written(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Each point by its patterns; then what one point needs of another, the list, the maximum."""
    key = part.key
    assert isinstance(key, WrittenKey)
    found = findings_in(typed, key.points, key.concepts)
    points = judge_points(found, key.asked, key.learned)
    most = min(key.max, part.marks)
    says = as_spelt(headline(points, found.points, most), part.ask)
    points = [replace(one, because=as_spelt(one.because, part.ask)) for one in points]
    return settled(part, points, says, most=most)


def judge_points(
    found: Findings, asked: int | None = None, learned: Learned = _NOTHING
) -> list[PointMark]:
    """Every point's verdict, in the scheme's order.

    Args:
        asked: how many answers the question asks for, where the list principle holds.
        learned: word pairs and leanings; without them the order of words is not judged.
    """
    if found.listed:
        return [_only_listed(finding) for finding in found.points]
    points = [_judge(finding, found, asked, learned) for finding in found.points]
    points = _distinct(points, found)
    points = _dependent(points, found.points)
    points = points if asked is None else _as_list(points, found.points, asked)
    if not found.noted:
        roles = roles_of(learned, [point.id for point in points])
        points = _not_turned(points, found, exchanged(found.text.words, roles))
    samples = 0 if found.noted else learned.samples
    return _in_order(points, order_of(found.text.words, learned.pairs), samples)


def _judge(
    finding: PointFinding, found: Findings, asked: int | None, learned: Learned
) -> PointMark:
    spec = finding.spec
    if finding.rejected and asked is None:
        quote = found.quote(finding.rejected[0][1])
        because = f"{quote} says otherwise; missing: {spec.says}"
        return PointMark(spec.id, 0, spec.marks, because)
    if finding.accepted:
        return PointMark(spec.id, spec.marks, spec.marks, found.quote(finding.best))
    because = f"missing: {spec.says}"
    if finding.ignored:
        because = f"{found.quote(finding.ignored[0][1])} earns nothing; {because}"
    return PointMark(spec.id, 0, spec.marks, because, _is_near(finding, found, learned))


def _is_near(finding: PointFinding, found: Findings, learned: Learned) -> bool:
    """Whether a point not given deserves a second look."""
    if finding.lacking != 1:
        return finding.lacking == 0
    leaning = learned.leanings.get(finding.spec.id)
    return leaning is not None and leans(found.text.words, leaning) >= _LEANS


def _in_order(points: list[PointMark], order: float | None, samples: int) -> list[PointMark]:
    """Words in no order earn nothing, and in a doubtful one nothing for sure."""
    nothing, doubtful = _ORDERS if samples >= _PROVEN else _ORDERS_UNPROVEN
    if order is None or order >= doubtful:
        return points
    if order >= nothing:
        return [replace(one, unsure=one.unsure or one.marks > 0) for one in points]
    return [
        replace(one, marks=0, because=f"{one.because} in no clear order", unsure=True)
        if one.marks
        else one
        for one in points
    ]


def _not_turned(points: list[PointMark], found: Findings, turned: Turned | None) -> list[PointMark]:
    """What is said of things that belong in each other's place earns nothing for sure."""
    if turned is None:
        return points
    out: list[PointMark] = []
    for point, finding in zip(points, found.points, strict=True):
        if point.marks and not _holds(finding, turned):
            because = f"{point.because} may tell who does what, or which way, the wrong way round"
            point = replace(point, marks=0, because=because, unsure=True)
        out.append(point)
    return out


def _holds(finding: PointFinding, turned: Turned) -> bool:
    """Whether a line matched elsewhere, or asks for just these words as they stand."""
    for compiled, match in finding.accepted:
        fixed = compiled.pattern.ordered or len(match.order) == 1
        if turned.reached.isdisjoint(match.places) or (
            fixed and turned.places <= set(match.places)
        ):
            return True
    return False


def _only_listed(finding: PointFinding) -> PointMark:
    """Words without a statement earn nothing; where they are the right ones, a person may look."""
    spec = finding.spec
    because = f"words without a statement; missing: {spec.says}"
    return PointMark(spec.id, 0, spec.marks, because, unsure=bool(finding.accepted))


def _distinct(points: list[PointMark], found: Findings) -> list[PointMark]:
    """Points with the same accept lines are "any n from": each needs an idea of its own.

    Two lines are the same idea when they begin with the same concept. Such a list is never whole:
    as many of the points as there are statements in words that no line knows are not sure.
    """
    shared = Counter(finding.spec.accept for finding in found.points)
    used: set[str] = set()
    unknown = found.unknown if max(shared.values()) > 1 else 0
    out: list[PointMark] = []
    for point, finding in zip(points, found.points, strict=True):
        if shared[finding.spec.accept] == 1:
            out.append(point)
            continue
        free = [(idea, match) for idea, match in finding.ideas if idea not in used]
        if point.marks and free:
            used.add(free[0][0])
            out.append(replace(point, because=found.quote(free[0][1])))
            continue
        again = "said already; " if found.says_twice(finding) else ""
        because = f"{again}missing: {finding.spec.says}" if point.marks else point.because
        doubt = unknown > 0 and not finding.rejected
        unknown -= doubt
        out.append(replace(point, marks=0, because=because, unsure=doubt))
    return out


def _dependent(points: list[PointMark], findings: Sequence[PointFinding]) -> list[PointMark]:
    """A point that needs others earns nothing without them."""
    earned = {point.id for point in points if point.marks}
    ideas = {finding.spec.id: finding.spec.says for finding in findings}
    out: list[PointMark] = []
    for point, finding in zip(points, findings, strict=True):
        missing = [need for need in finding.spec.needs if need not in earned]
        if point.marks and missing:
            because = f'{point.because} counts only beside "{ideas[missing[0]]}"'
            point = replace(point, marks=0, because=because)
        out.append(point)
    return out


def _as_list(
    points: list[PointMark], findings: Sequence[PointFinding], asked: int
) -> list[PointMark]:
    """The list principle: beyond what was asked for, each wrong one cancels a right one."""
    wrong = len({compiled.ideas[0].name for one in findings for compiled, _ in one.rejected})
    right = sum(1 for point in points if point.marks)
    if not wrong or right + wrong <= asked:
        return points
    cancelled = right - max(0, min(right, asked) - wrong)
    out = list(points)
    for index in range(len(out) - 1, -1, -1):
        if cancelled and out[index].marks:
            cancelled -= 1
            out[index] = replace(out[index], marks=0, because="cancelled by a wrong one beside it")
    return out
