"""Commands run as a shell runs them, in this process: what they print, and how they end."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterable
from typing import NamedTuple

from drill.cli.app import app_for
from drill.cli.failures import guarded
from drill.cli.streams import fit_streams


class End(NamedTuple):
    """How a command ended; `out` and `err` as they would reach a terminal of that encoding."""

    code: int
    out: str
    err: str

    @property
    def lines(self) -> list[str]:
        return [*self.out.splitlines(), *self.err.splitlines()]

    @property
    def is_clean(self) -> bool:
        """Whether it ended by itself: well, or with a sentence, and never by an internal error."""
        return self.code in (0, 1, 2, 130) and "Traceback" not in self.out + self.err


def ends(*arguments: str, typed: Iterable[str] = (), encoding: str = "utf-8") -> End:
    """Run one command with these lines typed."""
    before = sys.stdin, sys.stdout, sys.stderr, sys.argv
    lines = "".join(f"{line}\n" for line in typed).encode(encoding, "replace")
    out, err = io.BytesIO(), io.BytesIO()
    sys.stdin = io.TextIOWrapper(io.BytesIO(lines), encoding)
    sys.stdout = io.TextIOWrapper(out, encoding, write_through=True)
    sys.stderr = io.TextIOWrapper(err, encoding, write_through=True)
    sys.argv = ["drill", *arguments]
    code = 0
    try:
        fit_streams()
        guarded(app_for(arguments))
    except SystemExit as end:
        code = end.code if isinstance(end.code, int) else int(end.code is not None)
    finally:
        said = out.getvalue().decode(encoding), err.getvalue().decode(encoding)
        sys.stdin, sys.stdout, sys.stderr, sys.argv = before
    return End(code, *said)
