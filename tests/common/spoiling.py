"""Files and typed text spoilt by hypothesis: by letters, by values, by the shape of JSON."""

from __future__ import annotations

import json
import re
from typing import Any

from hypothesis import strategies as st

LETTERS = st.characters(codec="utf-8")
PIECES = st.sampled_from((
    "", " ", "\n", "\r", "\t", "\0", "\x1b[2J\x1b]0;x\x07", "\u202e", "\u2028", "\ufeff", "\u200b",
    ",", ";", '"', '""', "'", '"""', "\\", "\\u", "{", "}", "[", "]", "[[", "{{", "=", "#", ":",
    "<", ">", "&", "&a;", "</svg>", "<!DOCTYPE x [", "..", "../../x", "/etc/hostname", "-", "-1",
    "0", "1", "1e9", "1e400", "9" * 400, "9" * 5000, "nan", "inf", "true", "null", "½", "１２",
    "−", "é", "🧪", "2027-02-30", "9999-12-31", "0001-01-01", "1970-01-01T00:00:00Z", "[" * 3000,
    "(" * 1500, "x" * 20_000, "x" * 200_000, "0x" + "f" * 5000, "{a.b.c}", "9^9^9^9", "%s%n",
    "=1+1", "[1, [2], {}]", "{ a = 1 }",
))  # fmt: skip
"""What is put in: the signs of every format, and values that no field means."""

_VALUE = re.compile(r"\"[^\"\n]*\"|[-+\w.]+|[^\s\w]")
VALUES = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(LETTERS, max_size=20),
    st.sampled_from(([], {}, [[]], [None], {"a": {"a": []}}, 2**63, -(2**70), 10**400, "x" * 9000)),
)  # fmt: skip


@st.composite
def spoilt(draw: st.DrawFn, sound: str) -> str:
    """A text of the file's kind with one to five places changed."""
    text = sound
    for _ in range(draw(st.integers(1, 5))):
        text = draw(st.sampled_from(_CHANGES))(draw, text) or " "
    return text


def _put_in(draw: st.DrawFn, text: str) -> str:
    at = draw(st.integers(0, len(text)))
    return text[:at] + draw(PIECES | st.text(LETTERS, max_size=8)) + text[at:]


def _cut_out(draw: st.DrawFn, text: str) -> str:
    at, long = draw(st.integers(0, len(text))), draw(st.integers(1, 40))
    return text[:at] + text[at + long :]


def _instead(draw: st.DrawFn, text: str) -> str:
    """Another value, cell, name or sign in the place of one of the file's own."""
    places = list(_VALUE.finditer(text))
    if not places:
        return _put_in(draw, text)
    found = places[draw(st.integers(0, len(places) - 1))]
    other = draw(PIECES | st.sampled_from(places).map(lambda one: one[0]))
    return text[: found.start()] + other + text[found.end() :]


def _lines_moved(draw: st.DrawFn, text: str) -> str:
    lines = text.split("\n")
    one, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    lines[one : one + 1] = [lines[other]] * draw(st.sampled_from((0, 1, 2, 60)))
    return "\n".join(lines)


_CHANGES = (_put_in, _cut_out, _instead, _instead, _instead, _lines_moved)


@st.composite
def spoilt_json(draw: st.DrawFn, sound: str) -> str:
    """Lines of JSON, still JSON, with values of other kinds in some places."""
    lines = sound.splitlines()
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(lines) - 1))
        lines[at] = json.dumps(_other(draw, json.loads(lines[at])))
    return "\n".join(lines) + "\n"


def _other(draw: st.DrawFn, value: Any) -> Any:
    """The value with one thing inside it changed."""
    if not isinstance(value, dict | list) or not value or draw(st.integers(0, 5)) == 0:
        return draw(VALUES)
    keys = list(value) if isinstance(value, dict) else list(range(len(value)))
    key = keys[draw(st.integers(0, len(keys) - 1))]
    changed = value.copy()
    if draw(st.integers(0, 6)) == 0:
        del changed[key]
    else:
        changed[key] = _other(draw, value[key])
    return changed


@st.composite
def spoilt_bytes(draw: st.DrawFn, sound: bytes) -> bytes:
    """Bytes changed, cut, or put in; or other bytes altogether."""
    data = bytearray(sound)
    for _ in range(draw(st.integers(1, 8))):
        at = draw(st.integers(0, max(0, len(data) - 1)))
        data[at : at + draw(st.integers(0, 9))] = draw(st.binary(max_size=9))
    return bytes(data)


def file_bytes(sound: str) -> st.SearchStrategy[bytes]:
    """A text file spoilt as a text, as bytes, by its encoding, or not of its kind at all."""
    as_text = spoilt(sound).map(lambda text: text.encode("utf-8", "surrogatepass"))
    return st.one_of(
        *[as_text] * 6,
        spoilt_bytes(sound.encode()),
        st.sampled_from(("utf-16", "utf-8-sig", "cp1252")).map(
            lambda name: sound.encode(name, "replace")
        ),
        st.binary(max_size=300),
    )


TYPED = st.one_of(
    PIECES,
    st.text(LETTERS, max_size=40).map(lambda text: text.replace("\n", " ")),
    st.lists(PIECES, max_size=6).map("".join),
    st.sampled_from((
        "", "?", "appeal", "fix", "skip", "stop", "hint", "help", "back", "again", "all", "yes",
        "no", "y", "n", "1", "2", "1,2", "a", "b", "A, C", "12.5 g", "2.87", "1:b 2:a", "sure",
    )),
)  # fmt: skip
"""A line at a prompt: hostile, ordinary, or a word the program knows."""
