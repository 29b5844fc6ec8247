"""What a listing or the planner needs to know of a question, without reading the question."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from drill.bank.reading.part_readers import marks_of
from drill.model import PartSpec, Template
from drill.subjects import subject

# Seconds a 15-year-old needs, typed. Common practice.
SECONDS = {
    "name": 20, "choice": 20, "reading": 25, "order": 75, "table": 60, "levels": 420,
    "number": 50, "written": 40,
}  # fmt: skip
_A_MARK = ("number", "written")  # for each of its marks; else for the whole part


class Entry(Struct, frozen=True):
    """One question in the index.

    `part_skills` holds each part's skill in order, `skill_marks` the marks of each skill;
    `ok` False: its file has problems, and only `id` and `path` are sure. `unproven`: a written
    part has too few sample answers.
    """

    id: str
    path: str
    title: str = ""
    skills: tuple[str, ...] = ()
    part_skills: tuple[str, ...] = ()
    practical: str = ""
    kinds: tuple[str, ...] = ()
    marks: int = 0
    skill_marks: Mapping[str, int] = field(default_factory=dict)
    seconds: int = 0
    course: tuple[str, ...] = ()
    has_draws: bool = False
    command_word: str = ""
    retired: bool = False
    ok: bool = False
    unproven: bool = False
    was: tuple[str, ...] = ()
    side: str = ""
    object: str = ""


def entry_of(template: Template) -> Entry:
    """The entry of a question that could be read."""
    part_skills = tuple(part.skill or template.skills[0] for part in template.parts)
    skill_marks = dict.fromkeys(template.skills, 0)
    for skill, part in zip(part_skills, template.parts, strict=True):
        skill_marks[skill] = skill_marks.get(skill, 0) + marks_of(part)
    return Entry(
        id=template.id,
        path=template.path,
        title=template.title,
        skills=template.skills,
        part_skills=part_skills,
        practical=template.id.split("/")[-2],
        kinds=tuple(part.kind for part in template.parts),
        marks=sum(skill_marks.values()),
        skill_marks=skill_marks,
        seconds=template.seconds
        or sum(seconds_of(one, template.subject) for one in template.parts),
        course=template.course,
        has_draws=template.has_draws,
        command_word=template.command_word,
        retired=template.retired,
        ok=True,
        unproven=any(part.unproven for part in template.parts),
        was=template.was,
        side=template.side,
        object=template.object,
    )


def seconds_of(part: PartSpec, science: str = "") -> int:
    """How long a part takes, by its kind."""
    own = subject(science).kind(part.kind)
    if own is not None:
        return own.seconds
    times = marks_of(part) if part.kind in _A_MARK else 1
    return SECONDS[part.kind] * times
