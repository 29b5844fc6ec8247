"""The files of papers: question papers, one scheme, and a sheet for the marks."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

from drill.app.papers.paper_sheet import columns
from drill.errors import DrillError
from drill.places import put, reason
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.app.papers.paper_sheet import PaperSheet

OUT_OF = "out of"
"""The row of a marks sheet that holds each part's maximum."""


def marks_sheet(sheets: Sequence[PaperSheet]) -> str:
    """A CSV with a row a pupil and a column a part, ready to be filled in and typed back.

    It begins with a byte-order mark, without which spreadsheets take it for another encoding.
    """
    named = columns(sheets[0].questions)
    total = sum(marks for _, marks in named)
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(["pupil", "paper", *(name for name, _ in named), "total"])
    writer.writerow([OUT_OF, "", *(marks for _, marks in named), total])
    for sheet in sheets:
        writer.writerow([sheet.pupil, sheet.code, *("" for _ in named), ""])
    return "\N{ZERO WIDTH NO-BREAK SPACE}" + out.getvalue()


def save(path: Path, data: bytes) -> None:
    """Write a file, put in its place once it is whole.

    Raises:
        DrillError: it cannot be written.
    """
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        put(path, data)
    except (OSError, ValueError) as error:
        raise DrillError(f"{one_line(str(path))}: cannot be written ({reason(error)}).") from error
