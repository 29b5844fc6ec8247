"""Updates an author's file to the current format, keeping comments, order and quotes.

There has been only one format so far. So this adds the format number on the first line, and
corrects key names that authors often write out of habit.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from drill.bank.files.author_files import parse_toml, read_text, write_atomically
from drill.bank.reading.template_reader import newer_format
from drill.bank.schema.template_schema import FORMAT
from drill.errors import DrillError, Problem

# As written -> as read. Spellings only: a key whose meaning changes needs a format of its own.
ALIASES = {
    "courses": "course",
    "skill_ids": "skills",
    "parts": "part",
    "requires": "require",
    "draws": "draw",
    "lookalikes": "look_alikes",
    "maximum": "max",
    "sig_figs": "figures",
    "significant_figures": "figures",
    "decimal_places": "decimals",
}


def upgrade(path: Path) -> list[str]:
    """Rewrite the file if it needs it; returns what was changed, in words (empty: nothing).

    Raises:
        DrillError: it is not TOML, or of a newer format.
        OSError: it cannot be written.
    """
    text = read_text(path)
    if isinstance(text, Problem):
        raise DrillError(str(text))
    upgraded, changes = upgrade_text(text, str(path))
    if changes:
        write_atomically(path, upgraded)
    return changes


def upgrade_text(text: str, shown: str) -> tuple[str, list[str]]:
    """The text in the current format, and what was changed.

    Raises:
        DrillError: it is not TOML, or of a newer format.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    opened = parse_toml(text, shown)
    if isinstance(opened, Problem):
        raise DrillError(str(opened))
    if newer := newer_format(opened):
        raise DrillError(str(newer))
    try:
        document = tomlkit.parse(text)
        changes = list(_renamed(document))
        upgraded = tomlkit.dumps(document)
    except (TOMLKitError, ValueError, AttributeError, RecursionError) as error:
        raise DrillError(f"{shown}: cannot be rewritten: {error}.") from None
    if "format" not in opened.raw:
        newline = "\r\n" if "\r\n" in text else "\n"
        upgraded = f"format = {FORMAT}{newline}{upgraded}"
        changes.insert(0, f"format = {FORMAT} as the first line")
    return upgraded, changes


def _renamed(table: Any) -> Iterator[str]:
    """Rename commonly mistaken keys in a table and its sub-tables; returns what was renamed."""
    for name in list(table):
        if name in ALIASES and ALIASES[name] not in table:
            _rename(table, name, ALIASES[name])
            yield f"{name} is now {ALIASES[name]}"
            name = ALIASES[name]
        value = table[name]
        if isinstance(value, dict) and name not in ("draw", "work", "require", "names", "why"):
            yield from _renamed(value)
        elif isinstance(value, list):
            for entry in value:
                if isinstance(entry, dict):
                    yield from _renamed(entry)


def _rename(table: Any, old: str, new: str) -> None:
    """In place, so that the key keeps its line and comment.

    tomlkit has no public way to do that: `_replace` is what its own assignment uses.
    """
    container = table if hasattr(table, "_replace") else table.value
    container._replace(old, new, table[old])
