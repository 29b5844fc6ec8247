"""The 8-byte checksum of a row, which shows whether it has changed since it was written.

SQLite's own check looks at the structure of the file, not at the values in it: a bit flipped
inside a number or a text goes unseen. So each row carries a BLAKE2b of its values.
"""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import blake2b

Cell = int | float | str | bytes | None


class RawText(bytes):
    """Text as the bytes of the file, for reading rows that may no longer be valid UTF-8."""


def row_sum(table: str, values: Mapping[str, Cell]) -> bytes:
    """8 bytes over the table's name and each filled column's name, type and value.

    Columns count in the order of their names and empty ones not at all, so a later version may
    add an optional column without touching the rows that are there.
    """
    digest = blake2b(digest_size=8)
    _add(digest, b"table", table.encode())
    for name in sorted(values):
        value = values[name]
        if value is not None:
            kind, content = _content(value)
            _add(digest, name.encode() + kind, content)
    return digest.digest()


def _add(digest: blake2b, label: bytes, content: bytes) -> None:
    digest.update(b"%b %d " % (label, len(content)))
    digest.update(content)


def _content(value: int | float | str | bytes) -> tuple[bytes, bytes]:
    if isinstance(value, str):
        return b":text", value.encode()
    if isinstance(value, RawText):
        return b":text", bytes(value)
    if isinstance(value, bytes):
        return b":blob", value
    if isinstance(value, float):
        return b":real", value.hex().encode()
    return b":int", b"%d" % value
