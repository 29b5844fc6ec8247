"""The shared files of a bank; each is read when first needed, and again when it changes."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path
from typing import Any

from drill.bank.reference.facts import load_facts
from drill.bank.reference.learned import FITTED, LearnedFile
from drill.bank.reference.reference_files import (
    Shelf,
    read_lexicon,
    read_practicals,
    read_skills,
    read_slips,
)
from drill.bank.version import normalised
from drill.errors import Problem
from drill.frozen import replace
from drill.model import Learned, Practical, Skill
from drill.quantities import FactsRow, Quantity, unit_of
from drill.subjects.interface import ReferenceTable

_SHELVES = ("skills.toml", "practicals.toml", "lexicon.toml", "slips.toml")
NAMES_TABLE = "names"  # of facts: a row each for a thing, with all that it is called
_WORDING = ("lexicon.toml", FITTED, f"facts/{NAMES_TABLE}.csv")
FileStamp = tuple[int, int]


class Sources:
    """The files beside the questions of one bank. A file that is missing holds nothing."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lexicon: tuple[FileStamp | None, dict[str, tuple[str, ...]]] | None = None

    def skills(self) -> dict[str, Skill]:
        """`{id: Skill}` of skills.toml."""
        return self._shelf("skills.toml", read_skills)[0]

    def practicals(self) -> dict[str, Practical]:
        """`{id: Practical}` of practicals.toml."""
        return self._shelf("practicals.toml", read_practicals)[0]

    def lexicon(self) -> dict[str, tuple[str, ...]]:
        """`{concept: phrases}` of lexicon.toml."""
        if self._lexicon and self._lexicon[0] == stamp(self.folder / "lexicon.toml"):
            return self._lexicon[1]
        return self._shelf("lexicon.toml", read_lexicon)[0]

    def lexicon_for(self, path: Path) -> Shelf[tuple[str, ...]]:
        """The sets a question at `path` may name, and the problems in its school's own lexicon.

        A school's folder may have its own lexicon.toml; a set there replaces a shipped set of the
        same name, for that school's questions.
        """
        own = _top(path) / "lexicon.toml"
        there = stamp(path) and not _is_same(own.parent, self.folder)
        marked = stamp(own) if there else None
        if marked is None:
            return self.lexicon(), ()
        sets, problems = _read(read_lexicon, own, marked)
        return {**self.lexicon(), **sets}, problems

    def learned(self, path: Path, letters: Iterable[str]) -> dict[str, Learned]:
        """What the fitted files hold for the parts of a question, by letter."""
        shipped, top = self.folder / FITTED, _top(path)
        pairs = _fitted(shipped, stamp(shipped)).pairs()
        file = _fitted(top / FITTED, stamp(top / FITTED))
        name = f"{path.parent.name}/{path.stem}"
        return {letter: file.part(name, letter, pairs) for letter in letters}

    def keep_lexicon(self, words: dict[str, tuple[str, ...]]) -> None:
        """Use the lexicon from an up-to-date index, which is faster than reading the file."""
        if words:
            self._lexicon = (stamp(self.folder / "lexicon.toml"), words)

    def slips(self) -> dict[str, str]:
        """`{id: what is said}` of slips.toml."""
        return self._shelf("slips.toml", read_slips)[0]

    def has(self, name: str) -> bool:
        """Whether the bank has that file; if not, checks against it are skipped."""
        return stamp(self.folder / name) is not None

    def tables(self) -> list[str]:
        """The names of the tables of facts."""
        try:
            names = os.listdir(self.folder / "facts")
        except OSError:
            return []
        return sorted(name[: -len(".csv")] for name in names if name.endswith(".csv"))

    def facts(self, table: str) -> tuple[tuple[FactsRow, ...], tuple[Problem, ...]] | None:
        """The rows of a table and what is wrong with it; None when there is no such table."""
        path = self.folder / "facts" / f"{table}.csv"
        marked = stamp(path) if table.isidentifier() else None
        return _facts(path, marked) if marked else None

    def facts_for(
        self, path: Path, table: str
    ) -> tuple[tuple[FactsRow, ...], tuple[Problem, ...]] | None:
        """The same for a question at `path`, whose school may have tables of its own.

        They lie in facts/ of the school's folder, and none may have the name of a shipped one.
        """
        own = _top(path) / "facts" / f"{table}.csv"
        marked = stamp(own) if table.isidentifier() else None
        shipped = self.facts(table)
        if marked is None or _is_same(_top(path), self.folder):
            return shipped
        if shipped is None:
            return _facts(own, marked)
        says = f"there is a shipped table {table}.csv too. Give yours another name."
        return (), (Problem(str(own), 0, 0, says),)

    def reference(self, table: ReferenceTable) -> tuple[FactsRow, ...]:
        """A row for each value of a subject's reference table, with the value as its only cell."""
        loaded = self.facts(table.facts)
        unit = unit_of(table.unit)
        assert unit is not None
        return tuple(
            FactsRow(table.kept_as, row.id, {table.cell: replace(value, unit=unit)}, row.line)
            for row in (loaded[0] if loaded else ())
            if isinstance(value := row.cells.get(table.column), Quantity)
        )

    def also_called(self) -> Mapping[str, tuple[str, ...]]:
        """`{name in lower case: what else it is called}`, of the facts table `names`."""
        path = self.folder / "facts" / f"{NAMES_TABLE}.csv"
        marked = stamp(path)
        return _names(path, marked) if marked else {}

    def lexicon_hash(self, own: Iterable[Path] = ()) -> str:
        """16 hex digits, a hash of lexicons, names and fitted files: the marker's version.

        Args:
            own: a school's folders of questions.
        """
        files = [folder / name for folder in (self.folder, *own) for name in _WORDING]
        digest = blake2b(digest_size=8)
        for path in files:
            digest.update(_text_hash(path, stamp(path)))
        return digest.hexdigest()

    def problems(self) -> tuple[Problem, ...]:
        """Every problem in the shared files and the facts, missing files included."""
        return tuple(sorted(self._each_problem()))

    def _each_problem(self) -> Iterator[Problem]:
        readers: tuple[Callable[[Path], Shelf[Any]], ...] = (
            read_skills,
            read_practicals,
            read_lexicon,
            read_slips,
        )
        for name, reader in zip(_SHELVES, readers, strict=True):
            if self.has(name):
                yield from self._shelf(name, reader)[1]
            elif name != "slips.toml":
                yield Problem(str(self.folder / name), 0, 0, "the bank has no such file.")
        for table in self.tables():
            loaded = self.facts(table)
            yield from loaded[1] if loaded else ()

    def stamps(self) -> dict[str, FileStamp]:
        """Size and time of every shared file, by its path below the bank."""
        found = {name: stamp(self.folder / name) for name in _SHELVES}
        found |= {f"facts/{name}.csv": stamp(self.folder / "facts" / f"{name}.csv")
                  for name in self.tables()}  # fmt: skip
        return {name: marked for name, marked in found.items() if marked}

    def _shelf(self, name: str, reader: Callable[[Path], Shelf[Any]]) -> Shelf[Any]:
        path = self.folder / name
        marked = stamp(path)
        return _read(reader, path, marked) if marked else ({}, ())


