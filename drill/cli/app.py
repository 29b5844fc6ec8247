"""The typer app: which commands there are. Each command's work is imported inside its body."""

from __future__ import annotations

from typing import Annotated

import typer

from drill.cli import appeals, ask, bank, data, deck, learner, mark, plan, regrade, sit, weak

app = typer.Typer(
    name="drill",
    help="Spaced practice for practical-skills exam questions in school science.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

app.command("sit")(sit.sit)
app.command("plan")(plan.plan)
app.command("weak")(weak.weak)
app.command("regrade")(regrade.regrade)
app.command("ask")(ask.ask)
app.command("mark")(mark.mark)
app.add_typer(appeals.app, name="appeals")
app.add_typer(learner.app, name="learner")
app.add_typer(deck.app, name="deck")
app.add_typer(bank.app, name="bank")
app.add_typer(data.app, name="data")


def _show_version(wanted: bool) -> None:
    if wanted:
        from drill import __version__

        typer.echo(f"drill {__version__}")
        raise typer.Exit


@app.callback()
def drill(
    version: Annotated[
        bool,
        typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version."),
    ] = False,
) -> None:
    """Spaced practice for practical-skills exam questions in school science."""
    from drill.cli.streams import fit_streams

    fit_streams()
