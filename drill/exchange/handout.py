"""A handout: a zip of text with a topic deck and what it needs, from a teacher to pupils.

It may come from anywhere, so only names of a closed list are read, within limits, and nothing of
it is ever run. What its questions claim is proved again where it is opened.
"""

from __future__ import annotations

import io
import json
import re
import stat
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from drill.errors import DrillError
from drill.model import LONGEST_REPLY
from drill.plaintext import one_line

SUFFIX = ".handout"
DECK, SETTLED, ON_PAPER = "deck.toml", "settled.jsonl", "paper.jsonl"
MOST_FILES = 400
LARGEST_FILE, LARGEST = 2_000_000, 16_000_000
"""Bytes of one text, and of all of them, once unpacked."""
_MOST_RATIO = 200  # text packs to a tenth; zeros to a thousandth
_ENTRY = "handout.json"
_NAME = r"[a-z0-9][a-z0-9_.+-]{0,60}"
_NAMES = re.compile(
    rf"{_ENTRY}|{DECK}|{SETTLED}|{ON_PAPER}|own/lexicon\.toml|own/fitted\.jsonl"
    rf"|own/drawings/{_NAME}\.svg|own/facts/{_NAME}\.csv|own/{_NAME}/{_NAME}\.toml",
    re.ASCII,
)
_RESERVED = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\..*)?", re.ASCII)
"""Names that mean a device on some systems."""
_DAMAGED = (
    zipfile.BadZipFile, zlib.error, EOFError, OSError, RuntimeError, NotImplementedError,
    ValueError, KeyError, TypeError, IndexError, AttributeError, OverflowError,
)  # fmt: skip


class Refused(DrillError):
    """A handout that is refused; the text gives the reason in one line."""


class Settled(NamedTuple):
    """A mark that a teacher settled: the answer's id in hex, marks by point, a line to the pupil.

    The line is the teacher's; nothing that a pupil typed travels.
    """

    answer: str
    points: Mapping[str, int]
    reply: str = ""
    by: str = "teacher"


def packed(files: Mapping[str, str], settled: tuple[Settled, ...]) -> bytes:
    """The handout's bytes, the same for the same content.

    Args:
        files: {name: text}, `deck.toml` among them.

    Raises:
        Refused: it would not be opened: a name that is not allowed, or too much.
    """
    lines = [json.dumps(one._asdict(), ensure_ascii=False) for one in settled]
    whole = {_ENTRY: json.dumps({"drill": "handout", "format": 1}), **files}
    if lines:
        whole[SETTLED] = "\n".join(lines) + "\n"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in sorted(whole.items()):
            archive.writestr(zipfile.ZipInfo(name), text.encode(), zipfile.ZIP_DEFLATED)
    unpacked(out.getvalue())
    return out.getvalue()


def is_handout(head: bytes) -> bool:
    """Whether a file that begins like this is meant to be one."""
    return head.startswith(b"PK")


def unpacked(data: bytes) -> dict[str, str]:
    """{name: text} of a handout.

    Raises:
        Refused: it is damaged, hostile, or none.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            files = dict(_texts(archive, archive.infolist()))
        head = json.loads(files.pop(_ENTRY, "{}"))
        if not isinstance(head, dict) or head.get("drill") != "handout":
            raise Refused("it is no handout of drill.")
        if head.get("format") != 1:
            raise Refused("it was made by a newer drill. Bring this one up to date.")
    except Refused:
        raise
    except (*_DAMAGED, RecursionError, MemoryError) as error:
        raise Refused("it is damaged. Fetch it again.") from error
    if DECK not in files:
        raise Refused("there is no deck in it.")
    return files


def _texts(archive: zipfile.ZipFile, entries: list[zipfile.ZipInfo]) -> Iterator[tuple[str, str]]:
    if len(entries) > MOST_FILES:
        raise Refused(f"it holds {len(entries)} files, at most {MOST_FILES} are read.")
    seen: set[str] = set()
    total = 0
    for entry in entries:
        _look_at(entry, seen)
        with archive.open(entry) as file:  # never more than its limit, whatever the entry says
            raw = file.read(LARGEST_FILE + 1)
        total += len(raw)
        if len(raw) > LARGEST_FILE or total > LARGEST:
            raise Refused("it unpacks to more than is read.")
        if b"\0" in raw:
            raise Refused("a file in it is no text.")
        yield entry.filename, raw.decode("utf-8")


def _look_at(entry: zipfile.ZipInfo, seen: set[str]) -> None:
    """Whether an entry may be opened, according to its header."""
    name = entry.filename
    parts = name.split("/")
    if not _NAMES.fullmatch(name) or any(_RESERVED.fullmatch(part) for part in parts):
        raise Refused("it holds a file that has no place in a handout.")
    if name in seen:
        raise Refused("a file stands in it twice.")
    seen.add(name)
    kind = stat.S_IFMT(entry.external_attr >> 16)
    if kind not in (0, stat.S_IFREG):
        raise Refused("it holds a link.")
    if entry.file_size > max(_MOST_RATIO * entry.compress_size, 4096):
        raise Refused("it unpacks to far more than its size.")


def settled_of(text: str) -> tuple[Settled, ...]:
    """The settled marks of a handout; invalid lines are skipped."""
    found = []
    for line in text.splitlines():
        try:
            row = json.loads(line)
            answer, points = row["answer"], row["points"]
            reply, by = one_line(row.get("reply", ""), LONGEST_REPLY), row.get("by", "teacher")
            sound = len(bytes.fromhex(answer)) == 16 and by in ("teacher", "tutor")
            if sound and all(map(_is_point, points.items())):
                found.append(Settled(answer, points, reply, by))
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            continue
    return tuple(found)


def _is_point(point: tuple[object, object]) -> bool:
    id_, marks = point
    return isinstance(id_, str) and type(marks) is int and 0 <= marks <= 1000
