"""What the documents say exists, exists; what exists, they say."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import typer

from drill.cli.app import app
from tests.common.kinds import ALL_KINDS

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
GUIDE = (ROOT / "question_bank" / "README.md").read_text(encoding="utf-8")


def leaves() -> list[tuple[str, Any]]:
    group: Any = typer.main.get_command(app)
    found = []
    for name, command in group.commands.items():
        inner = getattr(command, "commands", None)
        found += (
            [(f"{name} {sub}", leaf) for sub, leaf in inner.items()] if inner else [(name, command)]
        )
    return found


def test_every_command_is_in_the_readme_and_says_what_it_does() -> None:
    for name, command in leaves():
        assert f"`drill {name}" in README, name
        assert command.help, name


def test_every_kind_of_part_is_in_the_authors_guide() -> None:
    for kind in ALL_KINDS:
        assert kind in GUIDE, kind


def test_every_option_explains_itself() -> None:
    for name, command in leaves():
        for parameter in command.params:
            if parameter.name != "help":
                assert getattr(parameter, "help", None), f"{name} {parameter.name}"


def test_the_readme_opens_with_the_job_and_two_commands() -> None:
    assert README.index("drill** is that practice") < README.index("drill sit")
    assert README.count("python3 -m venv .venv && .venv/bin/python -m pip install") == 2
