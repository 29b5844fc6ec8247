"""`drill data` under attack: what is stored survives, and every end is a sentence."""

from __future__ import annotations

import json
import os
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from drill.app.context import deck_of, open_bank
from drill.planning import lessons
from drill.sitting import Goal, Sitting, history
from drill.sitting.skill_plans import skill_plans
from drill.store import Learner, Store
from tests.common.attacks import (
    AT,
    START,
    attack_by_flip,
    attack_by_store,
    damaged_stores,
    fresh,
    practised,
    small_deck,
    two_learners,
)
from tests.common.crafted import attack_by_import, crafted, records_of
from tests.common.ends import ends
from tests.common.kills import Trial
from tests.store.making import in_haste


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with two learners, made once."""
    folder = tmp_path_factory.mktemp("base") / "home"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("DRILL_HOME", str(folder))
        two_learners(folder)
    return folder


@pytest.fixture
def filled(base: Path, home: Path) -> Path:
    fresh(base, home)
    return home


def opened(home: Path) -> Store:
    return in_haste(Store.open(home / "drill.db"))


def learner(store: Store, code: str = "K7") -> Learner:
    return next(one for one in store.learners() if one.code == code)


def is_true(store: Store, who: Learner) -> bool:
    """Whether the memory a command would use is the one rebuilt from what is stored."""
    deck = deck_of(store, who, small_deck(store.path.parent))
    zone = START.tzinfo
    assert zone is not None
    taught = lessons(skill_plans(deck, open_bank(deck).entries(), zone))
    used = history.remembered(store, who, taught).to_state()
    return used == history.rebuilt(store, who, taught).to_state()


def sit_down(store: Store, who: Learner, now: datetime) -> Sitting:
    deck = deck_of(store, who, small_deck(store.path.parent))
    return Sitting(store, open_bank(deck), deck, who, now, Goal(30, None))


def answer(sitting: Sitting, now: datetime) -> str:
    """Answer the next question; returns its template and seed."""
    asked = sitting.next(now, extra=True)
    assert asked is not None
    for part in () if asked.shown else asked.waiting():
        sitting.answer(asked, part, part.model_answer, 20.0, now, again=True)
    sitting.finish(asked, now)
    return f"{asked.question.template} {asked.question.seed}"


# ---------------------------------------------------------------- what is remembered


def test_two_windows_at_once_ask_nothing_twice_and_remember_all(home: Path) -> None:
    home.mkdir()
    with opened(home) as one, opened(home) as other:
        who = one.new_learner("K7", START)
        first, now = sit_down(one, who, START), START
        asked = [answer(first, now := now + timedelta(minutes=1)) for _ in range(2)]
        second = sit_down(other, who, now)
        assert (second.elsewhere, second.resumed, second.id != first.id) == (True, False, True)
        for _ in range(3):
            asked.append(answer(second, now := now + timedelta(minutes=1)))
            asked.append(answer(first, now := now + timedelta(minutes=1)))
            assert is_true(one, who)
        assert len(set(asked)) == len(asked)
        second.end(now)
        first.end(now)
        first.end(now)
        ends_kept = one._db.rows("SELECT count(*) FROM sitting_end")
        assert ends_kept == [(2,)]
        assert is_true(other, who)


def test_memory_is_true_after_a_settlement_an_import_and_a_clock_set_back(filled: Path) -> None:
    with opened(filled) as store:
        who = learner(store)
        sitting = sit_down(store, who, START + timedelta(days=1))
        answer(sitting, START + timedelta(days=1))
        row = store.askings(who)[0].answers[0]
        assert row.mark is not None
        store.verdict(row.id, "teacher", "by hand, teacher", row.mark, START)
        assert is_true(store, who)
        answer(sitting, START - timedelta(days=3))
        assert is_true(store, who)
        store.merge([], START)
        answer(sitting, START + timedelta(days=2))
        assert is_true(store, who)


def test_the_last_thing_set_wins_with_a_clock_set_back(filled: Path) -> None:
    for at, minutes in (("2027-03-01T17:00", "25"), ("2026-03-01T17:00", "35")):
        assert ends("plan", "--minutes", minutes, "--learner", "K7", "--at", at).code == 0
    with opened(filled) as store:
        assert store.setting(learner(store), "minutes") == "35"
    for at, code in (("2027-03-01T17:00", "A1"), ("2026-03-01T17:00", "A2")):
        before = "K7" if code == "A1" else "A1"
        assert ends("learner", "rename", before, code, "--at", at).code == 0
    assert "A2" in ends("learner", "list").out


# ---------------------------------------------------------------- between machines


def carried(source: Path, target: Path, code: str, *more: str) -> str:
    """Export here, import there; what the import said."""
    os.environ["DRILL_HOME"] = str(source)
    file = source / f"{code}.jsonl"
    assert ends("data", "export", "--learner", code, "--out", str(file)).code == 0
    os.environ["DRILL_HOME"] = str(target)
    end = ends("data", "import", str(file), *more)
    assert end.code == 0, end
    return end.out


def marks(home: Path) -> dict[bytes, int]:
    with opened(home) as store:
        return {
            one.id: one.mark.marks
            for who in store.learners()
            for row in store.askings(who)
            for one in row.answers
            if one.mark
        }


def settled(home: Path, given: int, at: datetime) -> bytes:
    """A teacher's mark for the first marked answer of K7."""
    with opened(home) as store:
        row = next(r for a in store.askings(learner(store)) for r in a.answers if r.mark)
        assert row.mark is not None
        points = (
            tuple(point.__class__(point.id, given, point.of) for point in row.mark.points[:1])
            + row.mark.points[1:]
        )
        mark = row.mark.__class__(given, row.mark.of, points, "by hand")
        store.verdict(row.id, "teacher", "by hand, teacher", mark, at)
        return row.id


