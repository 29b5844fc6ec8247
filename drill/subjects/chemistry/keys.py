"""The keys of chemistry's own kinds of part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drill.model import SubjectKey


@dataclass(frozen=True)
class FormulaKey(SubjectKey):
    """The formulae that are right; `accept[0]` is the model answer."""

    accept: tuple[str, ...]


@dataclass(frozen=True)
class EquationKey(SubjectKey):
    """`accept[0]` is the model equation, "MgO + 2HCl -> MgCl2 + H2O"; award may name states."""

    accept: tuple[str, ...]
    award: Mapping[str, int]
