"""A program in a terminal of its own, driven key by key, as somebody at a keyboard does it."""

from __future__ import annotations

import fcntl
import os
import pty
import re
import select
import shutil
import signal
import struct
import sys
import termios
import time
from pathlib import Path
from types import TracebackType

from tests.common.shipped import index

ROOT = Path(__file__).resolve().parents[2]
_ESCAPES = re.compile(r"\x1b(\[[0-?]*[ -/]*[@-~]|\][^\x07]*\x07|[()][A-Z0-9]|[=>])")
_LONGEST = 60.0


class Terminal:
    """`drill …` on a pseudo-terminal; `said` is all it wrote, without escapes."""

    def __init__(
        self, home: Path, *arguments: str, columns: int = 80, rows: int = 24, **environment: str
    ) -> None:
        if not (home / "bank-index.json").exists():  # made once: reading the bank takes a second
            home.mkdir(exist_ok=True)
            shutil.copy(index(), home)
        self.pid, self._end = pty.fork()
        if self.pid == 0:  # pragma: no cover, the child
            signal.signal(signal.SIGINT, signal.SIG_DFL)  # a background job's tests ignore it
            os.chdir(ROOT)
            for name in ("COLUMNS", "LINES"):
                os.environ.pop(name, None)
            os.environ |= {"DRILL_HOME": str(home), "TERM": "xterm-256color", **environment}
            os.environ |= {"PYTHONPATH": str(ROOT)}
            os.execv(sys.executable, [sys.executable, "-m", "drill", *arguments])
        self.resize(columns, rows)
        self.raw = ""
        self._from = 0

    def __enter__(self) -> Terminal:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.hang_up()

    @property
    def said(self) -> str:
        return _ESCAPES.sub("", self.raw).replace("\r\n", "\n").replace("\r", "").replace("\b", "")

    def resize(self, columns: int, rows: int) -> None:
        size = struct.pack("HHHH", rows, columns, 0, 0)
        fcntl.ioctl(self._end, termios.TIOCSWINSZ, size)

    def until(self, wanted: str) -> str:
        """Wait until `wanted` is written, after all waited for before; what came until then."""
        end = time.monotonic() + _LONGEST
        while (at := self.said.find(wanted, self._from)) < 0:
            if time.monotonic() > end or not self._read():
                raise AssertionError(f"{wanted!r} did not come, only:\n{self.said[self._from :]}")
        came, self._from = self.said[self._from : at], at + len(wanted)
        return came

    def type(self, text: str) -> None:
        """Keys as they are; "\\r" is Enter."""
        os.write(self._end, text.encode())

    def paste(self, text: str) -> None:
        """As a terminal sends a paste to a program that asked for it to be marked."""
        self.type(f"\x1b[200~{text}\x1b[201~")

    def answer(self, prompt: str, text: str) -> str:
        """Wait for a prompt and type a line; what came before the prompt."""
        came = self.until(prompt)
        self.type(f"{text}\r")
        return came

    def hang_up(self) -> None:
        """Close the window."""
        if self._end >= 0:
            os.close(self._end)
            self._end = -1
            deadline = time.monotonic() + 5
            while time.monotonic() < deadline:
                if os.waitpid(self.pid, os.WNOHANG)[0]:
                    return
                time.sleep(0.02)
            os.kill(self.pid, signal.SIGKILL)
            os.waitpid(self.pid, 0)

    def wait(self) -> int:
        """Read to the end; the exit code."""
        while self._read():
            pass
        _, status = os.waitpid(self.pid, 0)
        os.close(self._end)
        self._end = -1
        return os.waitstatus_to_exitcode(status)

    def _read(self) -> bool:
        """Read some more; False when there is nothing to come."""
        ready, _, _ = select.select([self._end], [], [], 1.0)
        if not ready:
            return True
        try:
            more = os.read(self._end, 65536)
        except OSError:
            return False
        self.raw += more.decode("utf-8", "replace")
        return bool(more)