def test_a_teachers_mark_from_elsewhere_counts_once_it_is_accepted(
    filled: Path, tmp_path: Path
) -> None:
    there, again = tmp_path / "there", tmp_path / "again"
    carried(filled, there, "K7")
    id = settled(there, 0, START + timedelta(days=3))
    before = marks(filled)[id]
    said = carried(there, filled, "K7")
    assert "drill appeals accept" in said
    assert marks(filled)[id] == before
    assert json.loads(ends("appeals", "accept", "--json").out)[0]["given"] == 0
    assert ends("appeals", "accept", "--yes").code == 0
    assert marks(filled)[id] == 0
    # on a machine that is joined, what was accepted counts as well; on any other it does not
    os.environ["DRILL_HOME"] = str(again)
    assert ends("learner", "new", "me").code == 0
    carried(filled, again, "K7", "--into", "me")
    assert marks(again)[id] == 0
    os.environ["DRILL_HOME"] = str(again)
    assert ends("data", "take-back").code == 0
    carried(filled, again, "K7")
    assert marks(again)[id] == before


def test_two_machines_agree_on_every_mark_whatever_came_first(filled: Path, tmp_path: Path) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    for place in (one, two):
        carried(filled, place, "K7")
    at = START + timedelta(days=3)
    settled(one, 0, at)
    settled(two, 1, at)
    carried(one, two, "K7")
    carried(two, one, "K7")
    for place in (one, two):
        os.environ["DRILL_HOME"] = str(place)
        ends("appeals", "accept", "--yes")
    assert marks(one) == marks(two)


