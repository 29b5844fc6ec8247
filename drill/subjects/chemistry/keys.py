"""The keys of chemistry's own kinds of part."""

from __future__ import annotations

from collections.abc import Mapping

from drill.model import SubjectKey


class FormulaKey(SubjectKey, frozen=True):
    """The formulae that are right; `accept[0]` is the model answer."""

    accept: tuple[str, ...]


class EquationKey(SubjectKey, frozen=True):
    """`accept[0]` is the model equation, "MgO + 2HCl -> MgCl2 + H2O"; award may name states."""

    accept: tuple[str, ...]
    award: Mapping[str, int]
