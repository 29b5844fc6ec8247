"""What somebody types: a line with a shell's editing keys, and a paste taken whole.

The keys are those of Python's readline where there is one, else those of the terminal. What was
typed can be called back while one question is on the desk; it is in memory only, never on disk.
A larger library (prompt_toolkit) costs 0.2 s of processor time to import, a third of a whole start.
"""

from __future__ import annotations

import sys
import time
from functools import cache
from importlib import import_module
from types import ModuleType

_TOGETHER = 0.02
"""Seconds: a further line that is there so soon was pasted, where pastes are not marked as such."""
_MOST_LINES = 400
_KEYS = (
    "set enable-bracketed-paste on",
    "set horizontal-scroll-mode off",
    "set show-all-if-ambiguous off",
    'tab: ""',
    '"\\e\\C-m": "\\C-v\\C-j"',
)
"""A paste is one answer; no completion; Alt and Enter together begin a new line."""


def read_line(prompt: str) -> str:
    """One line typed at a terminal, or a paste of several, without its end.

    Raises:
        EOFError: the terminal has gone.
    """
    keys = _keys()
    typed = input(prompt)
    if keys is None or "libedit" in (keys.__doc__ or ""):
        typed = "\n".join([typed, *_pasted_with_it()])
    return typed


def forget() -> None:
    """Take away what can be called back: another question is on the desk."""
    keys = sys.modules.get("readline")
    if keys is not None:
        keys.clear_history()


@cache
def _keys() -> ModuleType | None:
    """Python's readline, set up once; None where there is none."""
    try:
        keys = import_module("readline")
    except ImportError:
        return None
    for line in _KEYS:
        keys.parse_and_bind(line)
    return keys


def _pasted_with_it() -> list[str]:
    """The lines that are waiting at once after another: nobody types so fast."""
    found: list[str] = []
    while len(found) < _MOST_LINES and _waiting():
        try:
            found.append(input())
        except EOFError:
            break
    return found


def _waiting() -> bool:
    if sys.platform == "win32":
        keyboard = import_module("msvcrt")
        time.sleep(_TOGETHER)
        return bool(keyboard.kbhit())
    from select import select

    return bool(select([sys.stdin], [], [], _TOGETHER)[0])
