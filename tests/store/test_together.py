"""Several programs at once, and programs that die: nothing stored is ever lost or half there."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from drill.store import AnswerRow, Learner, Store
from drill.store.database import Database
from tests.store.making import NOW, asked, later, mark, opened, typed

EACH = 200

WRITER = """
    import sys
    from pathlib import Path
    from drill.store import Store
    from tests.store.making import NOW, mark
    with Store.open(Path(sys.argv[1])) as store:
        for number in range(int(sys.argv[3])):
            answer = store.answer(
                bytes.fromhex(sys.argv[2]), "a", f"{sys.argv[4]} {number}", "answer", None, 1, NOW
            )
            store.verdict(answer, "engine", "3", mark(1), NOW)
"""


def program(source: str, *arguments: object) -> subprocess.Popen[str]:
    """A Python program of its own, started."""
    command = [sys.executable, "-c", textwrap.dedent(source), *map(str, arguments)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)


def ended(process: subprocess.Popen[str]) -> str:
    out, error = process.communicate(timeout=120)
    assert (process.returncode, error) == (0, "")
    return out


def unmarked(store: Store, who: Learner) -> tuple[AnswerRow, ...]:
    """Answers and passes that nothing has judged."""
    return tuple(
        answer
        for row in store.askings(who)
        for answer in row.answers
        if answer.kind in ("answer", "pass") and answer.verdict is None
    )


def test_two_programs_write_at_once_and_everything_is_there(store: Store) -> None:
    asking = asked(store)
    writers = [program(WRITER, store.path, asking.hex(), EACH, name) for name in ("x", "y")]
    for writer in writers:
        ended(writer)
    answers = store.asking(asking).answers
    expected = [f"{name} {number}" for name in "xy" for number in range(EACH)]
    assert sorted(answer.text for answer in answers) == sorted(expected)
    assert all(answer.mark == mark(1) for answer in answers)
    assert store.verify() == []


def test_rows_added_while_a_store_is_opened_are_no_loss(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    asking, count = asked(store), Database.total
    added = []

    def another_writes_meanwhile(database: Database) -> int:
        found = count(database)
        if not added:
            added.append(True)
            store.answer(asking, "a", "meanwhile", "answer", None, 1, NOW)
        return found

    monkeypatch.setattr(Database, "total", another_writes_meanwhile)
    with Store.open(store.path) as other:
        assert other.verify() == []


def test_threads_with_stores_of_their_own_write_at_once(store: Store) -> None:
    asking = asked(store)

    def write(name: str) -> list[bytes]:
        with Store.open(store.path) as own:
            return [typed(own, asking, f"{name} {number}") for number in range(EACH)]

    with ThreadPoolExecutor(4) as threads:
        ids = [id for made in threads.map(write, "pqrs") for id in made]
    assert len(set(ids)) == 4 * EACH
    assert {answer.id for answer in store.asking(asking).answers} == set(ids)


def test_programs_that_make_the_store_at_once_find_one_store(tmp_path: Path) -> None:
    source = """
        import sys
        from pathlib import Path
        from drill.store import Store
        from tests.store.making import NOW
        with Store.open(Path(sys.argv[1])) as store:
            store.new_learner(sys.argv[2], NOW)
    """
    path = tmp_path / "drill.sqlite"
    for process in [program(source, path, f"L{number}") for number in range(4)]:
        ended(process)
    with Store.open(path) as store:
        assert sorted(who.code for who in store.learners()) == ["L0", "L1", "L2", "L3"]
        assert store.verify() == []


def test_one_code_is_given_once_when_two_programs_want_it(store: Store) -> None:
    source = """
        import sys
        from pathlib import Path
        from drill.errors import DrillError
        from drill.store import Store
        from tests.store.making import NOW
        with Store.open(Path(sys.argv[1])) as store:
            for number in range(20):
                try:
                    store.new_learner(f"N{number}", NOW)
                except DrillError:
                    pass
    """
    for process in [program(source, store.path) for _ in range(2)]:
        ended(process)
    codes = [who.code for who in store.learners()]
    assert sorted(codes) == sorted(f"N{number}" for number in range(20))


KILLED = """
    import os, signal, sys
    from pathlib import Path
    from drill.store import Store
    from tests.store.making import NOW, asked, mark
    store = Store.open(Path(sys.argv[1]))
    asking = asked(store)
    store.answer(asking, "a", "0.66", "answer", "certain", 9.5, NOW)
    print(asking.hex(), flush=True)
    os.kill(os.getpid(), signal.SIGKILL)
"""


def test_an_answer_outlives_a_program_killed_before_its_verdict(tmp_path: Path) -> None:
    process = program(KILLED, tmp_path / "drill.sqlite")
    out, _ = process.communicate(timeout=60)
    assert process.returncode == -signal.SIGKILL
    with opened(tmp_path) as store:
        assert store.verify() == []
        who = store.learners()[0]
        (lost,) = unmarked(store, who)
        assert (lost.asking.hex(), lost.text, lost.sure) == (out.strip(), "0.66", "certain")
        begun = next(iter(store.open_sittings(who)), None)
        assert begun is not None
        assert [row.id for row in begun.askings] == [lost.asking]
        store.verdict(lost.id, "engine", "3", mark(0), later(60))
        assert unmarked(store, who) == ()


ENDLESS = """
    import sys
    from pathlib import Path
    from drill.store import Store
    from tests.store.making import NOW, mark
    store = Store.open(Path(sys.argv[1]))
    while True:
        answer = store.answer(bytes.fromhex(sys.argv[2]), "a", "x" * 3000, "answer", None, 1, NOW)
        print(answer.hex(), flush=True)
        store.verdict(answer, "engine", "3", mark(1), NOW)
"""


def test_killed_at_any_moment_every_answer_that_was_reported_is_there(store: Store) -> None:
    asking = asked(store)
    for _ in range(3):
        process = program(ENDLESS, store.path, asking.hex())
        assert process.stdout is not None
        reported = [process.stdout.readline().strip() for _ in range(40)]
        os.kill(process.pid, signal.SIGKILL)
        process.communicate(timeout=60)
        kept = {answer.id.hex() for answer in store.asking(asking).answers}
        assert kept.issuperset(reported)
        assert store.verify() == []


def test_hints_and_fixes_wait_for_no_verdict(store: Store) -> None:
    asking = asked(store)
    typed(store, asking, kind="hint")
    typed(store, asking, kind="fix")
    passed = typed(store, asking, kind="pass")
    (waiting,) = unmarked(store, store.learners()[0])
    assert waiting.id == passed
    assert unmarked(store, store.new_learner("Q9", NOW)) == ()
