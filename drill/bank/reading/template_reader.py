"""Reads one question's file into a `Template`, or into a list of everything wrong with it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drill.bank.files.author_files import Opened, parse_toml, read_text
from drill.bank.files.faults import nearest
from drill.bank.files.validation import checked
from drill.bank.reading.answer_reader import AnswerReader
from drill.bank.reading.draw_reader import Draws
from drill.bank.reading.name_checks import NameScope
from drill.bank.reading.part_readers import Parts
from drill.bank.reading.point_reader import PointReader
from drill.bank.reading.scale_reader import read_scale
from drill.bank.reading.work_reader import Work
from drill.bank.reference.reference_files import ID
from drill.bank.reference.sources import Sources
from drill.bank.samples import with_proof
from drill.bank.schema.template_schema import FORMAT, TEMPLATE
from drill.bank.version import version_of
from drill.errors import Problem
from drill.frozen import replace
from drill.model import Draw, PartSpec, Template
from drill.plaintext import one_line, part_letter
from drill.quantities import FactsRow
from drill.subjects import known, subject

if TYPE_CHECKING:
    from drill.model import GraphSpec


def read_template(path: Path, folder: Path) -> Template | tuple[Problem, ...]:
    """The question of a file, with the facts, lexicon and shared slips of the bank in `folder`."""
    text = read_text(path)
    if isinstance(text, Problem):
        return (text,)
    return template_of(text, path, id_of(path, folder), Sources(folder))


def id_of(path: Path, folder: Path) -> str:
    """A file's id: its path below the bank; for a file elsewhere its folder's name and its own."""
    try:
        below = path.resolve().relative_to(folder.resolve())
    except ValueError:
        return f"{path.resolve().parent.name}/{path.stem}"
    return below.with_suffix("").as_posix()


def template_of(
    text: str, path: Path, id_: str, sources: Sources
) -> Template | tuple[Problem, ...]:
    """The question of a text.

    Args:
        path: where it stands, for problems.
        id_: `practical/question`, or `own/deck/practical/question`.
    """
    opened = parse_toml(text, str(path))
    if isinstance(opened, Problem):
        return (opened,)
    if newer := newer_format(opened):
        return (newer,)
    return _Reader(opened, path, id_, sources).read()


def _subject_of(id_: str, sources: Sources) -> str:
    """The subject of a question's practical; else the one that all of them have, or there is."""
    practicals = sources.practicals()
    practical = practicals.get(id_.split("/")[-2]) if "/" in id_ else None
    if practical is not None:
        return practical.subject
    named = {one.subject for one in practicals.values()} or set(known())
    return named.pop() if len(named) == 1 else ""


def newer_format(opened: Opened) -> Problem | None:
    """Whether the file needs a newer drill; such a file is not checked by these rules."""
    given = opened.raw.get("format")
    if isinstance(given, bool) or not isinstance(given, int) or given <= FORMAT:
        return None
    faults = opened.faults
    faults.add(
        ("format",), f"this file needs format {given}; this drill reads up to {FORMAT}.",
        "Install a newer drill.",
    )  # fmt: skip
    return faults.found[-1]


