"""The typer app: which commands there are. Each command's work is imported inside its body.

app                  every command, for help, for a name that is not known, and for tests
app_for(arguments)   the one command that is called: a start does not wait for the others
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from importlib import import_module
from typing import Annotated

import typer

from drill.cli.command import Command
from drill.cli.groups import NamingGroup

COMMANDS = (
    "sit", "answers", "results", "plan", "weak", "regrade", "ask", "mark", "appeals", "learner",
    "deck", "class", "paper", "board", "bank", "data",
)  # fmt: skip
"""A module of this room each, with a function of its own name, or an `app` of several commands."""
_MODULES = {"class": "school_class"}  # Python keeps the word for itself


def app_for(arguments: Sequence[str]) -> typer.Typer:
    """The app with the command that is called; with all of them when that is none we know."""
    wanted = arguments[0] if arguments else COMMANDS[0]
    return _app_of([wanted]) if wanted in COMMANDS else every_command()


@cache
def every_command() -> typer.Typer:
    """The app with all commands."""
    return _app_of(COMMANDS)


def _app_of(names: Iterable[str]) -> typer.Typer:
    made = typer.Typer(
        name="drill",
        cls=NamingGroup,
        help="Spaced practice for practical-skills exam questions in school science.",
        invoke_without_command=True,
        add_completion=False,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    made.callback()(drill)
    for name in names:
        module = import_module(f"drill.cli.{_MODULES.get(name, name)}")
        if hasattr(module, "app"):
            for command in module.app.registered_commands:
                command.cls = Command
            made.add_typer(module.app, name=name, cls=NamingGroup)
        else:
            made.command(name, cls=Command)(getattr(module, name))
    return made


def _show_version(wanted: bool) -> None:
    if wanted:
        from drill import __version__

        typer.echo(f"drill {__version__}")
        raise typer.Exit


def drill(
    context: typer.Context,
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version."),
    ] = False,
) -> None:
    """Spaced practice for practical-skills exam questions in school science."""
    from drill.cli.streams import fit_streams

    fit_streams()
    if context.invoked_subcommand is None:
        from shutil import get_terminal_size

        from drill.cli.start import is_heard, lines_for

        typer.echo(lines_for(get_terminal_size().columns, is_heard()))


def __getattr__(name: str) -> typer.Typer:
    """`app`, made when it is first asked for (PEP 562)."""
    if name == "app":
        return every_command()
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
