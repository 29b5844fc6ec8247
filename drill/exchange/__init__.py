"""Taking data away and bringing it back: statements, spreadsheets, safe copies."""

from __future__ import annotations

from drill.exchange.backups import backup
from drill.exchange.jsonl import export_jsonl, import_jsonl
from drill.exchange.spreadsheet import export_csv

__all__ = ["backup", "export_csv", "export_jsonl", "import_jsonl"]
