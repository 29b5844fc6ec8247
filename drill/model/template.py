"""A template: what an author wrote, read and checked, but not yet calculated."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from os.path import dirname
from typing import TYPE_CHECKING, Any, NamedTuple

from msgspec import Struct, field

from drill.model.wording import Learned
from drill.quantities import Expression, FactsRow, Step, Value

if TYPE_CHECKING:
    from drill.model.graph import GraphSpec


class Draw(Struct, frozen=True):
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
    rows: tuple[FactsRow, ...] = ()
    table: str = ""
    count: int = 0
    centre: Expression | None = None
    spread: Expression | None = None
    anomaly: bool = False
    first: Value | None = None


class Requirement(NamedTuple):
    """A condition every instance must meet; `says` is the author's name for it."""

    says: str
    is_: Expression
    line: int


class SlipSpec(Struct, frozen=True):
    """A wrong route: `gives` is arithmetic on the printed numbers, read in the part's unit."""

    id: str
    gives: Expression | None
    says: str
    earns: int
    line: int
    when: Expression | None = None


class OptionSpec(Struct, frozen=True):
    text: str
    right: bool
    says: str
    line: int
    when: Expression | None = None
    right_when: Expression | None = None


class PointSpec(Struct, frozen=True):
    """A marking point of a written part: one idea, `marks` marks (nearly always 1).

    `accept`, `reject`, `ignore`: patterns, each a tuple of concept names or plain words that must
    stand together; how near, in which order and polarity is said in `Pattern`.
    `when`: it belongs to the scheme only where this holds; None in a question, where it is settled.
    `cap` and `after`, in `levels` only: the most marks of an answer without this step, or that
    spoils it; and the point of the step that must be done before this one.
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
    after: str = ""
    when: Expression | None = None


@dataclasses.dataclass(frozen=True)
class Pattern:
    """Concepts (names of the lexicon) or plain words that together express an idea.

    `window` is the largest distance in words from the first to the last of them (None: the
    marker's default, and never across a sentence end); `ordered` asks for the written order, and
    `orders` for one of several, each the places of those that must be there, as (2, 1);
    `polarity` "yes" wants none of them denied, "no" wants the statement denied, "any" does not
    look. A word beginning with "not " is a concept that must NOT stand in the same clause.
    `line` is where it stands.
    """

    concepts: tuple[str, ...]
    window: int | None = None
    ordered: bool = False
    polarity: str = "yes"
    orders: tuple[tuple[int, ...], ...] = ()
    line: int = dataclasses.field(default=0, compare=False)


class PartSpec(Struct, frozen=True):
    """One part as the author wrote it. `kind` decides which of the later fields matter.

    number / reading: answer, unit, unit_asked, decimals, figures, award, slips, between;
        `read_off`: names read off the graph, each with its axis ("x" or "y").
    choice: options, several.     order: steps (in the right order), why (step text -> reason).
    name: accept, look_alikes (name -> deciding difference).
    written: points, max, asked (how many answers were asked for; None: no list principle).
    table: cells (name -> a number spec).     levels: levels, points, exemplar.
    A kind of a subject's own: accept and award as it needs them, all else in `own` by its key.
    `unproven`: a written scheme with too few sample answers beside it. `learned`: word pairs, and
    what the sample answers taught.
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
    read_off: Mapping[str, str] = field(default_factory=dict)
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
    learned: Learned = field(default_factory=Learned)
    own: Mapping[str, Any] = field(default_factory=dict)


class ScaleSpec(Struct, frozen=True):
    """A drawn scale: `of` is the draw that holds a row of instruments, `reads` what it shows."""

    of: str
    reads: Expression
    line: int


class Template(Struct, frozen=True):
    """One author's question, read and checked for form, nothing worked out yet.

    `version` is the hex hash of its newline-normalised text, the facts rows and shared slips it
    uses, and the engine number. `concepts` holds just the lexicon sets its written parts name;
    `also_called` what else things are called, for its name parts.
    `side` is the side of its practical and `object` the thing that it is about; "" where not told;
    `subject` names the science of its practical.
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
    also_called: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    tables: Mapping[str, tuple[FactsRow, ...]] = field(default_factory=dict)
    shared_slips: Mapping[str, str] = field(default_factory=dict)
    picture: str = ""
    scale: ScaleSpec | None = None
    graph: GraphSpec | None = None
    safety: str = ""
    was: tuple[str, ...] = ()
    retired: bool = False
    seconds: int | None = None
    side: str = ""
    object: str = ""
    lines: Mapping[str, int] = field(default_factory=dict)
    names: Mapping[str, str] = field(default_factory=dict)
    subject: str = ""

    @property
    def folder(self) -> str:
        """The folder of practicals its file lies in; a school's may hold drawings and facts."""
        return dirname(dirname(self.path))

    @property
    def has_draws(self) -> bool:
        return bool(self.draws)
