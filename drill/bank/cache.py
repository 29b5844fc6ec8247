"""The index of the bank, cached between runs: a header line, then the entries.

The header records which version of drill wrote the cache and the size and time of the files it was
made from. If the header or the digest of the body does not match, the cache is ignored and rebuilt.
"""

from __future__ import annotations

import contextlib
from hashlib import blake2b
from pathlib import Path

from msgspec import DecodeError, Struct, field
from msgspec.json import decode, encode

from drill import __version__
from drill.bank.entry import Entry
from drill.bank.files.author_files import write_atomically
from drill.bank.version import ENGINE

INDEX = 3  # raised when an entry would come out differently for the same file

Stamp = tuple[int, int] | None
"""Size and time of a file; None when there is none."""


class KeptEntry(Struct, frozen=True):
    """An entry, with the size and time of its file and sample answers when it was made."""

    entry: Entry
    file: Stamp
    answers: Stamp


class Kept(Struct, frozen=True):
    """Entries by id, and the lexicon's phrases by concept."""

    entries: dict[str, KeptEntry] = field(default_factory=dict)
    lexicon: dict[str, tuple[str, ...]] = field(default_factory=dict)


class _Head(Struct, frozen=True):
    """Which version wrote an index and from which files; `digest` is the digest of its body."""

    drill: str
    index: int
    engine: int
    bank: str
    leans_on: dict[str, tuple[int, int]]
    digest: str


def load(cache: Path, bank: Path, leans_on: dict[str, tuple[int, int]]) -> Kept:
    """The cached index; empty when it is missing, damaged, out of date or from another version.

    Args:
        bank: its folder.
        leans_on: size and time of the files that every entry depends on.
    """
    try:
        head, _, body = cache.read_bytes().partition(b"\n")
        if decode(head, type=_Head) == _head(bank, leans_on, body):
            return decode(body, type=Kept)
    except (OSError, DecodeError, UnicodeDecodeError, RecursionError):
        pass
    return Kept()


def save(cache: Path, bank: Path, kept: Kept, leans_on: dict[str, tuple[int, int]]) -> None:
    """Write the cache; does nothing if the folder cannot be written to."""
    with contextlib.suppress(OSError, UnicodeEncodeError):
        body = encode(kept)
        head = encode(_head(bank, leans_on, body))
        write_atomically(cache, (head + b"\n" + body).decode())


def _head(bank: Path, leans_on: dict[str, tuple[int, int]], body: bytes) -> _Head:
    digest = blake2b(body, digest_size=16).hexdigest()
    return _Head(__version__, INDEX, ENGINE, str(bank.resolve()), leans_on, digest)
