"""What a subject brings to the general rooms, and what they hand to it.

A subject is a package below `drill.subjects` whose `SUBJECT` is a `Subject`. Each kind of part of
its own is a module `<kind>_part.py` in it, whose `KIND` is a `SubjectKind`; it is loaded when a
question first has such a part. Nothing else in the program imports a subject.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from importlib import import_module
from typing import Any, Protocol

from msgspec import Struct, field

from drill.model import MadeKey, Mark, Part, PartSpec
from drill.model.field import Field
from drill.quantities import Fault, Function, Value
from drill.typed.names import NameRules

Where = tuple[str | int, ...]  # a place in an author's file: ("part", 0, "accept")


class AuthorReader(Protocol):
    """Checks what an author wrote; every fault it finds is reported with its line."""

    def texts(self, values: Any, where: Where) -> tuple[str, ...]:
        """Texts whose {names} are known."""

    def award(
        self, known: tuple[str, ...], raw: Mapping[str, Any] | None, where: Where
    ) -> dict[str, int]:
        """The marks of each thing they are given for, of those that are `known`."""

    def fault(self, where: Where, message: str, hint: str = "") -> None:
        """Note that something is wrong there, in the author's words, and what to do."""


class PartValues(Protocol):
    """The numbers of one question, as a part of it sees them."""

    @property
    def values(self) -> Mapping[str, Value]:
        """Every drawn, looked-up and worked value by its name."""

    def fill(self, text: str, line: int) -> str:
        """An author's text with these values."""


class SubjectKind(Struct, frozen=True):
    """A kind of part: the same six things the general rooms have for each of theirs.

    Args:
        fields: its keys in an author's file, besides those of every part.
        read: what the author wrote, checked key by key, put into the `PartSpec`.
        make: the key, the points and the model answer; a Fault when these numbers give none.
        mark: the verdict on what was typed; never raises.
        seconds: how long a student needs for it.
        worked: the lines of a worked answer; the model answer alone when there are none.
    """

    fields: tuple[Field, ...]
    read: Callable[[PartSpec, Mapping[str, Any], Where, AuthorReader], PartSpec]
    make: Callable[[PartSpec, PartValues], MadeKey | Fault]
    mark: Callable[[Part, str, Mapping[str, Fraction]], Mark]
    seconds: int
    worked: Callable[[MadeKey], list[str]] = lambda made: [made.model_answer]


class ReferenceTable(Struct, frozen=True):
    """Values a function of the subject looks up: a row each of a facts table of the bank.

    Args:
        name: what formulas know it by; no draw or step can have that name.
        kept_as: its name among the tables a template carries, and `cell` that of its only column.
        facts: the facts table; `column` of it holds the values, in `unit`.
    """

    name: str
    kept_as: str
    cell: str
    facts: str
    column: str
    unit: str


class Unitless(Struct, frozen=True):
    """A quantity that has no unit, where a unit beside it does no harm.

    Args:
        name: what it is called.
        asked: a pattern that finds it in a question's last sentence, whatever the capitals.
        units: those that are left out beside it.
    """

    name: str
    asked: str
    units: tuple[str, ...]


class Wording(Struct, frozen=True):
    """Words of a science that any answer may use; pairs are written "one other".

    Args:
        directions: words that tell which way, each with its opposite.
        contraries: stems of which an option has one and a wrong answer the other.
        short_forms: what is written for short, and the whole word.
    """

    directions: tuple[str, ...] = ()
    contraries: tuple[str, ...] = ()
    short_forms: Mapping[str, str] = field(default_factory=dict)


class LearnersTable(Struct, frozen=True):
    """A table that learners may look at while they answer.

    Args:
        title: what stands above it.
        facts: the facts table; `columns` of it are shown, one beside the other.
        not_for: the family of skills that it would answer.
    """

    title: str
    facts: str
    columns: tuple[str, str]
    not_for: str = ""


class Subject(Struct, frozen=True):
    """Everything one science adds; the defaults add nothing.

    Args:
        package: where its modules are, as `drill.subjects.chemistry`.
        functions: for expressions, by name; one that `looks_in` a table gets it first.
        tables: reference values those functions look up, by the name formulas use.
        names: how names of things are compared.
        wording: words that answers of any kind may use.
        unitless: a quantity that has no unit.
        amounts: units of what is never below zero, where a learner's own value is carried on.
        positive: units of further quantities whose answers should not be below zero.
        kinds: kinds of part of its own.
        shown: tables that learners may look at.
    """

    package: str = ""
    functions: Mapping[str, Function] = field(default_factory=dict)
    tables: Mapping[str, ReferenceTable] = field(default_factory=dict)
    names: NameRules = field(default_factory=NameRules)
    wording: Wording = field(default_factory=Wording)
    unitless: Unitless | None = None
    amounts: tuple[str, ...] = ()
    positive: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    shown: tuple[LearnersTable, ...] = ()

    def kind(self, name: str) -> SubjectKind | None:
        """The kind of part of that name, loaded now; None when the subject has none of it."""
        if name not in self.kinds:
            return None
        found = import_module(f"{self.package}.{name}_part").KIND
        assert isinstance(found, SubjectKind)
        return found

    def starters(self) -> Mapping[str, str]:
        """A question to begin with for each kind of part, general ones too; by the kind's name."""
        if not self.package:
            return {}
        starters: Mapping[str, str] = import_module(f"{self.package}.starters").STARTERS
        return starters
