"""Commands that write, killed without warning at some moment and then run to their end.

Whatever moment it was: what the command had said is there, what it had not finished is not there
by half, and run again it comes to what it comes to when nobody stops it.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from random import Random
from typing import NamedTuple

import pytest

from drill.app.context import open_store
from drill.exchange.hand_in import packed
from drill.store.rows import AnswerRow
from tests.common.classes import SKILLS, class_of
from tests.common.paper_sheets import filled

ROOT = Path(__file__).resolve().parents[2]
AT = ("--at", "2027-03-01T18:00")
PUPILS = [f"k{number:02}" for number in range(24)]


class Kind(NamedTuple):
    """A command, what it needs beforehand, what it leaves, and the words that say it is done."""

    command: tuple[str, ...]
    prepare: Callable[[Path], None]
    left: Callable[[Path], object]
    done: str
    files: bool = False  # whether what it leaves are files, each whole or not there


class CommandTrial:
    """A command in folders that are fresh each time: `home` and, below it, `files`."""

    def __init__(self, folder: Path, kind: Kind, chance: Random) -> None:
        self.folder, self.kind, self.chance = folder, kind, chance
        self.before = folder / "before"
        (self.before / "files").mkdir(parents=True)
        kind.prepare(self.before)
        self.here = self._fresh()
        began = time.monotonic()
        self._run()
        self.long = time.monotonic() - began
        self.whole = kind.left(self.here)

    def killed(self) -> list[str]:
        """Kill it, look, and run it again; what is wrong, a line each."""
        self.here = self._fresh()
        said = self._run(killed_after=self.long * self.chance.uniform(0.3, 1.1))
        wrong = []
        if self.kind.done in said and self.kind.left(self.here) != self.whole:
            wrong.append(f"it said that it was done, and left {self.kind.left(self.here)!r:.300}")
        wrong += [f"by half: {name}" for name in self._halves()]
        again = self._run()
        if self.kind.left(self.here) != self.whole:
            wrong.append(f"run again: {again[-300:]}")
        return wrong

    def _fresh(self) -> Path:
        here = self.folder / "here"
        shutil.rmtree(here, ignore_errors=True)
        shutil.copytree(self.before, here)
        return here

    def _run(self, killed_after: float | None = None) -> str:
        running = subprocess.Popen(
            [sys.executable, "-m", "drill", *self.kind.command], cwd=self.here / "files",
            env=os.environ | _environment(self.here), stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True,
        )  # fmt: skip
        with suppress(subprocess.TimeoutExpired):
            return running.communicate(timeout=killed_after)[0]
        running.kill()
        return running.communicate()[0]

    def _halves(self) -> list[str]:
        """Written files that are not what they are in the end; those on the way have a dot."""
        there = self.kind.left(self.here) if self.kind.files else {}
        assert isinstance(there, dict)
        assert isinstance(self.whole, dict) or not self.kind.files
        return [name for name in there if there[name] != self.whole.get(name)]  # type: ignore[attr-defined]


def _environment(here: Path) -> dict[str, str]:
    return {"DRILL_HOME": str(here / "home"), "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}


def told(here: Path, *command: str) -> str:
    """What a command says where a trial stands."""
    return subprocess.run(
        [sys.executable, "-m", "drill", *command], cwd=here / "files", text=True, check=False,
        env=os.environ | _environment(here), stdin=subprocess.DEVNULL, capture_output=True,
    ).stdout  # fmt: skip


def _hand_in_files(here: Path) -> None:
    (here / "files" / "handed").mkdir()
    for one in class_of(len(PUPILS), 5, SKILLS[0]):
        (here / "files" / "handed" / f"{one.code}.handin").write_bytes(packed(one))


def _report(here: Path) -> object:
    return json.loads(told(here, "class", "report", "Ten", "--json", *AT) or "null")


def _paper_sheet(here: Path) -> None:
    told(here, "paper", "make", "first-steps", "--marks", "20", "--format", "text", *AT)
    filled(next((here / "files").glob("*-marks.csv")), *PUPILS)


def _marks(here: Path) -> object:
    """Marks from paper of each pupil; what was asked twice counts twice."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRILL_HOME", str(here / "home"))
        with open_store(reading=True) as store:
            return {
                who.code: sorted(
                    (asking.template, asking.seed, [_given(one) for one in asking.answers])
                    for asking in store.askings(who)
                )
                for who in store.learners()
            }


def _given(answer: AnswerRow) -> object:
    return answer.part, answer.kind, answer.verdict and answer.verdict.mark.marks


def _files(here: Path) -> object:
    return {
        path.name: sha256(path.read_bytes()).hexdigest()
        for path in sorted((here / "files").iterdir())
        if path.is_file() and not path.name.startswith(".")
    }


def _nothing(_: Path) -> None:
    """Nothing is needed."""


_COLLECT = ("class", "collect", "handed", "--class", "Ten")
_ENTER = ("paper", "enter", "filled.csv", "--new", *AT)
_MAKE = ("paper", "make", "first-steps", "--format", "text,html", *AT)
_HANDOUT = ("deck", "handout", "first-steps", "--out", "ours.drill")
KINDS = {
    "collect": Kind(_COLLECT, _hand_in_files, _report, "answers"),
    "enter": Kind(_ENTER, _paper_sheet, _marks, PUPILS[-1]),
    "make": Kind(_MAKE, _nothing, _files, "paper enter", files=True),
    "handout": Kind(_HANDOUT, _nothing, _files, "is ready", files=True),
}