class _Reader:
    def __init__(self, opened: Opened, path: Path, id_: str, sources: Sources) -> None:
        self.opened, self.path, self.id, self.sources = opened, path, id_, sources
        self.faults = opened.faults
        self.subject = _subject_of(id_, sources)
        self.names = NameScope(self.faults, subject(self.subject))

    def read(self) -> Template | tuple[Problem, ...]:
        clean = checked(self.opened.raw, TEMPLATE, (), self.faults)
        self._check_id()
        self.names.all = frozenset({**(clean["draw"] or {}), **(clean["work"] or {})})
        draws = Draws(self.names, self.sources, self.path).draws(clean["draw"] or {})
        working = Work(self.names)
        work = working.steps(clean["work"] or {})
        requirements = working.requirements(clean["require"] or {})
        points = PointReader(self.names, self.sources, self.path)
        answers = AnswerReader(self.names, self.sources.slips(), draws, work)
        specs = self._parts(clean, Parts(self.names, points, answers))
        stem, safety, picture = (
            self.names.text(clean[key], (key,)) for key in ("stem", "safety", "picture")
        )
        scale = read_scale(clean["scale"], self.names)
        graph = self._graph(clean["graph"])
        tables = self._tables(draws)
        self._check_skills(clean["skills"] or (), specs)
        self._check_read_off(specs, "graph" in self.opened.raw)
        if problems := self.faults.problems():
            return problems
        rows = [row for table in tables.values() for row in table]
        return Template(
            id=self.id,
            path=str(self.path),
            version=version_of(self.opened.text, rows, answers.shared_slips),
            text=self.opened.text,
            title=clean["title"],
            skills=tuple(clean["skills"]),
            command_word=clean["command_word"],
            course=tuple(clean["course"]),
            side=clean["side"],
            object=clean["object"],
            stem=stem,
            draws=draws,
            work=work,
            requirements=requirements,
            parts=self._proven(specs),
            concepts=points.concepts,
            also_called=self._also_called(specs),
            tables=tables,
            shared_slips=answers.shared_slips,
            picture=picture,
            scale=scale,
            graph=graph,
            safety=safety,
            was=tuple(clean["was"]),
            retired=clean["retired"],
            seconds=clean["seconds"],
            subject=self.subject,
            lines={str(key): self.faults.lines.of((key,)) for key in self.opened.raw},
        )

    def _also_called(self, specs: tuple[PartSpec, ...]) -> Mapping[str, tuple[str, ...]]:
        """Alternative names of things, if a part asks for a name."""
        asked = any(spec.kind == "name" for spec in specs)
        return self.sources.also_called() if asked else {}

    def _parts(self, clean: Mapping[str, Any], parts: Parts) -> tuple[PartSpec, ...]:
        found = [parts.part(raw, ("part", i)) for i, raw in enumerate(clean["part"] or ())]
        return tuple(part for part in found if part is not None)

    def _proven(self, specs: tuple[PartSpec, ...]) -> tuple[PartSpec, ...]:
        """The parts, each with what was learned from its sample answers."""
        letters = [part_letter(index) for index, spec in enumerate(specs) if spec.points]
        if not letters:
            return specs
        learned = self.sources.learned(self.path, letters)
        return tuple(
            replace(spec, learned=learned.get(part_letter(index), spec.learned))
            for index, spec in enumerate(with_proof(specs, self.path))
        )

    # ---------------------------------------------------------------- against the bank

    def _check_id(self) -> None:
        """Checks that the id is well formed and that the question lies in a practical's folder."""
        pieces = self.id.split("/")
        if len(pieces) not in (2, 4):
            hint = "Put it into the folder of its practical, as salts/why-excess.toml."
            self.faults.add((), f'"{one_line(self.id, 60)}" is not practical/question.', hint)
            return
        for piece in pieces[-2:]:
            if not ID.fullmatch(piece):
                hint = "Use small letters and digits, with - between words."
                shown = one_line(piece, 40)
                self.faults.add((), f'the file\'s place gives the id "{shown}".', hint)
        practicals = self.sources.practicals()
        if self._inside() and practicals and pieces[-2] not in practicals:
            hint = nearest(pieces[-2], practicals)
            message = f'practicals.toml has no "{one_line(pieces[-2], 40)}", the file\'s folder.'
            self.faults.add((), message, hint)

    def _inside(self) -> bool:
        if self.id.startswith("own/"):
            return True
        return id_of(self.path, self.sources.folder) == self.id

    def _check_skills(self, skills: tuple[str, ...], parts: tuple[PartSpec, ...]) -> None:
        """Checks skills: all in skills.toml, a part's in the question's, the first earns marks."""
        known = self.sources.skills()
        unknown = [skill for skill in skills if known and skill not in known]
        for index, skill in enumerate(skills):
            if skill in unknown:
                message = f'skills.toml has no skill "{one_line(skill, 60)}".'
                self.faults.add(("skills", index), message, nearest(skill, known))
        if unknown:  # what follows would only be said of the same wrong names again
            return
        for index, part in enumerate(parts):
            if part.skill and part.skill not in skills:
                message = f'the skill "{one_line(part.skill, 60)}" is not among the question\'s.'
                hint = nearest(part.skill, skills) or "Add it to skills at the top."
                self.faults.add(("part", index, "skill"), message, hint)
        strange = any(part.skill not in ("", *skills) for part in parts)
        if (
            skills
            and parts
            and not strange
            and all(part.skill not in ("", skills[0]) for part in parts)
        ):
            message = f'no part practises "{one_line(skills[0], 60)}", the skill that is scheduled.'
            self.faults.add(("skills",), message, "Put a part's skill first.")

    def _graph(self, raw: Mapping[str, Any] | None) -> GraphSpec | None:
        if raw is None:
            return None
        from drill.bank.reading.graph_reader import read_graph  # few questions have one

        return read_graph(raw, self.names)

    def _check_read_off(self, parts: tuple[PartSpec, ...], has_graph: bool) -> None:
        for index, part in enumerate(parts):
            if not has_graph and any(one.read_off for one in (part, *part.cells.values())):
                message = "there is no graph to read these values off."
                self.faults.add(("part", index, "read_off"), message, "Write [graph].")

    def _tables(self, draws: tuple[Draw, ...]) -> dict[str, tuple[FactsRow, ...]]:
        """The rows this question can use: those it can draw, and reference values."""
        tables: dict[str, dict[str, FactsRow]] = {}
        for draw in draws:
            if draw.rows:
                tables.setdefault(draw.table, {}).update({row.id: row for row in draw.rows})
        for name in sorted(self.names.looked_in):
            reference = self.names.subject.tables[name]
            rows = self.sources.reference(reference)
            if not rows:
                message = f"{name}(…) needs facts/{reference.facts}.csv, which has no values."
                self.faults.add((), message)
            tables[reference.kept_as] = {row.id: row for row in rows}
        return {name: tuple(rows.values()) for name, rows in tables.items()}
