"""How a command ends when it does not end well: exit 1, 3 or 130, one line each.

0 done, 1 the user's input or file, 2 usage (typer's own), 3 a fault of ours, 130 Ctrl-C.
"""

from __future__ import annotations

import sys
from collections.abc import Callable

from drill.errors import DrillError


def guarded(command: Callable[[], object]) -> None:
    """Run `command`, turning exceptions into one line on stderr and an exit code."""
    try:
        command()
    except DrillError as error:
        sys.stderr.write(f"drill: {error}\n")
        sys.exit(1)
    except KeyboardInterrupt:
        sys.stderr.write("\nStopped. Nothing is lost.\n")
        sys.exit(130)
    except BrokenPipeError:
        _close_quietly()
        sys.exit(0)
    except Exception as error:
        from drill.places import note_fault

        log = note_fault(error)
        sys.stderr.write(f"drill: a fault of ours ({type(error).__name__}). Details are in {log}\n")
        sys.exit(3)


def _close_quietly() -> None:
    """The reader of our output went away: keep Python from complaining about it at exit."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
