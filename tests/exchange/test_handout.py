"""Handouts: what goes in comes out; a hundred hostile ones harm nothing."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from drill.exchange.handout import Refused, Settled, packed, settled_of, unpacked
from tests.common.desk import drill
from tests.common.hostile_files import hostile_handouts, zipped

DECK = 'format = 1\nid = "ours"\ntitle = "Ours"\ncourse = "combined higher"\n'
DECK += '[[topic]]\npractical = "salts"\n'
FILES = {"deck.toml": DECK, "own/salts/mine.toml": "format = 1\n", "own/lexicon.toml": "# words\n"}


def test_what_goes_in_comes_out() -> None:
    settled = (Settled("ab" * 16, {"value": 1}),)
    found = unpacked(packed(FILES, settled))
    assert settled_of(found.pop("settled.jsonl")) == settled
    assert found == FILES
    assert packed(FILES, ()) == packed(dict(reversed(FILES.items())), ())


def test_lines_that_are_no_settled_mark_are_passed_over() -> None:
    lines = ["x", "[]", '{"answer": "zz", "points": {}}', '{"answer": "ab", "points": {"a": 1}}',
             f'{{"answer": "{"ab" * 16}", "points": {{"a": -1}}}}',
             f'{{"answer": "{"ab" * 16}", "points": {{"a": true}}}}', "[" * 5000]  # fmt: skip
    assert settled_of("\n".join(lines)) == ()


@pytest.mark.parametrize("name", ["../x.toml", "samples.answers.jsonl", "own/salts/q.py"])
def test_what_would_not_be_opened_is_not_written_either(name: str) -> None:
    with pytest.raises(Refused):
        packed({**FILES, name: "x"}, ())


def _spoilt() -> list[bytes]:
    data = packed(FILES, ())
    return list(hostile_handouts({"handout.json": '{"drill": "handout", "format": 1}', **FILES},
                                 data, 100))  # fmt: skip


def _opened(data: bytes) -> dict[str, str] | str:
    """The files, or why it is refused."""
    try:
        return unpacked(data)
    except Refused as error:
        return str(error)


def test_a_hundred_hostile_handouts_are_refused_in_one_line() -> None:
    began, opened = time.monotonic(), 0
    for data in _spoilt():
        found = _opened(data)
        if isinstance(found, str):
            assert len(found.splitlines()) == 1
        else:  # a changed byte may stand where nothing looks; the text must be the same then
            opened += 1
            assert {name: found[name] for name in FILES} == FILES
    assert opened < 20
    assert time.monotonic() - began < 20


def test_a_hostile_handout_writes_nothing_and_says_why(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    home = tmp_path / "home"
    monkeypatch.setenv("DRILL_HOME", str(home))
    drill("learner", "new", "k7")
    before = sorted(path for path in tmp_path.rglob("*") if "bank-index" not in path.name)
    for number, data in enumerate(_spoilt()[:36]):
        if isinstance(_opened(data), str):
            file = tmp_path / f"h{number}.handout"
            file.write_bytes(data)
            result = drill("sit", str(file), typed=["stop"])
            file.unlink()
            assert result.exit_code == 1, number
            assert "Traceback" not in result.output
            assert len(str(result.exception).splitlines()) == 1
    after = sorted(path for path in tmp_path.rglob("*") if "bank-index" not in path.name)
    assert after == before


def test_a_zip_of_something_else_is_none(tmp_path: Path) -> None:
    file = tmp_path / "x.zip"
    file.write_bytes(zipped({"a.txt": b"hello"}))
    result = drill("deck", "check", str(file))
    assert result.exit_code == 1
    assert "it holds a file that has no place in a handout." in str(result.exception)
