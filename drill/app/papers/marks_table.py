"""A CSV file as a spreadsheet saves it, line by line."""

from __future__ import annotations

import csv
from pathlib import Path

from drill.errors import DrillError
from drill.plaintext import one_line

_LARGEST = 1_000_000


def table_in(file: str) -> list[tuple[int, list[str]]]:
    """(line, cells) of a CSV file's rows that hold something; commas, semicolons or tabs.

    Raises:
        DrillError: it cannot be read or holds nothing.
    """
    try:
        data = Path(file).read_bytes()[: _LARGEST + 1]
        text = data.decode("utf-8-sig")
    except OSError as error:
        raise DrillError(f"{one_line(file)}: cannot be read ({error.strerror}).") from None
    except UnicodeDecodeError:
        raise DrillError(
            f"{one_line(file)}: not UTF-8. Save it as CSV in UTF-8 and try again."
        ) from None
    if len(data) > _LARGEST:
        raise DrillError(f"{one_line(file)}: larger than {_LARGEST:,} bytes, so no class list.")
    rows = _rows(text.splitlines())
    if not rows:
        raise DrillError(f"{one_line(file)}: nothing is in it.")
    return rows


def _rows(lines: list[str]) -> list[tuple[int, list[str]]]:
    first = next((line for line in lines if line.strip()), "")
    mark = max(",;\t", key=first.count)
    reader = csv.reader(lines, delimiter=mark)
    try:
        rows = [(reader.line_num, [cell.strip() for cell in cells]) for cells in reader]
    except csv.Error as error:
        raise DrillError(f"line {reader.line_num}: {error}.") from None
    return [(line, cells) for line, cells in rows if any(cells)]
