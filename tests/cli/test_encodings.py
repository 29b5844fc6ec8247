"""Terminals that know fewer characters, and windows of every width."""

from __future__ import annotations

import pytest

from tests.common.desk import drill
from tests.common.ends import ends

AT = ("--at", "2027-01-12T17:00")
SIT = ("sit", "titration", "--learner", "ada", "--seed", "3", "--questions", "6", *AT)
TYPED = ["help", "table", *["zzz", "pass", "more", ""] * 14]


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "utf-8"])
def test_a_sitting_is_readable_in_any_encoding(encoding: str) -> None:
    ended = ends(*SIT, typed=TYPED, encoding=encoding)
    assert ended.is_clean, ended.err
    raised = "³" in ended.out
    assert raised is (encoding == "utf-8")
    assert "cm" in ended.out


@pytest.mark.parametrize("width", [60, 80, 120, 200])
@pytest.mark.parametrize("plain", [(), ("--plain",)])
def test_no_line_is_wider_than_the_window(
    width: int, plain: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(width))
    drill("learner", "new", "ada", *AT)
    for command in (("sit", "salts", "--questions", "5", *AT), ("answers",), ("plan", *AT)):
        said = drill(*command, *plain, typed=TYPED).output
        lines = [line for line in said.splitlines() if " > " not in line]
        assert max(map(len, lines)) <= width, command
        if plain:
            assert not set(said) & set("─│·●")
