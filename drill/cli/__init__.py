"""The command line: one file a command, and the one place where failures become exit codes."""

from __future__ import annotations

__all__ = ["run"]


def run() -> None:
    """Run the command given in `sys.argv` and exit with its code."""
    import gc
    import sys

    # a start makes thousands of objects that all stay: look for garbage less often
    gc.set_threshold(100_000, 20, 20)
    from drill.cli.app import app_for
    from drill.cli.failures import guarded
    from drill.cli.streams import fit_streams

    fit_streams()
    guarded(lambda: app_for(sys.argv[1:])())
