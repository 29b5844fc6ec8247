"""Sittings in a real terminal, killed without warning while they are answered."""

from __future__ import annotations

import os
import pty
import select
import signal
import sqlite3
import sys
import time
from collections import Counter
from contextlib import closing
from pathlib import Path
from random import Random

ROOT = Path(__file__).resolve().parents[2]
_ANSWERS = ("> ",)
_LEFT = ("Enter", "How sure", "Does your answer", "Your mark")


class Trial:
    """One learner whose sittings are killed again and again.

    `acknowledged`: texts after which the program asked for the next; each must be kept, once.
    """

    def __init__(self, home: Path, chance: Random, *options: str) -> None:
        self.home, self.chance, self.options = home, chance, options
        self.acknowledged: list[str] = []
        self._number = 7000

    def sitting_killed(self) -> list[str]:
        """Answer for a while, kill, and look at what is on disk; what is wrong, a line each."""
        pid, terminal = self._start()
        most, typed = self.chance.randrange(1, 8), 0
        prompt = self._prompt(terminal)
        wrong = [] if prompt else ["the sitting did not go on"]
        waiting = ""
        while prompt and typed < most:
            further = prompt.strip() == ">"  # the answer may have more lines; it is not given yet
            text = "" if further or any(word in prompt for word in _LEFT) else self._next()
            os.write(terminal, f"{text}\n".encode())
            typed += bool(text)
            waiting = text or waiting
            if typed == most:
                time.sleep(self.chance.random() * 0.05)  # somewhere in the middle of it
                break
            prompt = self._prompt(terminal)
            if waiting and prompt and prompt.strip() != ">":
                self.acknowledged.append(waiting)
                waiting = ""
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(terminal)
        return [*wrong, *self._kept()]

    def _next(self) -> str:
        self._number += 1
        return f"{self._number}"

    def _start(self) -> tuple[int, int]:
        pid, terminal = pty.fork()
        if pid == 0:  # pragma: no cover, the child
            os.chdir(ROOT)
            os.environ |= {"DRILL_HOME": str(self.home), "TERM": "dumb", "NO_COLOR": "1"}
            options = self.options or ("--questions", "500")
            sit = ["sit", "--learner", "K7", "--plain", *options]
            command = [sys.executable, "-m", "drill", *sit]
            os.execv(sys.executable, command)
        return pid, terminal

    def _prompt(self, terminal: int) -> str:
        """The next prompt; "" when none comes."""
        seen = ""
        end = time.monotonic() + 60
        while time.monotonic() < end:
            ready, _, _ = select.select([terminal], [], [], 1.0)
            if not ready:
                continue
            try:
                seen += os.read(terminal, 65536).decode("utf-8", "replace")
            except OSError:
                return ""
            if seen.endswith("> ") and "\n" in seen.strip() + "\n":
                line = seen.splitlines()[-1]
                if line.endswith("> "):
                    if "more >" in line:
                        os.write(terminal, b"more\n")
                        seen = ""
                        continue
                    return line.replace("\x1b[?2004h", "")  # a paste is asked to be marked as one
        return ""

    def _kept(self) -> list[str]:
        with closing(sqlite3.connect(self.home / "drill.db")) as db:
            rows = db.execute('SELECT "text" FROM "answer" WHERE "kind" = \'answer\'').fetchall()
        kept = Counter(text for (text,) in rows)
        lost = [text for text in self.acknowledged if not kept[text]]
        doubled = [text for text, times in kept.items() if times > 1]
        return [f"lost: {lost}"] * bool(lost) + [f"doubled: {doubled}"] * bool(doubled)
