"""The author's guide in question_bank does what it says, read from the page itself."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from tests.common.desk import drill

GUIDE = (Path(__file__).parents[2] / "question_bank" / "README.md").read_text(encoding="utf-8")


def block(mark: str) -> str:
    """What stands in the fenced block below a comment of the page."""
    found = re.search(rf"<!-- {re.escape(mark)} -->\n```\w+\n(.*?)```", GUIDE, re.DOTALL)
    assert found, mark
    return found[1]


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_the_ten_minute_calculation_runs_as_written() -> None:
    said = []
    for line in block("run: a calculation in ten minutes").splitlines():
        program, *arguments = shlex.split(line)
        assert program == "drill"
        result = drill(*arguments)
        assert result.exit_code == 0, result.output
        said.append(result.output)
    assert said[1].splitlines()[0] == "no problems (1 file checked)"
    assert said[1].splitlines()[1] == "salts/my-solution: 200 different of 200 seeds"
    assert "`no problems (1 file checked)`" in GUIDE
    assert said[2].count("(c)") == 3


def written(text: str, folder: Path) -> str:
    path = folder / "own" / "salts" / "drying.toml"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return path.relative_to(folder).as_posix()


def test_its_example_passes_and_carries_forward(folder: Path) -> None:
    name = written(block("file: own/salts/drying.toml"), folder)
    checked = drill("bank", "check", name)
    assert checked.output.startswith("no problems (1 file checked)\n")
    assert "(c)" in drill("bank", "show", name).output


def test_its_message_is_the_one_that_is_shown(folder: Path) -> None:
    shown = re.search(r"```text\n(own/salts/drying.toml:.*)\n```", GUIDE)
    assert shown
    text = block("file: own/salts/drying.toml").replace('"damp - dry"', '"damp × dry"')
    assert shown[1] in drill("bank", "check", written(text, folder)).output.splitlines()


def test_its_example_is_asked_from_a_deck(folder: Path) -> None:
    written(block("file: own/salts/drying.toml"), folder)
    deck = folder / "my-deck.toml"
    deck.write_text(
        'format = 1\ntitle = "Ours"\ncourse = "separate higher"\n'
        '[[topic]]\nskills = ["calc.percentage-change"]\nwithout = ["salts/*", "measure/*"]\n'
        '[own]\ntemplates = "own"\n',
        encoding="utf-8",
    )
    sat = drill("sit", "my-deck.toml", "--questions", "1", typed=["pass", "pass", "pass"])
    assert "Water lost on drying" in sat.output, sat.output
