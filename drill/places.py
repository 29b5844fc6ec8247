"""Where the bank, the demo decks and the learner's data folder are; the only module that knows."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

from drill.errors import DrillError
from drill.plaintext import one_line

_PACKAGE = Path(__file__).resolve().parent

_FOLDERS = ("backups", "decks", "settled", "handouts", "classes")
_FILES = ("drill.db", "drill-", "drill.sqlite", "bank-index.json", "fault.log")
"""What the program itself makes in its data folder."""


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

    Raises:
        DrillError: it cannot be made, or there is no home folder to make it in.
    """
    chosen = os.environ.get("DRILL_HOME")
    folder = Path(chosen) if chosen else _platform_dir()
    try:
        folder = folder.expanduser()
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    except (OSError, RuntimeError, ValueError) as error:
        raise DrillError(
            f"the data folder {one_line(str(folder))} cannot be used ({reason(error)}). "
            "Name another in DRILL_HOME."
        ) from error
    return folder


def reason(error: BaseException) -> str:
    """What the system says is wrong, in its own words and on one line."""
    told = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return one_line(told) or type(error).__name__


def private_folder(folder: Path) -> None:
    """Make a folder that only its owner may look into; one that is there stays as it is."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)


def private_file(path: Path) -> None:
    """Make a file that only its owner may read, or make one that is there so."""
    os.close(os.open(path, os.O_WRONLY | os.O_CREAT, 0o600))
    with contextlib.suppress(OSError):  # somebody else's file, or a disk without permissions
        if path.stat().st_mode & 0o077:
            path.chmod(0o600)


def put(path: Path, data: bytes, private: bool = False) -> None:
    """Put a file in its place once it is whole and on the disk.

    Whenever the program is stopped or the power fails, what was there before is there, or all of
    the new. What is no file, as a pipe, is written to as it is.

    Raises:
        OSError: it cannot be written.
    """
    if path.exists() and not path.is_file():
        path.write_bytes(data)
        return
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        if private:
            private_file(part)
        with part.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    keep_names(path.parent)


def keep_names(folder: Path) -> None:
    """See that the names of a folder's files are on the disk, where a system lets us."""
    with contextlib.suppress(OSError):  # Windows opens no folder; some disks cannot
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def keep_private(folder: Path) -> bool:
    """See that what is ours in a data folder can be read by its owner only.

    Returns:
        Whether the folder itself may be looked into by others: it holds something that is not
        ours, so its permissions are not ours to change.
    """
    inside = list(folder.iterdir())
    for path in inside:
        if _is_ours(path) and path.is_file() and path.stat().st_mode & 0o077:
            path.chmod(0o600)
    if not folder.stat().st_mode & 0o077:
        return False
    if not all(map(_is_ours, inside)):
        return True
    folder.chmod(0o700)
    return False


def _is_ours(path: Path) -> bool:
    return path.name in _FOLDERS or path.name.startswith(_FILES)


def note_fault(error: Exception) -> Path | None:
    """Write down where an internal error happened, and say in which file; None where that fails.

    Names of files and functions alone: values may be a learner's words.
    """
    import traceback

    lines = [f"{type(error).__name__}\n"]
    for frame in traceback.extract_tb(error.__traceback__):
        lines.append(f"  {Path(frame.filename).name}:{frame.lineno} in {frame.name}\n")
    try:
        log = data_dir() / "fault.log"
        private_file(log)
        log.write_text("".join(lines), encoding="utf-8")
    except (OSError, DrillError):
        return None
    return log


def _platform_dir() -> Path:
    """The platform's usual place for a program's data."""
    from platformdirs import user_data_path  # not wanted where DRILL_HOME names a folder

    try:
        if not os.environ.get("HOME", "set"):  # set to nothing: it would be the root folder
            raise RuntimeError
        Path.home()
        return user_data_path("drill", appauthor=False)
    except RuntimeError as error:
        raise DrillError("there is no home folder. Name a data folder in DRILL_HOME.") from error
