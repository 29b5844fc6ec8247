"""The drawings of the bank: files of SVG in one folder, named without their ending."""

from __future__ import annotations

import re
from pathlib import Path

from drill.drawings.shapes import Picture
from drill.drawings.svg import MOST_BYTES, read_svg
from drill.errors import DrillError, Problem

_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)


def load_picture(name: str, folder: Path) -> Picture:
    """The drawing of a folder, by its file's name or by what it shows: "Filter funnel".

    Raises:
        DrillError: it is no name, there is no such file, or it is no drawing of ours.
    """
    file_name = name.strip().lower().replace(" ", "-")
    if not _NAME.fullmatch(file_name):
        raise DrillError("a picture's name is letters and digits, with - between words")
    path = folder / f"{file_name}.svg"
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError:
        raise DrillError(f'there is no drawing "{file_name}"') from None
    picture = read_svg(data, str(path))
    if isinstance(picture, Problem):
        raise DrillError(str(picture))
    return picture
