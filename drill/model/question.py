"""A question: a template with its numbers, and everything needed to mark it."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from msgspec import Struct, field

from drill.model.template import PartSpec, PointSpec
from drill.model.wording import Learned
from drill.quantities import Expression, Step, Value

if TYPE_CHECKING:
    from drill.model.graph import Graph


class Point(NamedTuple):
    """A line of the mark scheme: `id`, what earns it, how many marks."""

    id: str
    says: str
    marks: int


class Slip(Struct, frozen=True):
    """A wrong route with the value it gives in this instance, in the part's unit.

    `low`/`high` bound what it gives where its numbers are read off a graph.
    """

    id: str
    value: Fraction
    text: str
    earns: int
    says: str
    gives: Expression
    low: Fraction | None = None
    high: Fraction | None = None


class Chain(Struct, frozen=True):
    """How this question's numbers follow from each other, so that a key can be worked again.

    `givens` are the drawn and looked-up values (with units) and the [work] values printed up to
    this part, for whoever answers has those; `steps` are the rest of the author's [work] in order,
    `printed` the same names as plain numbers in the unit they were printed in (for slips),
    `answers` maps an earlier part's id to the name its answer has in `steps`.
    """

    givens: Mapping[str, Value]
    steps: tuple[Step, ...]
    printed: Mapping[str, Value]
    answers: Mapping[str, str]


class NumberKey(Struct, frozen=True):
    """`value` is exact and in `unit`; `answer` is the expression it comes from.

    `award` has any of method, value, unit, figures. `low`/`high` bound a read-off answer.
    `unit_printed`: the unit stands beside the answer line. `positive`: nothing in this unit is ever
    below zero.
    """

    value: Fraction
    unit: str
    unit_printed: bool
    decimals: int | None
    figures: int | None
    award: Mapping[str, int]
    answer: Expression
    chain: Chain
    slips: tuple[Slip, ...]
    low: Fraction | None = None
    high: Fraction | None = None
    positive: bool = False


class Option(NamedTuple):
    letter: str
    text: str
    right: bool
    says: str


class ChoiceKey(NamedTuple):
    options: tuple[Option, ...]
    several: bool


class OrderKey(NamedTuple):
    """`steps` as shown (letter, text); `right` the letters in the right order, "CABD"."""

    steps: tuple[tuple[str, str], ...]
    right: str
    why: Mapping[str, str]


class NameKey(NamedTuple):
    """`accept` names in any case; `look_alikes` name -> the difference that decides.

    `also` are the names that the bank's table adds for what is accepted.
    """

    accept: tuple[str, ...]
    look_alikes: Mapping[str, str]
    also: tuple[str, ...] = ()

    @property
    def right(self) -> tuple[str, ...]:
        """Every name that earns the mark, the author's own first."""
        return (*self.accept, *self.also)


class WrittenKey(Struct, frozen=True):
    """`concepts` holds every lexicon set the patterns name, so marking reads no file.

    `learned`: word pairs, and what this part's sample answers taught when an author stamped it.
    """

    points: tuple[PointSpec, ...]
    max: int
    asked: int | None
    concepts: Mapping[str, tuple[str, ...]]
    learned: Learned = field(default_factory=Learned)


class TableKey(NamedTuple):
    """Named cells, each marked as a number."""

    cells: Mapping[str, NumberKey]


class LevelsKey(NamedTuple):
    """An extended answer, self-marked: `levels` (top mark, what it looks like), best first."""

    levels: tuple[tuple[int, str], ...]
    points: tuple[PointSpec, ...]
    concepts: Mapping[str, tuple[str, ...]]
    exemplar: str


class SubjectKey(Struct, frozen=True):
    """What keys of a subject's own kinds of part are made from."""


Key = NumberKey | ChoiceKey | OrderKey | NameKey | WrittenKey | TableKey | LevelsKey | SubjectKey


class Part(Struct, frozen=True):
    """One thing asked. `id` is a letter; `worked` the worked answer with this instance's numbers.

    `unit` is what stands beside the answer line ("" when nothing does); `subject` names the science
    whose rules mark it.
    """

    id: str
    kind: str
    skill: str
    ask: str
    marks: int
    points: tuple[Point, ...]
    key: Key
    model_answer: str
    worked: str
    hint: str = ""
    unit: str = ""
    unproven: bool = False
    subject: str = ""

    @property
    def lettered(self) -> tuple[tuple[str, str], ...]:
        """(letter, text) of the options or steps that are shown with letters, in that order."""
        if isinstance(self.key, ChoiceKey):
            return tuple((option.letter, option.text) for option in self.key.options)
        return self.key.steps if isinstance(self.key, OrderKey) else ()


class MadeKey(Struct, frozen=True):
    """A part's key, the lines of its mark scheme, an answer that earns all of it.

    `marks` is the most the part can earn; `unit` stands beside the answer line.
    """

    key: Key
    points: tuple[Point, ...]
    model_answer: str
    marks: int
    unit: str = ""

    @classmethod
    def of(cls, key: Key, points: tuple[Point, ...], model: str, unit: str = "") -> MadeKey:
        """With every mark of its points."""
        return cls(key, points, model, sum(point.marks for point in points), unit)

    @classmethod
    def whole(cls, spec: PartSpec, key: Key, says: str, model: str) -> MadeKey:
        """For a part that is right or wrong as one: all its marks in the point "value"."""
        marks = sum(spec.award.values()) or 1
        return cls.of(key, (Point("value", says, marks),), model)


class Scale(Struct, frozen=True):
    """An instrument with something to read on it; every number is in `unit`.

    `shape` says how it is drawn (cylinder, burette, thermometer, syringe, ruler, meter, display).
    `division` is the smallest one and every `spaces`-th line from `low` to `high` has its number.
    """

    shape: str
    name: str
    unit: str
    low: Fraction
    high: Fraction
    division: Fraction
    spaces: int
    reading: Fraction


class Question(Struct, frozen=True):
    """A template with its numbers: what is put before a learner, and all that marks it.

    `folder`: the folder of practicals that its file lies in; a school's may hold drawings.
    """

    template: str
    seed: int
    version: str
    title: str
    text: str
    parts: tuple[Part, ...]
    skills: tuple[str, ...]
    course: tuple[str, ...]
    command_word: str = ""
    picture: str = ""
    safety: str = ""
    scale: Scale | None = None
    graph: Graph | None = None
    folder: str = ""

    @property
    def marks(self) -> int:
        return sum(part.marks for part in self.parts)
