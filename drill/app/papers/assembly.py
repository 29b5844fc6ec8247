"""A paper put together: which questions with which numbers, the same for the same seed.

Balanced over skills, sides, command words and topics; no question prints what another asks for.
Versions A, B, C … have the same questions in the same order, each with numbers of its own and its
options in another order. A question is as hard as the share of marks that the shipped weights
expect of a learner who has answered nothing; options can be guessed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.papers.balance import Balance, Candidate
from drill.app.papers.page_filling import by_pages
from drill.app.papers.paper_questions import PaperQuestions
from drill.errors import DrillError
from drill.frozen import replace

if TYPE_CHECKING:
    from drill.bank import Bank, Entry
    from drill.model import Deck, Question, Template

LEAST, MOST = 5, 120
"""Marks of a paper."""
_MENDED = 40


@dataclass(frozen=True)
class PaperItem:
    """One question of a paper; `skill` is the one it is counted with."""

    template: str
    seed: int
    skill: str
    marks: int


@dataclass(frozen=True)
class PaperPlan:
    """What stands on a paper, in its order.

    `marks` may be one beside `wanted` where no choice of questions meets it; `difficulty` is the
    expected share of its marks; `not_taught` are practicals left out because their lesson is
    still to come. Where the deck has too little else: `overdone` are skills with more of the marks
    than they should have, `clues` pairs of templates of which one prints what the other asks for.
    """

    deck: str
    course: str
    seed: int
    version: str
    wanted: int
    marks: int
    difficulty: float
    items: tuple[PaperItem, ...]
    not_taught: tuple[str, ...]
    overdone: tuple[str, ...] = ()
    clues: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class PaperWish:
    """`course` "" is the deck's own; `untaught` takes in what is taught only after `now`."""

    marks: int
    seed: int
    course: str = ""
    untaught: bool = False


@dataclass(frozen=True)
class Assembled:
    """A plan, and its questions in the same order."""

    plan: PaperPlan
    questions: tuple[Question, ...]


def assemble(
    bank: Bank,
    deck: Deck,
    wish: PaperWish,
    now: datetime,
    usable: Callable[[Template], bool] | None = None,
) -> Assembled:
    """One paper; see `assemble_versions`."""
    return assemble_versions(bank, deck, wish, ("A",), now, usable)[0]


def assemble_versions(
    bank: Bank,
    deck: Deck,
    wish: PaperWish,
    versions: Sequence[str],
    now: datetime,
    usable: Callable[[Template], bool] | None = None,
) -> list[Assembled]:
    """The same paper in several versions, "A" the first of all; any short text names a version.

    Args:
        usable: whether a template may be asked; left out: it has passed the bank's check.

    Raises:
        DrillError: the deck has too little for so many marks, or nothing of it is taught by now.
    """
    if not LEAST <= wish.marks <= MOST:
        raise DrillError(f"a paper has {LEAST} to {MOST} marks, not {wish.marks}.")
    own = replace(deck, course=wish.course) if wish.course else deck
    found, late = _candidates(own, bank.entries(), wish, now)
    supply = PaperQuestions(bank, wish.seed, usable or bank.passed)
    weights = {place: float(topic.weight) for place, topic in enumerate(own.topics)}
    balance = Balance.of(found, weights, wish.marks)
    inside, clues = _without_clues(found, balance, wish, supply)
    inside = _ordered(inside, supply)
    marks = sum(one.marks for one in inside)
    if abs(marks - wish.marks) > 1:
        raise DrillError(_too_little(own, found, marks, wish, late))
    plan = PaperPlan(own.id, own.course, wish.seed, "", wish.marks, marks, 0.0, (), late)
    plan = replace(plan, overdone=balance.overdone(inside), clues=clues)
    return [_version(plan, inside, supply, version, now) for version in versions]


def _version(
    plan: PaperPlan,
    inside: Sequence[Candidate],
    supply: PaperQuestions,
    version: str,
    now: datetime,
) -> Assembled:
    questions = supply.version([one.template for one in inside], version)
    items = tuple(
        PaperItem(one.template, made.seed, one.skill, one.marks)
        for one, made in zip(inside, questions, strict=True)
    )
    difficulty = expected_share(questions, now)
    return Assembled(
        replace(plan, version=version, items=items, difficulty=difficulty), tuple(questions)
    )


def expected_share(questions: Iterable[Question], now: datetime) -> float:
    """The share of marks to expect of a learner who has answered nothing, guessing counted in."""
    from drill.memory import Memory

    blank, marks, expected = Memory(), 0, 0.0
    for question in questions:
        for part in question.parts:
            share = blank.chance(part.skill, None, now)
            floor = _floor(part.key)
            expected += part.marks * (floor + (1 - floor) * share)
            marks += part.marks
    return expected / marks if marks else 0.0


