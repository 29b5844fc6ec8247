"""The small files every question may use: skills, practicals, the lexicon, shared slips.

Each reader returns what could be read and the problems with the rest.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from drill.bank.files.author_files import open_toml
from drill.bank.files.faults import Faults, nearest, nearest_or_all
from drill.bank.files.toml_lines import KeyPath as Where
from drill.bank.files.validation import checked
from drill.bank.schema.fields import Field
from drill.errors import Problem
from drill.model import Practical, Skill
from drill.plaintext import one_line
from drill.subjects import known

T = TypeVar("T")
Shelf = tuple[dict[str, T], tuple[Problem, ...]]

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)

SKILL = (
    Field("says", "text", "What the skill is called on a student's screen.",
        'says = "work out a percentage yield"', required=True),
    Field("needs", "texts", "The skills underneath it.", 'needs = ["calc.mass-by-difference"]',
        default=(), high=12),
    Field("family", "text", "The group of skills it is listed with.", 'family = "titration"',
        default=""),
    Field("marks", "whole", "What a question on it is usually worth.", "marks = 2", default=0,
        high=20),
    Field("answers", "texts", "The rows of facts/published_lists.csv that it answers to.",
        'answers = ["T4", "M2"]', default=(), high=6),
)  # fmt: skip

PRACTICAL = (
    Field("title", "text", "What the practical is called.", 'title = "Making a soluble salt"',
        required=True),
    Field("subject", "text", "Which science it belongs to.", 'subject = "chemistry"',
        required=True),
    Field("safety", "texts", "Cautions that head its questions.",
        'safety = ["Follow your school\'s own risk assessment."]', default=()),
)  # fmt: skip

CONCEPT = (
    Field("words", "texts", "The phrases that say the idea.", 'words = ["used up", "none left"]',
        required=True, high=600),
    Field("doc", "text", "The idea in words.", 'doc = "nothing of it remains"', default=""),
    Field("kind", "text", "What sort of idea it is.", 'kind = "direction"', default=""),
    Field("opposite", "text", "The concept that says the contrary.", 'opposite = "less"',
        default=""),
)  # fmt: skip

SHARED_SLIP = (
    Field("says", "text", "The feedback the student reads; {names} in it must exist in every "
        "question that uses it.", 'says = "Turn the division over."', required=True),
    Field("doc", "text", "A note for authors.", 'doc = "for any percentage"', default=""),
)  # fmt: skip


def read_skills(path: Path) -> Shelf[Skill]:
    """`{id: Skill}`; an id is the table's whole name, as calc.percentage-yield."""

    def make(name: str, raw: Mapping[str, Any]) -> Skill:
        needs, answers = tuple(raw["needs"]), tuple(raw["answers"])
        return Skill(name, raw["says"], needs, raw["family"], raw["marks"], answers)

    return _shelf(path, SKILL, make, "says", _check_needs)


def read_practicals(path: Path) -> Shelf[Practical]:
    """`{id: Practical}`; the id is a folder of the bank."""

    def make(name: str, raw: Mapping[str, Any]) -> Practical:
        return Practical(name, raw["title"], raw["subject"], tuple(raw["safety"]))

    return _shelf(path, PRACTICAL, make, "title", _check_subjects)


def read_lexicon(path: Path) -> Shelf[tuple[str, ...]]:
    """`{concept: phrases}`."""
    return _shelf(path, CONCEPT, lambda _, raw: tuple(raw["words"]), "words")


def read_slips(path: Path) -> Shelf[str]:
    """`{slip id: what the student is told}`."""
    return _shelf(path, SHARED_SLIP, lambda _, raw: str(raw["says"]), "says")


def _shelf(
    path: Path,
    keys: tuple[Field, ...],
    make: Callable[[str, Mapping[str, Any]], T],
    told_by: str,
    check: Callable[[Mapping[str, T], Faults], None] | None = None,
) -> Shelf[T]:
    """Every table of the file that holds the identifying key, made into a value."""
    opened = open_toml(path)
    if isinstance(opened, Problem):
        return {}, (opened,)
    faults, values = opened.faults, dict[str, T]()
    raw = {name: value for name, value in opened.raw.items() if name != "format"}
    for where, table in _tables(raw, (), {key.name for key in keys}, faults):
        before = len(faults.found)
        clean = checked(table, keys, where, faults)
        _check_id(where, faults)
        if len(faults.found) == before:
            name = ".".join(str(step) for step in where)
            values[name] = make(name, clean)
    if check is not None:
        check(values, faults)
    return values, faults.problems()


def _tables(
    raw: Mapping[str, Any], where: Where, own: set[str], faults: Faults
) -> Iterator[tuple[Where, Mapping[str, Any]]]:
    """Tables with a key of their own, however deep; `[calc.yield]` is calc -> yield."""
    for name, value in raw.items():
        path = (*where, name)
        if not isinstance(value, dict):
            faults.add(path, f'"{name}" stands outside any table.', "Write [name] above it.")
        elif len(path) > 4:
            faults.add(path, f'"{".".join(map(str, path))}" has more than 4 names.')
        elif own & value.keys() or not any(isinstance(v, dict) for v in value.values()):
            yield path, value
        else:
            yield from _tables(value, path, own, faults)


def _check_id(where: Where, faults: Faults) -> None:
    for step in where:
        if not ID.fullmatch(str(step)):
            hint = "Use small letters and digits, with - between words."
            faults.add(where, f'"{step}" cannot be part of an id.', hint)


def _check_subjects(practicals: Mapping[str, Practical], faults: Faults) -> None:
    for practical in practicals.values():
        if practical.subject not in known():
            message = f'no subject is called "{one_line(practical.subject, 40)}".'
            hint = nearest_or_all(practical.subject, known())
            faults.add((practical.id, "subject"), message, hint)


def _check_needs(skills: Mapping[str, Skill], faults: Faults) -> None:
    """Checks that every need is a known skill and that needs form no cycle."""
    for skill in skills.values():
        where = tuple(skill.id.split("."))
        for need in skill.needs:
            if need not in skills:
                faults.add((*where, "needs"), f'no skill "{need}".', nearest(need, skills))
        if skill.id in _underneath(skill, skills):
            faults.add((*where, "needs"), f'"{skill.id}" comes to need itself.')


def _underneath(skill: Skill, skills: Mapping[str, Skill]) -> set[str]:
    found: set[str] = set()
    waiting = list(skill.needs)
    while waiting:
        need = waiting.pop()
        if need not in found and need in skills:
            found.add(need)
            waiting.extend(skills[need].needs)
    return found
