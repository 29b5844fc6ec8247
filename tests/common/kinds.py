"""Every kind of part there is: the general ones, and those of each subject."""

from __future__ import annotations

from collections.abc import Collection
from importlib import import_module

from drill.bank.schema.part_schema import PART_KINDS, part_fields
from drill.model.field import Field
from drill.subjects import own_kinds

ALL_KINDS = (*PART_KINDS, *own_kinds())
ALL_FIELDS: tuple[Field, ...] = part_fields(own_kinds())

TABLES = (
    ("drill.bank.schema.part_schema", "PART_KINDS", "its name; its keys go into `PART` there"),
    ("drill.bank.reading.part_readers", "KINDS", "what an author wrote becomes a `PartSpec`"),
    ("drill.bank.entry", "SECONDS", "how long a student needs"),
    ("drill.generate.keys.part_keys", "KINDS", "numbers become a `Key`, points, a model answer"),
    ("drill.generate.worked.worked_answers", "WORKED", "the lines of its worked answer"),
    ("drill.marking.marker", "RULES", "an answer becomes a `Mark`"),
)
"""Every table of general kinds: its module, its name, what it holds of a kind."""


def table_of(module: str, name: str) -> Collection[str]:
    """The kinds in a table."""
    found: Collection[str] = getattr(import_module(module), name)
    return found


def files_of_a_kind() -> str:
    """The files a new general kind touches, as a table for the guide."""
    lines = ["| file | table | holds |", "| --- | --- | --- |"]
    for module, name, holds in TABLES:
        lines.append(f"| `{module.replace('.', '/')}.py` | `{name}` | {holds} |")
    return "\n".join(lines)


def keys_of_kinds() -> str:
    """Each kind with the keys that only some kinds have, as a table for authors."""
    lines = ["| kind | keys of its own |", "| --- | --- |"]
    for kind in ALL_KINDS:
        own = dict.fromkeys(f"`{key.name}`" for key in ALL_FIELDS if kind in key.kinds)
        lines.append(f"| `{kind}` | {', '.join(own)} |")
    return "\n".join(lines)
