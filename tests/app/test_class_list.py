"""A class list: read strictly, since marks are told by it."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.app.classes.class_collect import collect
from drill.app.classes.class_list import read_list
from drill.app.classes.class_room import class_named
from drill.errors import DrillError
from tests.app.test_class import FIVE, handed


def listed(folder: Path, text: str) -> Path:
    path = folder / "list.csv"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("k01,Amy\nK02,Ben\n", {"k01": "Amy", "k02": "Ben"}),
        ("code;name\nk01;Amy\n", {"k01": "Amy"}),
        ("name,code\nAmy,k01\n", {"k01": "Amy"}),
        ("surname,forename,code\nSmith,Amy,k01\n", {"k01": "Amy Smith"}),
        ('k01,"Smith, Amy"\n\nk02\n', {"k01": "Smith, Amy", "k02": ""}),
    ],
)
def test_codes_and_names_are_read_by_place_or_head(
    tmp_path: Path, text: str, found: dict[str, str]
) -> None:
    assert read_list(listed(tmp_path, text)) == found


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("Amy,k01\nBen,k02\n", 'line 1: "k01" looks like the code: are the columns swapped?'),
        ("Amy Smith,k01\n", 'line 1: "Amy Smith" is no code'),
        ("k01,Amy\nk02,Ben\nK01,Cal\n", 'line 3: "K01" is in line 1 already.'),
        ("k01,Amy,Smith\n", "line 1: more columns than code and name."),
        (",Amy\n", 'line 1: "Amy" has no code.'),
        ("code,name,form\nk01,Amy,7b\n", 'the column "form" has no place there'),
        ("name,surname\nAmy,Smith\n", "no column is called code"),
        ("code,name\n", "nobody is in it."),
        ("pupil,paper,1,2\nk01,ABC,1,0\n", 'the column "paper" has no place there'),
    ],
)
def test_whatever_is_in_doubt_is_told_with_its_line(tmp_path: Path, text: str, says: str) -> None:
    with pytest.raises(DrillError) as raised:
        read_list(listed(tmp_path, text))
    assert says in str(raised.value)


def test_codes_of_letters_alone_that_are_swapped_show_when_work_comes(tmp_path: Path) -> None:
    swapped = listed(tmp_path, "Amy,k1\n".replace("k1", "kim") + "Ben,lou\n")
    files = [FIVE[0].__class__(**{**vars(FIVE[0]), "code": "kim"})]
    with pytest.raises(DrillError, match="Are the columns swapped"):
        collect(handed(tmp_path / "c", files), "", str(swapped))
    assert class_named("").names() == {}
