"""From the frozen rows that use cases return to plain values for JSON."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, fields, is_dataclass
from typing import Any

from drill.errors import Problem


def named(name: str) -> Any:
    """A field whose name in JSON cannot be a name in Python, as "combined higher"."""
    return field(metadata={"name": name})


def optional() -> Any:
    """A field that JSON leaves out as long as it is None."""
    return field(default=None, metadata={"optional": True})


def plain(value: Any) -> Any:
    """Rows as dictionaries in the order of their fields, whatever they lie in."""
    if isinstance(value, Problem):
        return value.as_row()
    if is_dataclass(value):
        return {
            one.metadata.get("name", one.name): plain(getattr(value, one.name))
            for one in fields(value)
            if not (one.metadata.get("optional") and getattr(value, one.name) is None)
        }
    if isinstance(value, Mapping):
        return {key: plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [plain(inner) for inner in value]
    return value
