"""One key of an author's file: what a room or a subject says of it, before any file is read."""

from __future__ import annotations

from typing import Any

from msgspec import Struct


class Field(Struct, frozen=True):
    """One key. `kinds` are the kinds of its table it belongs to; none means all of them.

    `holds` names an entry of `TYPES` in the bank's schema. `example` is a line of TOML that is
    read by a test.
    """

    name: str
    holds: str
    says: str
    example: str
    required: bool = False
    default: Any = None
    kinds: tuple[str, ...] = ()
    allowed: tuple[str, ...] = ()
    low: int | None = None
    high: int | None = None

    def belongs_to(self, kind: str) -> bool:
        """Whether a table of that kind may have the key; "" asks for any kind."""
        return not self.kinds or not kind or kind in self.kinds
