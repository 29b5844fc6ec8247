"""Where the bank, the demo decks and the learner's data folder are; the only module that knows."""

from __future__ import annotations

import os
import sys
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _shipped(name: str) -> Path:
    in_wheel = _PACKAGE / "_data" / name
    return in_wheel if in_wheel.is_dir() else _PACKAGE.parent / name


def bank_dir() -> Path:
    """The shipped question bank: in a wheel under `drill/_data`, in a checkout beside `drill`."""
    return _shipped("question_bank")


def demo_decks_dir() -> Path:
    """The shipped demo decks."""
    return _shipped("demo_decks")


def data_dir() -> Path:
    """The learner's data folder, made readable by its owner only.

    `DRILL_HOME` chooses it; else the platform's usual place for a program's data.
    """
    chosen = os.environ.get("DRILL_HOME")
    folder = Path(chosen).expanduser() if chosen else _platform_dir()
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder


def note_fault(error: Exception) -> Path:
    """Write down where a fault of ours happened, and say in which file.

    Names of files and functions alone: values may be a learner's words.
    """
    import traceback

    lines = [f"{type(error).__name__}\n"]
    for frame in traceback.extract_tb(error.__traceback__):
        lines.append(f"  {Path(frame.filename).name}:{frame.lineno} in {frame.name}\n")
    log = data_dir() / "fault.log"
    log.write_text("".join(lines), encoding="utf-8")
    return log


def _platform_dir() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "drill"
    if sys.platform == "darwin":
        return home / "Library" / "Application Support" / "drill"
    return Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share") / "drill"
