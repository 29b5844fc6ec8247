"""What is read without typer's validators is read as they would, and refused in their words."""

from __future__ import annotations

from typing import Annotated, Any

import pytest
import typer
from typer.testing import CliRunner

from drill.cli.command import Command, Group
from drill.errors import WrongValue


def refuse_nine(value: float | None) -> float | None:
    if value == 9:
        raise WrongValue("not nine")
    return value


def _apps() -> tuple[typer.Typer, typer.Typer]:
    """The same command twice: read by us where that is plain, and all by typer."""
    ours, theirs = typer.Typer(cls=Group, add_completion=False), typer.Typer(add_completion=False)

    def show(
        text: str = "",
        *,
        whole: Annotated[int | None, typer.Option(min=1, max=100)] = None,
        low: Annotated[int, typer.Option(min=-5)] = 0,
        number: Annotated[float | None, typer.Option(callback=refuse_nine)] = None,
        flag: bool = False,
        either: Annotated[bool | None, typer.Option("--yes/--no")] = None,
        several: Annotated[list[str], typer.Option()] = [],  # noqa: B006
    ) -> None:
        typer.echo(repr((text, whole, low, number, flag, either, several)))

    for app, cls in ((ours, Command), (theirs, None)):
        app.callback()(lambda: None)
        app.command("show", **({"cls": cls} if cls else {}))(show)
    return ours, theirs


@pytest.mark.parametrize(
    "given",
    [
        [], ["words"], [""], [" two words "], ["--whole", "5"], ["--whole", "0"],
        ["--whole", "101"],
        ["--whole", "007"], ["--whole", "+5"], ["--whole", "5.0"], ["--whole", "5.5"],
        ["--whole", "٥"], ["--whole", "²"], ["--whole", " 7 "], ["--whole", "1_0"], ["--whole", ""],
        ["--whole", "9" * 30], ["--whole", "five"], ["--low", "-5"], ["--low", "-6"],
        ["--low", "9" * 30], ["--number", "2.5"], ["--number", "9"], ["--number", "nan"],
        ["--number", "x"], ["--flag"], ["--yes"], ["--no"], ["--several", "a", "--several", "b"],
        ["--nothing"], ["--whole"], ["one", "two"], ["--help"],
    ],
)  # fmt: skip
def test_every_value_is_read_and_refused_as_typer_does(given: list[str]) -> None:
    ours, theirs = (CliRunner().invoke(app, ["show", *given]) for app in _apps())
    assert _said(ours) == _said(theirs)


def _said(result: Any) -> tuple[int, str, str]:
    return result.exit_code, result.output, repr(result.exception)


def test_an_argument_that_must_be_given_is_asked_for_in_typer_s_words() -> None:
    app = typer.Typer(cls=Group, add_completion=False)
    app.callback()(lambda: None)

    @app.command(cls=Command)
    def show(text: str) -> None:
        typer.echo(text)

    assert "Missing argument" in CliRunner().invoke(app, ["show"]).output
    assert CliRunner().invoke(app, ["show", "words"]).output == "words\n"
