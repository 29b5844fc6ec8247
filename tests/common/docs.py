"""What the README and DEVELOPERS.md print from the code itself, between cog marks."""

from __future__ import annotations

from typing import Any


def commands() -> str:
    """Every command with its first line of help and its options, as Markdown."""
    import typer

    from drill.cli.app import app

    group: Any = typer.main.get_command(app)
    lines = ["| command | does |", "| --- | --- |"]
    for name, command in group.commands.items():
        inner = getattr(command, "commands", None)
        alone = [("", command)] if not inner or command.invoke_without_command else []
        rows = [*alone, *(inner or {}).items()]
        for sub, leaf in rows:
            said = (leaf.help or "").strip().split("\n")[0]
            shown = " ".join(part for part in ("drill", name, sub, _usage(leaf)) if part)
            lines.append(f"| `{shown}` | {said} |")
    return "\n".join(lines)


def _usage(command: Any) -> str:
    """Arguments in capitals, then the options by name."""
    shown = []
    for parameter in command.params:
        if parameter.name == "help":
            continue
        if parameter.param_type_name == "argument":
            shown.append(f"[{parameter.name.upper()}]")
        else:
            shown.append(f"[{max(parameter.opts, key=len)}]")
    return " ".join(shown).replace("|", "\\|")


def functions() -> str:
    """The functions of a formula, as a table."""
    from drill.quantities import FUNCTIONS
    from drill.subjects import known, subject

    lines = ["| function | gives |", "| --- | --- |"]
    own = {name: one for science in known() for name, one in subject(science).functions.items()}
    for name, function in (FUNCTIONS | own).items():
        if name != "without":  # another name of drop
            lines.append(f"| `{function.form}` | {function.says} |")
    return "\n".join(lines)


def benches() -> str:
    """The programs of tests/bench with the first line of each, as a table."""
    import ast
    from pathlib import Path

    lines = ["| bench | measures |", "| --- | --- |"]
    for path in sorted((Path(__file__).parents[1] / "bench").glob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        said = (ast.get_docstring(tree) or "").split("\n")[0]
        if "__main__" in path.read_text(encoding="utf-8"):
            lines.append(f"| `python tests/bench/{path.name}` | {said} |")
    return "\n".join(lines)


def coverage() -> str:
    """The practicals of the bank by side, how many templates each, as a table."""
    from drill.app.coverage import covered_practicals
    from drill.model import SIDES
    from tests.common.shipped import shipped_bank

    bank = shipped_bank()
    lines = [f"| practical | all | {' | '.join(SIDES)} |", "| --- " * (len(SIDES) + 2) + "|"]
    for row in covered_practicals(bank.entries(), bank.practicals()):
        counts = " | ".join(str(count) for count in row.counts)
        lines.append(f"| {row.practical} | {row.templates} | {counts} |")
    return "\n".join(lines)
