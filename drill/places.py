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


def _platform_dir() -> Path:
    home = Path.home()
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or home / "AppData" / "Local") / "drill"
    if sys.platform == "darwin":
        return home / "Library" / "Application Support" / "drill"
    return Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share") / "drill"
