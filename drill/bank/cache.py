"""The index kept between runs: one line that says what it was made from, then the entries.

Whatever is not exactly as this version of drill wrote it, for these very files, counts as nothing.
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import blake2b
from pathlib import Path
from typing import Any

from drill import __version__
from drill.bank.files.author_files import write_atomically
from drill.bank.version import ENGINE

INDEX = 2  # raised when an entry would come out differently for the same file

SourceMarks = Mapping[str, list[int] | None]


@dataclass
class Kept:
    """Entries by id, `{"marks": …, "entry": …}`, and the lexicon's phrases by concept."""

    entries: dict[str, Any] = field(default_factory=dict)
    lexicon: dict[str, list[str]] = field(default_factory=dict)


def load(cache: Path, bank: Path, leans_on: SourceMarks) -> Kept:
    """What was kept; nothing when it is missing, damaged, another version's or out of date.

    Args:
        bank: its folder.
        leans_on: size and time of the files that every entry depends on.
    """
    try:
        head, _, body = cache.read_bytes().partition(b"\n")
        if json.loads(head) != _head(bank, leans_on, body):
            return Kept()
        kept = json.loads(body)
        return Kept(kept["entries"], kept["lexicon"])
    except (OSError, ValueError, RecursionError, KeyError, TypeError):
        return Kept()


def save(cache: Path, bank: Path, kept: Kept, leans_on: SourceMarks) -> None:
    """Keep the index; a folder that cannot be written to is no reason to stop."""
    body = json.dumps({"entries": kept.entries, "lexicon": kept.lexicon}, ensure_ascii=False)
    head = json.dumps(_head(bank, leans_on, body.encode("utf-8", "surrogatepass")))
    with contextlib.suppress(OSError, UnicodeEncodeError):
        write_atomically(cache, f"{head}\n{body}")


def _head(bank: Path, leans_on: SourceMarks, body: bytes) -> dict[str, Any]:
    return {
        "drill": __version__,
        "index": INDEX,
        "engine": ENGINE,
        "bank": str(bank.resolve()),
        "leans_on": dict(leans_on),
        "digest": blake2b(body, digest_size=16).hexdigest(),
    }
