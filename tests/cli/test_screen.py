"""What goes to the terminal stays within its width."""

from __future__ import annotations

import io

from rich.console import Console

from drill.cli.screen import Screen


def test_a_table_too_wide_wraps_its_widest_column(capsys) -> None:
    screen = Screen()
    screen.table(("skill", "why"), [("naming", "never known " * 12), ("drying", "forgotten")])
    lines = capsys.readouterr().out.splitlines()
    assert max(map(len, lines)) <= screen.width
    assert lines[2].startswith((" " * 10 + "never", " " * 10 + "known"))
    assert lines[-1] == "  drying  forgotten"


def test_a_table_that_fits_is_as_wide_as_it_needs_to_be(capsys) -> None:
    Screen().table(("skill", "why"), [("naming", "never known"), ("", "")])
    assert capsys.readouterr().out.splitlines()[:2] == ["  skill   why", "  naming  never known"]


def test_what_is_faint_in_a_picture_is_dim_in_colour_and_nowhere_else() -> None:
    def shown(plain: bool) -> str:
        file = io.StringIO()
        console = Console(file=file, width=40, force_terminal=True, no_color=plain)
        Screen(plain, console).picture(["ab cd ef"], ["   cd"])
        return file.getvalue()

    assert shown(plain=False) == "ab \x1b[2mcd\x1b[0m ef\n"
