"""Files that came from anywhere: handouts and hand-ins spoilt in a hundred ways, by a seed."""

from __future__ import annotations

import io
import random
import zipfile
from collections.abc import Callable, Iterator, Mapping

Files = Mapping[str, str]
Spoil = Callable[[random.Random, bytes, Files], bytes]

_NAMES = (
    "../deck.toml", "/etc/drill.toml", "own/../../up/q.toml", "own\\..\\q.toml", "C:/deck.toml",
    "own/salts/../../../x.toml", "own/.hidden/q.toml", "own/con/q.toml", "own/salts/nul.toml",
    "deck.toml/x", "own/salts/q.py", "drill.db", "own/salts/", "own//q.toml", "~/deck.toml",
    "own/salts/q.toml\0.svg", "DECK.TOML", "own/ß/q.toml", "own/salts/" + "a" * 300 + ".toml",
)  # fmt: skip


def hostile_handouts(good: Files, data: bytes, number: int, seed: int = 1) -> Iterator[bytes]:
    """`number` files that are no sound handout.

    Args:
        good: the files of a sound one; data: its bytes.
    """
    rng = random.Random(seed)
    for turn in range(number):
        yield _SPOILS[turn % len(_SPOILS)](rng, data, good)


def zipped(files: Mapping[str, bytes], mode: int = 0, kind: int = zipfile.ZIP_DEFLATED) -> bytes:
    """A zip of these files, each with the given kind of file in its attributes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", kind) as archive:
        for name, text in files.items():
            entry = zipfile.ZipInfo(name)
            entry.external_attr = mode << 16
            archive.writestr(entry, text, kind)
    return out.getvalue()


def _raw(files: Files) -> dict[str, bytes]:
    return {name: text.encode() for name, text in files.items()}


def flipped(rng: random.Random, data: bytes) -> bytes:
    """Some bytes changed."""
    spoilt = bytearray(data)
    for _ in range(rng.randint(1, 8)):
        spoilt[rng.randrange(len(spoilt))] ^= 1 << rng.randrange(8)
    return bytes(spoilt)


def _flip(rng: random.Random, data: bytes, good: Files) -> bytes:
    return flipped(rng, data)


def _cut(rng: random.Random, data: bytes, good: Files) -> bytes:
    return data[: rng.randrange(4, len(data))]


def _bad_name(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped({**_raw(good), rng.choice(_NAMES): b"format = 1\n"})


def _link(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped({**_raw(good), "own/salts/q.toml": b"/etc/passwd"}, 0o120777)


def _device(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped(_raw(good), rng.choice([0o020666, 0o060666, 0o010666, 0o040755]))


def _bomb(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped({**_raw(good), "own/salts/q.toml": b" " * rng.randint(3, 9) * 1_000_000})


def _many(rng: random.Random, data: bytes, good: Files) -> bytes:
    more = {f"own/salts/q{n}.toml": b"x" for n in range(rng.randint(401, 600))}
    return zipped({**_raw(good), **more}, kind=zipfile.ZIP_STORED)


def _twice(rng: random.Random, data: bytes, good: Files) -> bytes:
    out = io.BytesIO(data)
    with zipfile.ZipFile(out, "a") as archive:
        import warnings

        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            archive.writestr("deck.toml", "format = 1\n")
    return out.getvalue()


def _no_text(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped({**_raw(good), "deck.toml": rng.randbytes(200) + b"\xff\0"})


def _foreign(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped({"word/document.xml": b"<a/>", "[Content_Types].xml": rng.randbytes(9)})


def _no_deck(rng: random.Random, data: bytes, good: Files) -> bytes:
    return zipped({name: raw for name, raw in _raw(good).items() if name != "deck.toml"})


def _newer(rng: random.Random, data: bytes, good: Files) -> bytes:
    head = f'{{"drill": "handout", "format": {rng.randint(2, 99)}}}'
    return zipped({**_raw(good), "handout.json": head.encode()})


def _head(rng: random.Random, data: bytes, good: Files) -> bytes:
    heads = (b"[" * 100_000, b"null", b"7", b"[]", b'{"drill": 1}', b"{", b"\xff")
    return zipped({**_raw(good), "handout.json": rng.choice(heads)})


def _lying_size(rng: random.Random, data: bytes, good: Files) -> bytes:
    """The central directory says other sizes than there are."""
    spoilt = bytearray(data)
    at = data.index(b"PK\x01\x02")
    spoilt[at + 24 : at + 28] = rng.choice([0, 1, 2**31, 2**32 - 1]).to_bytes(4, "little")
    return bytes(spoilt)


def _method(rng: random.Random, data: bytes, good: Files) -> bytes:
    """Encrypted, or packed in a way that is not known."""
    spoilt = bytearray(data)
    at = data.index(b"PK\x01\x02")
    if rng.random() < 0.5:
        spoilt[at + 8] |= 1
    else:
        spoilt[at + 10 : at + 12] = rng.choice([1, 6, 9, 99]).to_bytes(2, "little")
    return bytes(spoilt)


_SPOILS: tuple[Spoil, ...] = (
    _flip, _cut, _bad_name, _link, _device, _bomb, _many, _twice, _no_text, _foreign, _no_deck,
    _newer, _head, _lying_size, _method, _flip, _cut, _bad_name,
)  # fmt: skip