def stamp(path: Path) -> FileStamp | None:
    """Size and time of change in nanoseconds; None when there is no such file."""
    try:
        status = os.stat(path)  # at every start, for every question: pathlib takes twice as long
    except (OSError, ValueError):
        return None
    return status.st_size, status.st_mtime_ns


def _top(path: Path) -> Path:
    """The folder of practicals that a question lies in."""
    return path.parent.parent


def _is_same(one: Path, other: Path) -> bool:
    return one == other or one.resolve() == other.resolve()


@lru_cache(maxsize=32)
def _text_hash(path: Path, marked: FileStamp | None) -> bytes:
    text = path.read_text(encoding="utf-8", errors="replace") if marked else ""
    return blake2b(normalised(text).encode(), digest_size=8).digest()


@lru_cache(maxsize=16)
def _fitted(path: Path, marked: FileStamp | None) -> LearnedFile:
    return LearnedFile(path)


# The stamp is part of the key, so a changed file is read again.
@lru_cache(maxsize=32)
def _read(reader: Callable[[Path], Shelf[Any]], path: Path, marked: FileStamp) -> Shelf[Any]:
    return reader(path)


@lru_cache(maxsize=64)
def _facts(path: Path, marked: FileStamp) -> tuple[tuple[FactsRow, ...], tuple[Problem, ...]]:
    return load_facts(path)


@lru_cache(maxsize=4)
def _names(path: Path, marked: FileStamp) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for row in load_facts(path)[0]:
        name, also = str(row.cells.get("name", "")), str(row.cells.get("also", ""))
        others = tuple(one.strip() for one in also.split("|") if one.strip())
        found[name.casefold()] = (*found.get(name.casefold(), ()), *others)
    return found
