"""Data export and import: xAPI statements, spreadsheets, backups."""

from __future__ import annotations

from drill.exchange.backups import backup
from drill.exchange.jsonl import Exported, export_jsonl, import_jsonl, lines_of
from drill.exchange.spreadsheet import export_csv

__all__ = ["Exported", "backup", "export_csv", "export_jsonl", "import_jsonl", "lines_of"]
