"""passed.csv: which version of each question has passed `drill bank check`."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from pathlib import Path

from drill.bank.files.author_files import read_text, write_atomically

NAME = "passed.csv"
HEADER = ["template", "version"]


def read_passed(folder: Path) -> dict[str, str]:
    """`{template id: version}`; empty if there is no file. Malformed lines are skipped."""
    text = read_text(folder / NAME)
    if not isinstance(text, str):
        return {}
    rows = csv.reader(io.StringIO(text))
    try:
        return {row[0]: row[1] for row in rows if len(row) == 2 and row != HEADER}
    except csv.Error:
        return {}


def write_passed(folder: Path, passed: Mapping[str, str]) -> None:
    """Write the list in order of template.

    Raises:
        OSError: the bank's folder cannot be written to.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADER)
    writer.writerows(sorted(passed.items()))
    write_atomically(folder / NAME, out.getvalue())
