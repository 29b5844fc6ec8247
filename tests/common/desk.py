"""Sitting at the command line in a test: typed lines in, the screen out."""

from __future__ import annotations

from collections.abc import Iterable

from typer.testing import CliRunner, Result

from drill.cli.app import app_for


def drill(*arguments: str, typed: Iterable[str] | str = "") -> Result:
    """Run one command; `typed` are the lines a learner types."""
    lines = typed if isinstance(typed, str) else "".join(f"{line}\n" for line in typed)
    return CliRunner().invoke(app_for(arguments), list(arguments), input=lines)
