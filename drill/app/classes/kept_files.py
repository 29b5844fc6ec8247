"""What is kept of a class in the data folder, read as what may have been damaged there."""

from __future__ import annotations

from hashlib import blake2b
from pathlib import Path
from typing import Annotated, TypeVar

from msgspec import DecodeError, Meta, Struct
from msgspec.json import decode

Kept = TypeVar("Kept")


class KeptClass(Struct, frozen=True):
    """`class.json`: what is set for a class."""

    title: str
    source: str
    list: str
    joined: dict[str, str]


class KeptDecision(Struct, frozen=True):
    """A line of `settled.jsonl`."""

    answer: str
    points: dict[str, Annotated[int, Meta(ge=0)]]
    by: str
    reply: str = ""
    again: bool = False


def read_as(kind: type[Kept], raw: bytes) -> Kept | None:
    """What it says; None when it is not of that kind."""
    try:
        return decode(raw, type=kind)
    except (DecodeError, UnicodeDecodeError, RecursionError):
        return None


def with_digest(body: bytes) -> bytes:
    """What `without_digest` takes."""
    return blake2b(body, digest_size=16).hexdigest().encode() + b"\n" + body


def without_digest(path: Path) -> bytes | None:
    """What was kept in a file; None when it is not there, or not as it was written."""
    try:
        raw = path.read_bytes()
    except OSError:
        return None
    body = raw.partition(b"\n")[2]
    return body if raw == with_digest(body) else None
