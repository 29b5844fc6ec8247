"""The frozen values that travel the way of a question, shared by every room of the program.

    bank:      an author's text becomes a `Template`
    generate:  a template and a seed become a `Question` of `Part`s, each with its `Key`
    marking:   a part and what was typed become a `Mark`

Nothing here computes; whatever is exact is a `Fraction` or a `Quantity` of `drill.quantities`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from drill.quantities import Expression, Row, Step, Value

# ------------------------------------------------------------------ what an author wrote: Template


@dataclass(frozen=True)
class Draw:
    """One seeded draw. Exactly one of the groups of fields is used, told by `kind`.

    kind "range": start, stop, step (expressions over earlier draws), unit.
    kind "choice": `choices`, each a value; `weights` are not offered: every choice is as likely.
    kind "row": `rows`, the rows of facts table `table` that met the author's conditions.
    kind "names": a person's name of our own list, different from names drawn before.
    kind "shuffle" / "pick": an ordering of, or `count` distinct ones of, `choices`.
    kind "readings": `count` readings round `centre` with `spread`, at resolution `step`;
        `anomaly` adds one deliberate outlier.
    `first` is the value seed 0 takes (for "row": the row's id); None draws as ever.
    """

    name: str
    kind: str
    line: int
    start: Expression | None = None
    stop: Expression | None = None
    step: Expression | None = None
    unit: str = ""
    decimals: int | None = None
    choices: tuple[Value, ...] = ()
    rows: tuple[Row, ...] = ()
    table: str = ""
    count: int = 0
    centre: Expression | None = None
    spread: Expression | None = None
    anomaly: bool = False
    first: Value | None = None


@dataclass(frozen=True)
class Requirement:
    """A condition every instance must meet; `says` is the author's name for it."""

    says: str
    is_: Expression
    line: int


@dataclass(frozen=True)
class SlipSpec:
    """A wrong route: `gives` is arithmetic on the printed numbers, read in the part's unit."""

    id: str
    gives: Expression | None
    says: str
    earns: int
    line: int
    when: Expression | None = None


@dataclass(frozen=True)
class OptionSpec:
    text: str
    right: bool
    says: str
    line: int
    when: Expression | None = None
    right_when: Expression | None = None


@dataclass(frozen=True)
class PointSpec:
    """A marking point of a written part: one idea, `marks` marks (nearly always 1).

    `accept`, `reject`, `ignore`: patterns, each a tuple of concept names or plain words that must
    stand together; how near, in which order and polarity is said in `Pattern`.
    `cap`, in `levels` only: the most marks of an answer without this step, or that spoils it.
    """

    id: str
    says: str
    accept: tuple[Pattern, ...]
    reject: tuple[Pattern, ...] = ()
    ignore: tuple[Pattern, ...] = ()
    marks: int = 1
    needs: tuple[str, ...] = ()
    line: int = 0
    cap: int | None = None


@dataclass(frozen=True)
class Pattern:
    """Concepts (names of the lexicon) or plain words that together express an idea.

    `window` is the largest distance in words from the first to the last of them (None: the
    marker's default, and never across a sentence end); `ordered` asks for the written order;
    `polarity` "yes" wants none of them denied, "no" wants the statement denied, "any" does not
    look. A word beginning with "not " is a concept that must NOT stand in the same clause.
    `linked` asks that a because-word joins first and last.
    """

    concepts: tuple[str, ...]
    window: int | None = None
    ordered: bool = False
    polarity: str = "yes"
    linked: bool = False


@dataclass(frozen=True)
class PartSpec:
    """One part as the author wrote it. `kind` decides which of the later fields matter.

    number / reading: answer, unit, unit_asked, decimals, figures, award, slips, between.
    choice: options, several.     order: steps (in the right order), why (step text -> reason).
    name: accept, look_alikes (name -> deciding difference).
    written: points, max, asked (how many answers were asked for; None: no list principle).
    formula / equation: accept; award may hold species, balance, states.
    table: cells (name -> a number spec).     levels: levels, points, exemplar.
    `unproven`: a written scheme with too few sample answers beside it.
    """

    kind: str
    ask: str
    line: int
    skill: str = ""
    hint: str = ""
    answer: Expression | None = None
    unit: str = ""
    unit_asked: bool = False
    decimals: int | None = None
    figures: int | None = None
    award: Mapping[str, int] = field(default_factory=dict)
    between: tuple[Expression, Expression] | None = None
    slips: tuple[SlipSpec, ...] = ()
    options: tuple[OptionSpec, ...] = ()
    several: bool = False
    keep_order: bool = False
    steps: tuple[str, ...] = ()
    why: Mapping[str, str] = field(default_factory=dict)
    accept: tuple[str, ...] = ()
    look_alikes: Mapping[str, str] = field(default_factory=dict)
    points: tuple[PointSpec, ...] = ()
    max: int | None = None
    asked: int | None = None
    model_answer: str = ""
    worked: str = ""
    cells: Mapping[str, PartSpec] = field(default_factory=dict)
    levels: tuple[tuple[int, str], ...] = ()
    lines: Mapping[str, int] = field(default_factory=dict)
    unproven: bool = False


@dataclass(frozen=True)
class ScaleSpec:
    """A drawn scale: `of` is the draw that holds a row of instruments, `reads` what it shows."""

    of: str
    reads: Expression
    line: int


@dataclass(frozen=True)
class Template:
    """One author's question, read and checked for form, nothing worked out yet.

    `version` is the hex hash of its newline-normalised text, the facts rows and shared slips it
    uses, and the engine number. `concepts` holds just the lexicon sets its written parts name.
    """

    id: str
    path: str
    version: str
    text: str
    title: str
    skills: tuple[str, ...]
    command_word: str
    course: tuple[str, ...]
    stem: str
    draws: tuple[Draw, ...]
    work: tuple[Step, ...]
    requirements: tuple[Requirement, ...]
    parts: tuple[PartSpec, ...]
    concepts: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    tables: Mapping[str, tuple[Row, ...]] = field(default_factory=dict)
    shared_slips: Mapping[str, str] = field(default_factory=dict)
    picture: str = ""
    scale: ScaleSpec | None = None
    safety: str = ""
    was: tuple[str, ...] = ()
    retired: bool = False
    seconds: int | None = None
    lines: Mapping[str, int] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)

    @property
    def has_draws(self) -> bool:
        return bool(self.draws)


