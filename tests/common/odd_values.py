"""Values that no option and no prompt can mean, at every option and prompt there is."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from typing import Any

import typer

from drill.cli.app import every_command
from tests.common.ends import End, ends

ODD = (
    "inf", "-inf", "nan", "1e400", "9" * 5000, "-1", "0", "1e18", "9999-12-31T23:59", "0001-01-01",
    "", "\x1b[2J\x1b]0;x\x07", "x" * 8000, "\u202e", "½", "../nowhere/x/y", "/proc/self/fd",
)  # fmt: skip
SAID = ("inf", "9" * 5000, "-1", "nan", "\x1b[2J", "x" * 9000, "\0", "\u202e", "[" * 3000, "")
"""What is typed at a prompt."""
_ONE = "salts/why-excess"
NEEDED = {
    "bank check": _ONE, "bank show": _ONE, "bank try": _ONE, "ask": _ONE, "regrade": _ONE,
    "weak": "K7", "sit": "--learner K7", "plan": "--learner K7", "learner new": "Z1",
    "learner rename": "K7 Z2", "deck check": "five-skills", "deck try": "five-skills",
    "data export": "--learner K7", "data accept-loss": "--by tutor",
}  # fmt: skip
"""{command: arguments it needs, or that keep it short}."""


def commands() -> Iterator[tuple[str, Any]]:
    """(name, command) of every command, groups apart."""
    yield from _below("", typer.main.get_command(every_command()))


def _below(name: str, command: Any) -> Iterator[tuple[str, Any]]:
    inner = getattr(command, "commands", None)
    if inner is None:
        yield name, command
        return
    for below, one in inner.items():
        yield from _below(f"{name} {below}".strip(), one)


def lines(name: str, command: Any) -> Iterator[list[str]]:
    """The command with each odd value at each of its options and arguments."""
    needed = shlex.split(NEEDED.get(name, ""))
    for option in command.params:
        if getattr(option, "is_flag", False) or option.name == "help":
            continue
        for value in ODD:
            if option.param_type_name == "option":
                given = [word for word in needed if option.opts[0] not in needed]
                yield [*name.split(), *given, f"{option.opts[0]}={value}"]
            else:
                yield [*name.split(), "--", value]


def wrong(end: End) -> str:
    """What is wrong with how a command ended, "" when nothing is."""
    said = (end.out + end.err).replace("\r\n", "\n")
    if not end.is_clean:
        return f"exit {end.code}: {end.err.strip()[:200]}"
    if any(ord(letter) < 32 and letter not in "\n\t" for letter in said):
        return "a control character reaches the screen"
    if len(end.err.splitlines()) > 20:
        return f"{len(end.err.splitlines())} lines of complaint"
    return ""


def prompts(name: str) -> Iterator[tuple[str, str]]:
    """(what was typed, what is wrong) with each odd text at each prompt of a command."""
    for text in SAID:
        end = ends(*name.split(), *shlex.split(NEEDED.get(name, "")), typed=[text] * 6)
        yield text[:20], wrong(end)