def _floor(key: object) -> float:
    from drill.model import ChoiceKey

    single = isinstance(key, ChoiceKey) and not key.several
    return 1 / len(key.options) if single and isinstance(key, ChoiceKey) else 0.0


# ------------------------------------------------------------------ what there is to choose from


def _candidates(
    deck: Deck, entries: Iterable[Entry], wish: PaperWish, now: datetime
) -> tuple[list[Candidate], tuple[str, ...]]:
    """Every question of the deck that was taught, and the practicals left out."""
    from drill.sitting import topic_of

    today = now.date().isoformat()
    found, late = [], set()
    for entry in entries:
        topic = topic_of(deck, entry)
        if topic is None or entry.marks > wish.marks / 2:
            continue
        if topic.taught > today and not wish.untaught:
            late.add(entry.practical)
        else:
            found.append(_candidate(entry, deck.topics.index(topic)))
    return found, tuple(sorted(late - {one.template.split("/")[-2] for one in found}))


def _candidate(entry: Entry, topic: int) -> Candidate:
    return Candidate(
        template=entry.id,
        topic=topic,
        skill=entry.skills[0],
        skill_marks={skill: marks for skill, marks in entry.skill_marks.items() if marks},
        marks=entry.marks,
        side=entry.side,
        command_word=entry.command_word,
        object=entry.object,
        letters="choice" in entry.kinds,
        extended="levels" in entry.kinds,
    )


def _without_clues(
    found: Sequence[Candidate], balance: Balance, wish: PaperWish, supply: PaperQuestions
) -> tuple[list[Candidate], tuple[tuple[str, str], ...]]:
    """The best choice in which no question answers another, and the pairs that still do."""
    from drill.app.papers.paper_search import chosen

    inside = chosen(found, balance, wish.seed)
    apart: set[frozenset[str]] = set()
    begun = False  # anew, where mending goes no further
    for _ in range(_MENDED):
        known = {one.template: _as_made(one, supply) for one in inside}
        changed = [one for one in inside if known[one.template] != one]
        looked = (known.get(one.template, one) for one in found)
        found = [one for one in looked if one is not None]
        pairs = set() if changed else _clues(inside, supply)
        stuck = not changed and pairs <= apart
        if stuck and (begun or not (pairs or balance.missed(inside))):
            break
        begun = begun or stuck
        apart |= pairs
        mended = [] if stuck else [one for one in known.values() if one is not None]
        inside = chosen(found, balance, wish.seed, mended, apart)
    inside = [one for one in inside if supply.first(one.template) is not None]
    left = sorted(tuple(sorted(pair)) for pair in _clues(inside, supply))
    return inside, tuple((one, other) for one, other in left)


def _as_made(one: Candidate, supply: PaperQuestions) -> Candidate | None:
    """With the marks it really has, which a file does not always tell; None: not to be asked."""
    made = supply.first(one.template)
    if made is None:
        return None
    marks: Counter[str] = Counter()
    for part in made.question.parts:
        marks[part.skill] += part.marks
    if made.question.marks == one.marks:
        return one
    return replace(one, marks=made.question.marks, skill_marks=dict(marks))


def _clues(inside: Sequence[Candidate], supply: PaperQuestions) -> set[frozenset[str]]:
    names = [one.template for one in inside]
    return {
        frozenset((one, other))
        for one in names
        for other in names
        if one != other and supply.told(one, other)
    }


def _ordered(inside: Sequence[Candidate], supply: PaperQuestions) -> list[Candidate]:
    """From easy to hard, as pages are filled; extended answers last."""
    known = [(one, supply.first(one.template)) for one in sorted(inside, key=_place)]
    made = [(one, printed.question) for one, printed in known if printed]
    long = [pair for pair in made if pair[0].extended]
    short = [pair for pair in made if not pair[0].extended]
    return [*by_pages(short, [question for _, question in long]), *(one for one, _ in long)]


def _place(one: Candidate) -> tuple[bool, int, bool, int, str]:
    """From easy to hard: what is worth least first, extended answers last; topics together."""
    band = min(one.marks, 4) // 2
    return one.extended, band, not one.letters, one.topic, one.template


def _too_little(
    deck: Deck, found: Sequence[Candidate], marks: int, wish: PaperWish, late: Sequence[str]
) -> str:
    said = f'the deck "{deck.id}" has no {wish.marks} marks of questions that go together'
    said += f" (as near as it comes: {marks})." if found else "."
    if late:
        said += f" Left out as not taught yet: {', '.join(late)}; --untaught takes them in."
    elif found:
        said += f" Ask for {max(LEAST, marks)} or fewer, or give the deck more topics."
    return said
