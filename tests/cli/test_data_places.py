"""Places that cannot be used, and what nobody else may read."""

from __future__ import annotations

import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from random import Random

import pytest

from tests.common.attacks import (
    AT,
    START,
    practised,
)
from tests.common.data_home import learner, opened
from tests.common.ends import ends
from tests.common.kills import Trial


@pytest.mark.parametrize("what", ["file", "dangling", "loop", "below a file"])
def test_a_data_folder_that_cannot_be_used_is_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    place = tmp_path / "place"
    if what == "file":
        place.write_text("")
    elif what == "dangling":
        place.symlink_to(tmp_path / "nowhere" / "x" / "y")
    elif what == "loop":
        place.symlink_to(place)
    else:
        place.write_text("")
        place = place / "below"
    monkeypatch.setenv("DRILL_HOME", str(place))
    for command in (("sit", "--learner", "K7"), ("plan",), ("data", "verify")):
        end = ends(*command)
        assert (end.code, len(end.lines)) == (1, 1), end
    if what == "file":  # a bank needs no data folder; without one every question is read
        assert ends("bank", "show", "salts/percentage-yield").code == 0


def test_without_a_home_folder_it_is_one_line(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DRILL_HOME", "HOME", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    with monkeypatch.context() as patch:
        patch.setattr(Path, "home", lambda: (_ for _ in ()).throw(RuntimeError("no home")))
        end = ends("data", "verify")
        assert (end.code, len(end.lines)) == (1, 1)
    monkeypatch.setenv("HOME", "")
    end = ends("sit", "--learner", "K7")
    assert (end.code, len(end.lines)) == (1, 1)


@pytest.mark.parametrize("out", ["nowhere/x.jsonl", ".", "drill.db/x"])
def test_an_export_to_nowhere_is_one_line(filled: Path, out: str) -> None:
    end = ends("data", "export", "--learner", "K7", "--out", str(filled / out))
    assert (end.code, len(end.lines)) == (1, 1)


def test_reading_commands_read_where_nothing_can_be_written(
    filled: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from drill.store import file as store_file
    from drill.store.database import CannotWrite, Database

    def refused(path: Path, watched: bool = True) -> Database:
        raise CannotWrite(f"{path}: it may not be written to.")

    monkeypatch.setattr(store_file, "open_database", refused)
    before = (filled / "drill.db").read_bytes()
    for command in (("plan",), ("weak",), ("data", "verify"), ("data", "export"),
                    ("learner", "list"), ("appeals", "--json")):  # fmt: skip
        assert ends(*command).code == 0, command
    assert ends("sit", "--learner", "K7", typed=["stop"]).code == 1
    assert (filled / "drill.db").read_bytes() == before


@contextmanager
def no_room() -> Iterator[None]:
    """No file can grow: in place of a full disk, which the bench mounts."""
    import resource

    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (4096, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@pytest.mark.skipif(sys.platform == "win32", reason="limits of its own")
def test_without_room_reading_commands_read_and_nothing_is_lost(filled: Path) -> None:
    with no_room():
        for reading in (("learner", "list"), ("data", "verify"), ("data", "export")):
            assert ends(*reading).code == 0, reading
        for writing in ("learner new Z1", "data erase K7 --yes", "sit --learner K7", "data backup"):
            end = ends(*writing.split())
            assert (end.code, len(end.lines)) == (1, 1), end
    assert ends("data", "verify").code == 0
    with opened(filled) as store:
        assert [one.code for one in store.learners()] == ["K7", "Q9"]


@pytest.mark.parametrize(
    "arguments",
    [
        "sit --minutes inf", "sit --minutes nan", "sit --questions 99999999999999999999",
        "sit --at 9999-12-31T23:59", "sit --at 0001-01-01", "plan --minutes nan",
        "plan --exam 9999-12-31", "plan --at nonsense", "appeals --by nobody",
        f"sit --seed {'9' * 60}", "data erase",
    ],
)  # fmt: skip
def test_a_wrong_value_is_told_and_exits_2(filled: Path, arguments: str) -> None:
    end = ends(*arguments.split(), typed=["stop"])
    assert end.code == 2, end
    assert "Traceback" not in end.err


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_what_is_stored_can_be_read_by_its_owner_only(filled: Path) -> None:
    filled.chmod(0o755)
    (filled / "drill.db").chmod(0o644)
    out = filled.parent / "mine.jsonl"
    assert ends("data", "export", "--learner", "K7", "--out", str(out)).code == 0
    assert ends("data", "backup").code == 0
    assert ends("data", "verify").code == 0
    (copy,) = (filled / "backups").iterdir()
    assert [mode(one) for one in (filled / "drill.db", out, copy)] == [0o600] * 3
    assert [mode(one) for one in (filled, filled / "backups")] == [0o700] * 2


def test_a_folder_that_holds_more_than_ours_keeps_its_mode(filled: Path) -> None:
    filled.chmod(0o755)
    (filled / "holiday.txt").write_text("x")
    (filled / "drill.db").chmod(0o644)
    for times in (1, 0):  # told by the first sitting, and by no other
        end = ends("sit", "--learner", "K7", typed=["stop"])
        assert end.out.replace("\n", " ").count("Others may look into") == times
        assert mode(filled) == 0o755
        assert mode(filled / "drill.db") == 0o600
    assert "Others may look into" in ends("data", "verify").out


def test_nothing_from_outside_is_obeyed_by_the_terminal(filled: Path) -> None:
    with opened(filled) as store:
        asking = store.askings(learner(store))[0]
        store.answer(asking.id, "a", "\x1b[2J\x1b]0;x\x07", "fix", None, 1.0, START)
    end = ends("data", "export", "--learner", "K7", "--format", "csv")
    assert "\x1b" not in end.out
    name = filled / "a\x1b[2Jb.jsonl"
    name.write_text("x\n")
    spoilt = filled / "c\x1b[2Jd.toml"
    spoilt.write_text("x\n")
    for command in (("data", "import", str(name)), ("bank", "check", str(spoilt)), ("deck", "list"),
                    ("deck", "check", str(spoilt)), ("data", "restore", str(name))):  # fmt: skip
        end = ends(*command)
        assert "\x1b" not in end.out + end.err, command


@pytest.mark.parametrize("encoding", ["cp1252"])
def test_every_screen_can_be_written_in_a_small_encoding(filled: Path, encoding: str) -> None:
    for command in (("plan", "--learner", "K7"), ("weak", "K7"), ("data", "export"),
                    ("bank", "show", "salts/percentage-yield")):  # fmt: skip
        assert ends(*command, encoding=encoding).code == 0, command
    end = ends("sit", "--learner", "K7", typed=["12.5 g", "", "stop"], encoding=encoding)
    assert end.code in (0, 130)


def test_a_narrow_or_absent_terminal_is_no_fault(
    filled: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "0")
    monkeypatch.setenv("TERM", "dumb")
    end = ends("plan", "--learner", "K7")
    assert (end.code, "Five" in end.out) == (0, True)
    assert ends("sit", typed=[]).code == 1  # two learners, and nobody to say which


@pytest.mark.skipif(sys.platform == "win32", reason="a terminal of its own")
def test_killed_sittings_lose_and_double_nothing(home: Path) -> None:
    trial = Trial(home, Random(5))
    for _ in range(2):
        assert trial.sitting_killed() == []
    assert trial.acknowledged


def test_a_closed_screen_ends_quietly(filled: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "drill", "learner", "list"], stdout=subprocess.DEVNULL,
        stdin=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False, close_fds=True,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_line_without_end_is_kept_as_far_as_it_can_travel(filled: Path) -> None:
    end = ends("sit", "--learner", "K7", "--at", AT, typed=["x" * 300_000, "stop"])
    assert end.is_clean
    with opened(filled) as store:
        longest = max(len(one.text) for row in store.askings(learner(store)) for one in row.answers)
    assert longest == 100_000
    code, told, _ = ends("data", "export", "--learner", "K7", "--format", "xapi")
    (filled / "mine.jsonl").write_text(told)
    assert (code, ends("data", "import", str(filled / "mine.jsonl")).code) == (0, 0)


def test_practised_leaves_no_lock_behind(filled: Path) -> None:
    with opened(filled) as store:
        practised(store, "N1", 1, START + timedelta(days=2))
        assert list(filled.glob("drill-open-*"))
    assert not list(filled.glob("drill-open-*"))