def test_a_code_that_is_taken_is_told_and_its_owner_keeps_it(filled: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    os.environ["DRILL_HOME"] = str(there)
    assert ends("learner", "new", "K7").code == 0
    assert "Another K7 is here; this one is K7-2 here." in carried(filled, there, "K7")
    back = carried(there, filled, "K7-2")
    assert "K7-2 is now" not in back
    os.environ["DRILL_HOME"] = str(filled)
    assert "K7-2" not in ends("learner", "list").out


def test_an_import_is_taken_back_whole(filled: Path, tmp_path: Path) -> None:
    there = tmp_path / "there"
    os.environ["DRILL_HOME"] = str(there)
    assert ends("learner", "new", "Z1").code == 0
    with opened(there) as store:
        before = store.counts()
    carried(filled, there, "K7")
    assert "K7.jsonl" in ends("data", "imports").out
    assert "K7 is gone with it." in ends("data", "take-back").out
    with opened(there) as store:
        after = store.counts()
        assert store.verify() == []
    kept = {"machine", "word", "deck"}
    assert {k: v for k, v in after.items() if k not in kept} == {
        k: v for k, v in before.items() if k not in kept
    }
    assert ends("data", "take-back").code == 1


@pytest.mark.parametrize("name", ["two_owners", "unnamed", "texts"])
def test_a_crafted_file_changes_nobody_elses_rows(filled: Path, name: str) -> None:
    lines = crafted(name, records_of(filled, "K7"), records_of(filled, "Q9"), Random(1000))
    assert attack_by_import(filled, lines, "Q9") == []


def test_a_million_lines_of_junk_are_few_lines_of_complaint(filled: Path) -> None:
    junk = filled / "junk.jsonl"
    junk.write_bytes(b"x\n" * 100_000 + b"y" * 9_000_000)
    end = ends("data", "import", str(junk))
    assert end.code == 1
    assert len(end.lines) <= 23


# ---------------------------------------------------------------- backup, restore, damage


def test_a_copy_is_restored_beside_a_leftover_log(filled: Path) -> None:
    assert ends("data", "backup", "--at", "2027-03-01T17:00").code == 0
    (copy,) = (filled / "backups").iterdir()
    with opened(filled) as store:
        sitting = sit_down(store, learner(store), START + timedelta(days=1))
        answer(sitting, START + timedelta(days=1))
        assert ends("data", "restore", str(copy)).code == 1  # it is open in another window
        left = {path.name: path.read_bytes() for path in filled.glob("drill.db*")}
    for name, content in left.items():  # as after a crash: the log stays behind
        (filled / name).write_bytes(content)
    end = ends("data", "restore", str(copy), "--at", "2027-03-02T17:00")
    assert end.code == 0, end
    assert "K7: " in end.out
    assert ends("data", "verify").code == 0
    (kept,) = (filled / "backups").glob("drill-before-restore-*.sqlite")
    with Store.open(kept) as old, opened(filled) as new:
        assert len(old.askings(learner(old))) > len(new.askings(learner(new)))


@pytest.mark.parametrize("spoil", ["cut", "newer", "noise"])
def test_a_copy_that_cannot_be_used_changes_nothing(filled: Path, spoil: str) -> None:
    copy = filled / "copy.sqlite"
    sound = (filled / "drill.db").read_bytes()
    flaws = {
        "cut": sound[:9000],
        "newer": sound[:60] + b"\0\0\0\x63" + sound[64:],
        "noise": b"Dear reader, " * 900,
    }
    copy.write_bytes(flaws[spoil])
    end = ends("data", "restore", str(copy))
    assert end.code == 1
    assert len(end.lines) == 1
    assert (filled / "drill.db").read_bytes() == sound
    assert not list(filled.glob("drill.db-restoring*"))


@pytest.mark.parametrize("size", [0, 1])
def test_an_emptied_store_is_told_and_not_begun_afresh(filled: Path, size: int) -> None:
    (filled / "drill.db").write_bytes(b"x" * size)
    for command in (("data", "verify"), ("sit", "--learner", "K7")):
        end = ends(*command, typed=["stop"])
        assert end.code == 1
        assert "is empty, though" in end.err


def test_a_lost_log_is_noticed(filled: Path) -> None:
    with opened(filled) as store:
        answer(sit_down(store, learner(store), START + timedelta(days=1)), START)
        before = (filled / "drill.db").read_bytes()
        for log in filled.glob("drill.db-*"):
            log.unlink()
        copy = filled.parent / "cut.db"
        copy.write_bytes(before)
    (filled / "drill.db").write_bytes(copy.read_bytes())
    end = ends("data", "verify")
    assert end.code == 1
    assert "rows were missing that had been stored" in end.out
    assert ends("data", "accept-loss", "--by", "K7").code == 2
    assert ends("data", "accept-loss", "--by", "tutor", "--at", "2027-03-03").code == 0
    end = ends("data", "verify")
    assert (end.code, end.out.count("the tutor accepted that on 2027-03-03")) == (0, 1)
    assert ends("data", "accept-loss", "--by", "tutor").code == 1


def test_damage_is_never_exported_as_whole(filled: Path) -> None:
    raw, wanted = (filled / "drill.db").read_bytes(), b"12.5 g"
    assert wanted in raw
    (filled / "drill.db").write_bytes(raw.replace(wanted, b"12.6 g", 1))
    end = ends("data", "export", "--learner", "K7")
    other = ends("data", "export", "--learner", "Q9")
    assert {end.code, other.code} == {0, 1}
    assert "damaged row" in end.err + other.err
    assert "12.6 g" not in end.out + other.out


@pytest.mark.parametrize("seed", range(1))
def test_a_flipped_bit_is_noticed_and_ends_in_no_fault(filled: Path, seed: int) -> None:
    chance = Random(seed)
    size = (filled / "drill.db").stat().st_size
    assert attack_by_flip(filled, chance.randrange(size), chance.randrange(8)) == []


def test_damaged_and_foreign_stores_are_sentences(base: Path, home: Path) -> None:
    sound = (base / "drill.db").read_bytes()
    for what, put in Random(4).sample(damaged_stores(sound, Random(3)), 2):
        fresh(base, home)
        filled = home
        assert (what, attack_by_store(filled, put)) == (what, [])


# ---------------------------------------------------------------- erased


def test_an_erasure_with_a_reader_says_what_is_left(filled: Path) -> None:
    with opened(filled) as other:
        other._db.connection.execute("BEGIN")
        other._db.rows("SELECT * FROM answer")
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("drill.store.database._PATIENCE", 0.1)
            end = ends("data", "erase", "K7", "--yes")
        assert end.code == 1
        assert "Everything of K7 is gone" in end.out
        assert "still holds what was deleted" in end.out
    assert "Nothing is left" in ends("data", "erase", "--leftovers").out


def test_an_erasure_names_the_copies(filled: Path) -> None:
    assert ends("data", "backup", str(filled.parent / "stick")).code == 0
    end = ends("data", "erase", "K7", "--yes")
    assert end.code == 0
    assert "A copy still holds it: " in end.out


# ---------------------------------------------------------------- places that cannot be used


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


# ---------------------------------------------------------------- private, and harmless


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
