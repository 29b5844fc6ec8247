"""Standard streams that accept any text: a character they lack becomes a similar one.

A terminal or a pipe may know fewer characters than we use: cp1252 on some systems, ASCII on others.
"""

from __future__ import annotations

import codecs
import os
import sys
import unicodedata

_NEAR = {
    "─": "-", "━": "-", "│": "|", "●": "o", "·": ".", "…": "...", "→": "->", "⇌": "<=>",
    "–": "-", "—": "-", "−": "-", "‘": "'", "’": "'", "“": '"', "”": '"', "×": "x", "÷": "/",
    "°": " deg ", "≤": "<=", "≥": ">=", "≈": "~", "✓": "v", "✗": "x", "Δ": "delta ", "λ": "lambda",
    "µ": "u", "μ": "u", "√": "sqrt", "²": "2", "³": "3", "½": "1/2", "¼": "1/4", "¾": "3/4",
}  # fmt: skip
_NAME = "drill-near"


def fit_streams() -> None:
    """Stop any stream raising for a character, or for being absent."""
    codecs.register_error(_NAME, _near)
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115
        _reconfigure(getattr(sys, name), _NAME)
    _reconfigure(sys.stdin, "surrogateescape")


def _reconfigure(stream: object, errors: str) -> None:
    change = getattr(stream, "reconfigure", None)
    if change is not None and getattr(stream, "errors", errors) != errors:
        change(errors=errors)


def _near(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    text = error.object[error.start : error.end]
    return "".join(map(_plain, text)), error.end


def _plain(character: str) -> str:
    """A near text in ASCII; "?" where there is none."""
    if character in _NEAR:
        return _NEAR[character]
    if 0x2800 <= ord(character) <= 0x28FF:  # a cell of dots: shown as filled or empty
        return "#" if ord(character) > 0x2800 else " "
    apart = unicodedata.normalize("NFKD", character).encode("ascii", "ignore").decode()
    return apart or "?"
