"""An author's files: a starter for a question, and files brought to today's format."""

from __future__ import annotations

from pathlib import Path

from drill.errors import DrillError
from drill.places import put


def starter(kind: str) -> str:
    """The text of a question of that kind, which passes as it stands.

    Raises:
        DrillError: there is no such kind.
    """
    from drill.bank import new_template

    return new_template(kind)


def write_starter(kind: str, path: Path) -> None:
    """Write a starter to a file that is not there yet; its folders are made.

    Raises:
        DrillError: there is no such kind, or the file exists.
    """
    text = starter(kind)
    if path.exists():
        raise DrillError(f"{path} exists already. Choose another name with --out.")
    path.parent.mkdir(parents=True, exist_ok=True)
    put(path, text.encode())


def upgrade_file(path: Path) -> list[str]:
    """Bring a template or deck to today's format in place; what was changed, in words.

    Raises:
        DrillError: it is not TOML, or of a newer format.
    """
    from drill.bank import upgrade

    return upgrade(path)
