"""The bank as a whole: which questions there are, each read when it is asked for.

Opening reads an index and no question. The index is a cache: an entry holds as long as its file,
its sample answers and the shared files (facts, lexicon and so on) keep their size and time. All
other entries are read again, and so is everything if the index is damaged or of another version.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

from drill.bank.cache import Kept, KeptEntry, load, save
from drill.bank.entry import Entry, entry_of
from drill.bank.files.author_files import read_text
from drill.bank.passed import read_passed
from drill.bank.reading.template_reader import template_of
from drill.bank.reference.sources import Sources, stamp
from drill.bank.samples import answers_path
from drill.errors import Problem
from drill.model import Practical, Skill, Template


class Bank:
    """The shipped questions, and a deck's own questions."""

    def __init__(self, folder: Path, own: tuple[tuple[str, Path], ...] = ()) -> None:
        self.folder = folder
        self.own = own
        self.sources = Sources(folder)
        self._entries: dict[str, Entry] = {}
        self._renamed: dict[str, str] = {}
        self._passed: Mapping[str, str] | None = None

    @classmethod
    def open(
        cls, folder: Path, cache: Path | None = None, own: tuple[tuple[str, Path], ...] = ()
    ) -> Bank:
        """The bank in a folder.

        Args:
            cache: the file to keep the index in; None keeps none.
            own: deck ids with the folders of their own questions, `<practical>/<question>.toml`.
        """
        bank = cls(folder, own)
        bank._fill(cache)
        return bank

    # ---------------------------------------------------------------- what there is

    def entries(self) -> tuple[Entry, ...]:
        """Every question in order of id, those with problems included."""
        return tuple(self._entries.values())

    def entry(self, id_: str) -> Entry | None:
        """The question with that id (`salts/x` or `salts.x`), or the one that used to have it."""
        id_ = id_.replace(".", "/")
        return self._entries.get(id_) or self._entries.get(self._renamed.get(id_, ""))

    def template(self, id_: str) -> Template | tuple[Problem, ...]:
        """The question itself, read now; its problems when it has any."""
        entry = self.entry(id_)
        if entry is None:
            return (Problem(str(self.folder), 0, 0, f'there is no template "{id_}".'),)
        return self._read(Path(entry.path), entry.id)

    def template_from(self, text: str, id_: str) -> Template | tuple[Problem, ...]:
        """A text from another source, such as the store, read with this bank's facts."""
        entry = self.entry(id_)
        return template_of(text, Path(entry.path if entry else id_), id_, self.sources)

    def _read(self, path: Path, id_: str) -> Template | tuple[Problem, ...]:
        text = read_text(path)
        if isinstance(text, Problem):
            return (text,)
        return template_of(text, path, id_, self.sources)

    def skills(self) -> dict[str, Skill]:
        """`{id: Skill}` of skills.toml."""
        return self.sources.skills()

    def practicals(self) -> dict[str, Practical]:
        """`{id: Practical}` of practicals.toml."""
        return self.sources.practicals()

    def lexicon_hash(self) -> str:
        """16 hex digits, a hash of the lexicons and fitted files, for the marker's version."""
        return self.sources.lexicon_hash(folder for _, folder in self.own)

    def passed(self, template: Template) -> bool:
        """Whether this exact version has passed `bank check`, according to passed.csv."""
        if self._passed is None:
            self._passed = read_passed(self.folder)
        return self._passed.get(template.id) == template.version

    def problems(self) -> tuple[Problem, ...]:
        """Every problem in the shared files, the facts and the questions."""
        found = list(self.sources.problems())
        for entry in self._entries.values():
            template = None if entry.ok else self.template(entry.id)
            if isinstance(template, tuple):
                found.extend(template)
        found.extend(self._taken())
        return tuple(sorted(set(found)))

    def _taken(self) -> Iterator[Problem]:
        """Former ids now used by another question, which would inherit learners' history."""
        for entry in self._entries.values():
            for old in entry.was:
                if old.replace(".", "/") in self._entries:
                    message = f'was names "{old}", which is a question of its own.'
                    yield Problem(entry.path, 0, 0, message)

    # ---------------------------------------------------------------- the index

    def _fill(self, cache: Path | None) -> None:
        leans_on = self.sources.stamps()
        known = load(cache, self.folder, leans_on) if cache else Kept()
        self.sources.keep_lexicon(known.lexicon)
        kept: dict[str, KeptEntry] = {}
        found: list[Entry] = []
        fresh = False
        for path, id_ in self._files():
            now = stamp(path), stamp(answers_path(path))
            before = known.entries.get(id_)
            if before and (before.file, before.answers, before.entry.path) == (*now, str(path)):
                entry = before.entry
            else:
                entry = self._made(path, id_)
                fresh = fresh or entry.ok
            if entry.ok:  # one that is not is looked at again each time, whatever else changes
                kept[id_] = KeptEntry(entry, *now)
            found.append(entry)
        self._entries = {entry.id: entry for entry in sorted(found, key=lambda one: one.id)}
        self._renamed = {old.replace(".", "/"): e.id for e in found for old in e.was}
        if cache and fresh:
            # what other decks brought along stays too, as long as it is there
            others = {
                id_: one
                for id_, one in known.entries.items()
                if id_.startswith("own/") and Path(one.entry.path).is_file()
            }
            save(cache, self.folder, Kept({**others, **kept}, self.sources.lexicon()), leans_on)

    def _files(self) -> Iterator[tuple[Path, str]]:
        """Every question's file with its id; the shipped ones first."""
        yield from _templates(self.folder)
        for deck, folder in self.own:
            for path, name in _templates(folder):
                yield path, f"own/{deck}/{name}"

    def _made(self, path: Path, id_: str) -> Entry:
        template = self._read(path, id_)
        return Entry(id_, str(path)) if isinstance(template, tuple) else entry_of(template)


def _templates(folder: Path) -> list[tuple[Path, str]]:
    """`<practical>/<question>.toml`, hidden ones left out, in order of name; with that name."""
    found: list[tuple[Path, str]] = []
    try:
        with os.scandir(folder) as practicals:
            names = sorted(one.name for one in practicals if one.is_dir())
    except OSError:
        return []
    for name in names:
        if not name.startswith("."):
            here = folder / name
            files = sorted(file for file in os.listdir(here) if file.endswith(".toml"))
            shown = [file for file in files if not file.startswith(".")]
            found += [(here / file, f"{name}/{file.removesuffix('.toml')}") for file in shown]
    return found
