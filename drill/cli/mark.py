"""`drill mark`: answers in as JSON Lines, marks out as JSON Lines."""

from __future__ import annotations

import json
import sys

import typer

from drill.app.context import open_bank
from drill.cli.common import AsJson


def mark(as_json: AsJson = True) -> None:
    """Mark answers from standard input.

    A line each: {"template": "salts/percentage-yield", "seed": 7, "answers": {"a": "4.12 g"}}.
    A bad line gives {"line": n, "error": "…"}, the rest goes on, and the exit code is 1.

    Written answers are marked by pattern, measured on invented answers marked by their author; on
    real pupils expect worse. Published systems agree with a person on 84 to 96 answers in 100.
    """
    from drill.app.mark import BadLine, marked_lines
    from drill.app.rows import plain

    failed = False
    for row in marked_lines(open_bank(), sys.stdin.buffer):
        failed = failed or isinstance(row, BadLine)
        sys.stdout.write(json.dumps(plain(row), ensure_ascii=False) + "\n")
    if failed:
        raise typer.Exit(1)
