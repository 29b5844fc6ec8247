"""The sciences, each behind one small interface; the general rooms do not name any of them.

subject("chemistry") -> Subject         what it brings, loaded once; "" is no science at all
known() -> names                        the subjects there are: the packages of this folder
every() -> (Subject, ...)               all there are, for words that any answer may use
own_kinds() -> {name: SubjectKind}      kinds of part that they bring

A practical names its subject in practicals.toml, a template carries that name to its parts.
"""

from __future__ import annotations

import os
from functools import cache
from importlib import import_module

from drill.subjects.interface import Subject, SubjectKind, Unitless

__all__ = ["Subject", "SubjectKind", "Unitless", "every", "known", "own_kinds", "subject"]

_GENERAL = Subject()


def known() -> tuple[str, ...]:
    """The names of the subjects, in order."""
    return _packages(tuple(__path__))


@cache
def _packages(folders: tuple[str, ...]) -> tuple[str, ...]:
    found = {
        entry.name
        for folder in folders
        for entry in os.scandir(folder)
        if entry.is_dir() and os.path.isfile(os.path.join(entry.path, "__init__.py"))
    }
    return tuple(sorted(found))


@cache
def subject(name: str) -> Subject:
    """The subject of that name; one that brings nothing for "" and for names not known."""
    if not name or name not in known():
        return _GENERAL
    found = import_module(f"{__name__}.{name}").SUBJECT
    assert isinstance(found, Subject)
    return found


def every() -> tuple[Subject, ...]:
    """All subjects there are."""
    return tuple(subject(name) for name in known())


def own_kinds() -> dict[str, SubjectKind]:
    """Every kind of part that some subject brings, by its name; for the docs and for tests."""
    each = {name: science.kind(name) for science in every() for name in science.kinds}
    return {name: kind for name, kind in each.items() if kind is not None}
