"""The keys of an author's files as Markdown tables, for the docs; an example is read by a test."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from drill.bank.reference.reference_files import CONCEPT, PRACTICAL, SHARED_SLIP, SKILL
from drill.bank.schema.deck_schema import DECK_GROUPS
from drill.bank.schema.fields import TYPES, Field
from drill.bank.schema.graph_schema import AXIS, GRAPH, LINE, POINTS
from drill.bank.schema.part_schema import LEVEL, OPTION, PATTERN, POINT, SLIP, part_fields
from drill.bank.schema.template_schema import DRAW, SCALE, TEMPLATE, WORK
from drill.subjects import own_kinds

QUESTION: Mapping[str, tuple[Field, ...]] = {
    "The question": TEMPLATE,
    "A draw: `[draw]`, `name = { … }`": DRAW,
    "A step: `[work]`, `name = { … }`": WORK,
    "A drawn scale: `scale = { … }`": SCALE,
    "A graph: `[graph]`": GRAPH,
    "An axis of a graph: `x = { … }`": AXIS,
    "The points of a graph: `points = { … }`": POINTS,
    "A line of a graph: `[[graph.line]]`": LINE,
    "A part: `[[part]]`": part_fields(own_kinds()),
    "A slip of a number: `[[part.slip]]`": SLIP,
    "An option of a choice: `[[part.option]]`": OPTION,
    "A marking point: `[[part.point]]`": POINT,
    "A pattern, where more than a list of words is needed: `{ all = [ … ] }`": PATTERN,
    "A level of an extended answer: `[[part.level]]`": LEVEL,
}

SHELVES: Mapping[str, tuple[Field, ...]] = {
    "`skills.toml`: a skill, `[calc.percentage-yield]`": SKILL,
    "`practicals.toml`: a practical, `[salts]`": PRACTICAL,
    "`lexicon.toml`: a concept, `[used-up]`": CONCEPT,
    "`slips.toml`: a shared slip, `[inverted]`": SHARED_SLIP,
}


def schema_as_markdown() -> str:
    """A table a group of keys: name, for which kinds, what it holds, what it is, an example."""
    groups = {**QUESTION, **DECK_GROUPS, **SHELVES}
    return "\n".join(line for heading, keys in groups.items() for line in _table(heading, keys))


def _table(heading: str, keys: tuple[Field, ...]) -> Iterator[str]:
    yield f"### {heading}"
    yield ""
    yield "| key | holds | what it is | example |"
    yield "| --- | --- | --- | --- |"
    yield from (_row(key) for key in keys)
    yield ""


def _row(key: Field) -> str:
    name = f"**`{key.name}`**" if key.required else f"`{key.name}`"
    says = key.says
    if key.kinds:
        says += f" Only {', '.join(key.kinds)}."
    if key.allowed:
        says += f" One of {', '.join(key.allowed)}."
    if isinstance(key.default, str | int) and key.default != "" and not key.required:
        default = str(key.default).lower() if isinstance(key.default, bool) else key.default
        says += f" Left out: {default}."
    example = " ".join(f"`{line}`" for line in key.example.splitlines())
    cells = (name, TYPES[key.holds].words, says, example)
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"
