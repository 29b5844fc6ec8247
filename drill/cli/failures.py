"""How a command ends when it fails: exit 1, 2, 3 or 130, one line each.

0 done, 1 the user's input or file, 2 usage or an option's value, 3 an internal error, 130 Ctrl-C.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import partial

from drill.errors import DrillError, WrongValue
from drill.plaintext import harmless


def guarded(command: Callable[[], object]) -> None:
    """Run `command`, turning exceptions into one line on stderr and an exit code."""
    try:
        command()
        sys.stdout.flush()
    except WrongValue as error:
        _end(str(error), 2)
    except DrillError as error:
        _end(str(error), 1)
    except KeyboardInterrupt:
        _say("\nStopped. Nothing is lost.")
        sys.exit(130)
    except BrokenPipeError:
        _close_quietly()
        sys.exit(0)
    except EOFError:
        _end("there is nobody to type the answer in: this needs a terminal.", 1)
    except OSError as error:
        _end(_of_system(error), 1)
    except MemoryError:
        _end("there is not enough memory for that.", 1)
    except Exception as error:
        from drill.places import note_fault

        log = note_fault(error)
        where = f" Details are in {log}" if log else ""
        _end(f"an internal error ({type(error).__name__}).{where}", 3)


_MOST_LINES = 20


def _end(said: str, code: int) -> None:
    lines = said.split("\n")
    if len(lines) > _MOST_LINES:
        more = len(lines) - _MOST_LINES + 1
        said = "\n".join([*lines[: _MOST_LINES - 1], f"… and {more} more lines."])
    _say(f"drill: {said}")
    if code == 1 and isinstance(sys.exception(), OSError):
        _close_quietly()  # nothing more can be written where this came from
    sys.exit(code)


def _say(line: str) -> None:
    try:
        sys.stderr.write(f"{_fitted(harmless(line, 20_000))}\n")
    except (OSError, ValueError, AttributeError):
        return  # nobody is there to read it


def _fitted(text: str) -> str:
    """Wrapped between words for a terminal; as it is for a file or a pipe."""
    if not sys.stderr.isatty():
        return text
    import shutil
    import textwrap

    width = max(20, shutil.get_terminal_size().columns - 1)
    wrap = partial(textwrap.fill, width=width, break_on_hyphens=False, break_long_words=False)
    return "\n".join(map(wrap, text.split("\n")))


def _of_system(error: OSError) -> str:
    """What the system says is wrong, and with which file."""
    from drill.places import reason
    from drill.plaintext import one_line

    name = f"{one_line(str(error.filename))}: " if error.filename else ""
    return f"{name}{reason(error)}. Nothing that was stored is lost."


def _close_quietly() -> None:
    """The reader of our output has gone: stop Python complaining about it at exit."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError, AttributeError):
        return
