"""The drawings of the bank: files of SVG in one folder, named without their ending."""

from __future__ import annotations

import re
from pathlib import Path

from drill.drawings.shapes import Picture
from drill.drawings.svg import MOST_BYTES, read_svg
from drill.errors import DrillError, Problem
from drill.model import Question
from drill.places import bank_dir

_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)


def picture_of(question: Question) -> Picture:
    """The drawing of a question that has one: its school's own, or else the bank's.

    Raises:
        DrillError: there is no such file, or it is no drawing of ours.
    """
    own = (Path(question.folder, "drawings"),) if question.folder else ()
    return load_picture(question.picture, *own, bank_dir() / "drawings")


def load_picture(name: str, *folders: Path) -> Picture:
    """The drawing of the first folder that has it, by its file's name or by what it shows:
    "Filter funnel".

    Raises:
        DrillError: it is no name, there is no such file, or it is no drawing of ours.
    """
    file_name = name.strip().lower().replace(" ", "-")
    if not _NAME.fullmatch(file_name):
        raise DrillError("a picture's name is letters and digits, with - between words")
    paths = [folder / f"{file_name}.svg" for folder in folders]
    path = next((one for one in paths if one.is_file()), paths[-1])
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError:
        raise DrillError(f'there is no drawing "{file_name}"') from None
    picture = read_svg(data, str(path))
    if isinstance(picture, Problem):
        raise DrillError(str(picture))
    return picture
