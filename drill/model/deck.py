"""What practice is planned for: skills, practicals, and a topic deck."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct, field

from drill.frozen import replace

COURSES = ("combined foundation", "combined higher", "separate foundation", "separate higher")
"""What a deck or a template may name as its course."""

SIDES = (
    "apparatus", "method", "reasons", "variables", "hazards", "observations", "calculation",
    "data", "evaluating",
)  # fmt: skip
"""Sides of a practical that a template may be about."""


class Skill(NamedTuple):
    """`needs` are the skills underneath it; `says` is how a student's screen names it.

    `family` is the group it is listed with, `marks` what a question on it is usually worth (0: not
    told), `answers` the ids of the published lists it answers to.
    """

    id: str
    says: str
    needs: tuple[str, ...] = ()
    family: str = ""
    marks: int = 0
    answers: tuple[str, ...] = ()


class Practical(NamedTuple):
    """A practical activity; its id is a folder of the bank, `subject` names its science.

    `safety` lines head its questions.
    """

    id: str
    title: str
    subject: str
    safety: tuple[str, ...] = ()


class Paper(NamedTuple):
    """One exam paper and its date (ISO, local)."""

    id: str
    exam: str


class Topic(Struct, frozen=True):
    """What a deck teaches: a practical, or skills by pattern. `taught` is an ISO date or ""."""

    practical: str
    skills: tuple[str, ...]
    without: tuple[str, ...]
    paper: str
    taught: str
    weight: Fraction
    line: int


class Deck(Struct, frozen=True):
    """A topic deck: who it is for, what is in it, when it is examined.

    `courses` are those of its pupils; `course` is the one that is asked now, "" while a pupil of a
    deck with several has not said which is theirs.
    """

    id: str
    path: str
    title: str
    course: str
    minutes_a_day: int
    papers: tuple[Paper, ...]
    topics: tuple[Topic, ...]
    bench: Mapping[str, str] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)
    own: str = ""
    courses: tuple[str, ...] = ()

    def suits(self, courses: Collection[str]) -> bool:
        """Whether a question for these courses may be asked."""
        ours = (self.course,) if self.course else self.courses
        return not ours or any(course in courses for course in ours)

    def for_course(self, course: str) -> Deck:
        """The deck as a pupil of that course has it; another course changes nothing."""
        return replace(self, course=course) if course in self.courses else self
