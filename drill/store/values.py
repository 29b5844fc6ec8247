"""Between our values and a database's: times, ids, text.

A time is whole milliseconds since 1970 in UTC with the offset in minutes it was meant in, so that
"the same day" can still be told afterwards. An id is a version 7 uuid: 16 bytes that sort by time.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MS = timedelta(milliseconds=1)


def new_id() -> bytes:
    """A fresh uuid7; ids made by one program sort in the order they were made."""
    from uuid_utils import uuid7

    return bytes(uuid7().bytes)


def stamp(when: datetime) -> dict[str, int]:
    """An aware time as the two columns `at` (ms, UTC) and `zone` (minutes east of UTC)."""
    offset = when.utcoffset()
    if offset is None:
        raise ValueError(f"a stored time needs its zone, got {when.isoformat()}")
    return {"at": milliseconds(when), "zone": offset // timedelta(minutes=1)}


def milliseconds(when: datetime) -> int:
    """Whole milliseconds since 1970, rounded down."""
    return (when - _EPOCH) // _MS


def moment(at: int, zone: int) -> datetime:
    """The time that `stamp` took apart."""
    return (_EPOCH + at * _MS).astimezone(timezone(timedelta(minutes=zone)))


def storable(text: str) -> str:
    """`text` itself, unless it holds half characters no database can keep: those become words.

    A terminal hands over a byte it cannot decode as a lone surrogate. "caf\\udce9" is kept as
    "caf[byte E9]"; any other lone half becomes "[half character D83D]".
    """
    try:
        text.encode()
    except UnicodeEncodeError:
        return "".join(_in_words(character) for character in text)
    return text


def _in_words(character: str) -> str:
    code = ord(character)
    if not 0xD800 <= code <= 0xDFFF:
        return character
    if 0xDC80 <= code <= 0xDCFF:
        return f"[byte {code - 0xDC00:02X}]"
    return f"[half character {code:04X}]"
