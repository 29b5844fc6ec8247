"""What somebody who has never programmed gets wrong in the starter, and what they are told.

Each mistake is made in the calculation starter as it stands; the message names the line and what
to do. Lines are counted from the change, so that the starter may grow.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from drill.bank import new_template
from drill.checking import check
from drill.places import bank_dir

STARTER = new_template("calculation")


def told(text: str | bytes, folder: Path) -> list[str]:
    """What `drill bank check` says of a file of this text, its place taken off."""
    path = folder / "salts" / "mine.toml"
    path.parent.mkdir()
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    report = check([path], bank_dir(), seeds=3, jobs=1)
    return [str(problem).removeprefix(f"{path}:") for problem in report.problems]


def line_of(piece: str) -> int:
    """The line of the starter where a piece of it begins."""
    assert piece in STARTER, piece
    return STARTER[: STARTER.index(piece)].count("\n") + 1


MISTAKES = tomllib.loads(Path(__file__).with_name("mistakes.toml").read_text("utf-8"))["mistake"]


@pytest.mark.parametrize("case", MISTAKES, ids=lambda case: case["new"][:30])
def test_a_mistake_is_told_by_its_line(case: dict[str, Any], tmp_path: Path) -> None:
    said = told(STARTER.replace(case["old"], case["new"], 1), tmp_path)
    wanted = f"{line_of(case['old']) + case.get('below', 0)}: {case['says']}"
    if wanted.endswith("…"):
        said = [one[: len(wanted) - 1] + "…" for one in said]
    assert wanted in said
    assert len(said) <= 2


def test_there_are_enough_mistakes() -> None:
    assert len(MISTAKES) >= 25


def test_a_forgotten_part_is_told_once(tmp_path: Path) -> None:
    first, _, rest = STARTER.partition("[[part]]\n")
    second, _, third = rest.partition("[[part]]\n")
    said = told(f"{first}[[part]]\n{second}{third}", tmp_path)
    assert "a new part begins here. Write [[part]] above it." in said[0]


def test_single_brackets_are_told(tmp_path: Path) -> None:
    (said,) = told(STARTER.replace("[[part]]", "[part]"), tmp_path)
    assert said.endswith("Write [[part]], with two brackets, for every part.")


def test_a_missing_first_part_is_told(tmp_path: Path) -> None:
    (said,) = told(STARTER.replace("[[part]]\n", "", 1), tmp_path)
    assert said.endswith("every part begins with [[part]].")


@pytest.mark.parametrize(
    "harmless",
    [
        STARTER.replace("\n", "\r\n"),
        "\ufeff" + STARTER,
        STARTER.replace("\nboat", "\n\tboat").replace(" = { ", "\t=\t{ "),
        STARTER.replace('unit = "cm3"', 'unit = "cm³"'),
        STARTER.replace('"What else is on the balance?"', "'What else is \"on\" it, # too?'"),
        STARTER.replace('unit = "g/dm3"', 'unit = "g per dm3"'),
    ],
    ids=["Windows line ends", "byte-order mark", "tabs", "cm³", "quotes and #", "per"],
)
def test_what_does_no_harm_is_let_be(harmless: str, tmp_path: Path) -> None:
    assert told(harmless, tmp_path) == []


def test_utf_16_is_told(tmp_path: Path) -> None:
    (said,) = told(STARTER.encode("utf-16"), tmp_path)
    assert said.startswith('1: the file is UTF-16 text. Save it as "UTF-8".')
