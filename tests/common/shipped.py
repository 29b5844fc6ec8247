"""The shipped bank, opened and read once for all tests of a process: reading it takes seconds.

Its values are frozen. A test about opening, or about another folder, opens a bank of its own.
"""

from __future__ import annotations

import atexit
import shutil
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from drill.bank import Bank
from drill.errors import Problem
from drill.model import Template
from drill.places import bank_dir


def read_once() -> None:
    """From now on each question of the shipped bank is read once, whoever opens the bank."""
    shipped, read = bank_dir(), Bank._read
    known: dict[Path, Template | tuple[Problem, ...]] = {}

    def once(bank: Bank, path: Path, id_: str) -> Template | tuple[Problem, ...]:
        if bank.folder != shipped or not path.is_relative_to(shipped):
            return read(bank, path, id_)
        if path not in known:
            known[path] = read(bank, path, id_)
        return known[path]

    Bank._read = once  # type: ignore[method-assign]


@cache
def index() -> Path:
    """The file of its index, which is taken away at the end."""
    folder = mkdtemp(prefix="drill-tests-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return Path(folder) / "bank-index.json"


@cache
def shipped_bank() -> Bank:
    """The bank, whose index is then in `index()`."""
    return Bank.open(bank_dir(), cache=index())


@cache
def template(id_: str) -> Template:
    """One question, read once."""
    found = shipped_bank().template(id_)
    assert isinstance(found, Template), found
    return found


def templates() -> list[Template]:
    """All questions, those no longer asked included."""
    return [template(entry.id) for entry in shipped_bank().entries()]