# ------------------------------------------------------------------ what is asked: Question


@dataclass(frozen=True)
class Point:
    """A line of the mark scheme: `id`, what earns it, how many marks."""

    id: str
    says: str
    marks: int


@dataclass(frozen=True)
class Slip:
    """A wrong route with the value it gives in this instance, in the part's unit."""

    id: str
    value: Fraction
    text: str
    earns: int
    says: str
    gives: Expression


@dataclass(frozen=True)
class Chain:
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


@dataclass(frozen=True)
class NumberKey:
    """`value` is exact and in `unit`; `answer` is the expression it comes from.

    `award` has any of method, value, unit, figures. `low`/`high` bound a read-off answer.
    `unit_printed`: the unit stands beside the answer line.
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


@dataclass(frozen=True)
class Option:
    letter: str
    text: str
    right: bool
    says: str


@dataclass(frozen=True)
class ChoiceKey:
    options: tuple[Option, ...]
    several: bool


@dataclass(frozen=True)
class OrderKey:
    """`steps` as shown (letter, text); `right` the letters in the right order, "CABD"."""

    steps: tuple[tuple[str, str], ...]
    right: str
    why: Mapping[str, str]


@dataclass(frozen=True)
class NameKey:
    """`accept` names in any case; `look_alikes` name -> the difference that decides."""

    accept: tuple[str, ...]
    look_alikes: Mapping[str, str]


@dataclass(frozen=True)
class WrittenKey:
    """`concepts` holds every lexicon set the patterns name, so marking reads no file."""

    points: tuple[PointSpec, ...]
    max: int
    asked: int | None
    concepts: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class FormulaKey:
    accept: tuple[str, ...]


@dataclass(frozen=True)
class EquationKey:
    """`accept[0]` is the model equation, "MgO + 2HCl -> MgCl2 + H2O"; award may name states."""

    accept: tuple[str, ...]
    award: Mapping[str, int]


@dataclass(frozen=True)
class TableKey:
    """Named cells, each marked as a number."""

    cells: Mapping[str, NumberKey]


@dataclass(frozen=True)
class LevelsKey:
    """An extended answer, self-marked: `levels` (top mark, what it looks like), best first."""

    levels: tuple[tuple[int, str], ...]
    points: tuple[PointSpec, ...]
    concepts: Mapping[str, tuple[str, ...]]
    exemplar: str


Key = (
    NumberKey
    | ChoiceKey
    | OrderKey
    | NameKey
    | WrittenKey
    | FormulaKey
    | EquationKey
    | TableKey
    | LevelsKey
)


@dataclass(frozen=True)
class Part:
    """One thing asked. `id` is a letter; `worked` the worked answer with this instance's numbers.

    `unit` is what stands beside the answer line ("" when nothing does).
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


@dataclass(frozen=True)
class Scale:
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


@dataclass(frozen=True)
class Question:
    """A template with its numbers: what is put before a learner, and all that marks it."""

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

    @property
    def marks(self) -> int:
        return sum(part.marks for part in self.parts)


# ------------------------------------------------------------------ what it earned: Mark


@dataclass(frozen=True)
class PointMark:
    """What one marking point earned; `because`: the words that earned it, or what is missing."""

    id: str
    marks: int
    of: int
    because: str = ""
    unsure: bool = False


@dataclass(frozen=True)
class Mark:
    """The verdict on one part.

    `value` is what was read, in the part's unit, for carrying forward; `carried` says that the key
    was worked again from the learner's own earlier value; `readable` False means "type it again";
    `self_marked` True keeps it out of every automatic figure.
    """

    marks: int
    of: int
    points: tuple[PointMark, ...]
    says: str
    slip: str | None = None
    readable: bool = True
    value: Fraction | None = None
    carried: bool = False
    self_marked: bool = False

    @property
    def unsure(self) -> tuple[str, ...]:
        return tuple(point.id for point in self.points if point.unsure)


# ------------------------------------------------------------------ what is planned: Deck


@dataclass(frozen=True)
class Skill:
    """`needs` are the skills underneath it; `says` is how a student's screen names it."""

    id: str
    says: str
    needs: tuple[str, ...] = ()


@dataclass(frozen=True)
class Practical:
    """A practical activity; its id is a folder of the bank. `safety` lines head its questions."""

    id: str
    title: str
    science: str
    safety: tuple[str, ...] = ()


@dataclass(frozen=True)
class Paper:
    """One exam paper and its date (ISO, local)."""

    id: str
    exam: str


@dataclass(frozen=True)
class Topic:
    """What a deck teaches: a practical, or skills by pattern. `taught` is an ISO date or ""."""

    practical: str
    skills: tuple[str, ...]
    without: tuple[str, ...]
    paper: str
    taught: str
    weight: Fraction
    line: int


@dataclass(frozen=True)
class Deck:
    """A topic deck: who it is for, what is in it, when it is examined."""

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
