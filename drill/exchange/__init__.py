"""Data export and import: statements, spreadsheets, backups, hand-ins and handouts.

Each is loaded when it is named: a class report need not wait for what writes a database.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drill.exchange.backups import backup
    from drill.exchange.jsonl import Exported, export_jsonl, import_jsonl, lines_of
    from drill.exchange.spreadsheet import export_csv

_LATER = {
    "Exported": "jsonl",
    "backup": "backups",
    "export_csv": "spreadsheet",
    "export_jsonl": "jsonl",
    "import_jsonl": "jsonl",
    "lines_of": "jsonl",
}

__all__ = ["Exported", "backup", "export_csv", "export_jsonl", "import_jsonl", "lines_of"]


def __getattr__(name: str) -> object:
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
