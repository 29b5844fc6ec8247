"""A paper against the clock at the terminal: nothing is told before it is handed in."""

from __future__ import annotations

import re
import time
from pathlib import Path

from drill.app.papers.paper_results import result_of
from drill.store import Store
from tests.common.desk import drill
from tests.common.terminal import Terminal

AT = ("--at", "2027-01-12T17:00")


def test_a_paper_is_put_whole_and_tells_its_marks_at_the_end(home: Path) -> None:
    typed = ["ada", *["zzz"] * 80]
    said = drill("sit", "--paper", "10", "--seed", "4", *AT, typed=typed).output
    asked, _, end = (
        said.partition("Not reached") if "Not reached" in said else said.rpartition(" minutes.\n")
    )
    assert re.search(r"A paper of (9|10|11) marks: (9|10|11) minutes\.", said)
    assert "Not right" not in asked
    assert "command word" in end
    assert "seconds a mark" in end
    assert "you typed" in end
    with Store.open(home / "drill.db") as store:
        askings = store.askings(store.learners()[0])
    assert len(askings) >= 3
    assert all(answer.mark is not None for asking in askings for answer in asking.answers)


def test_extra_time_is_added() -> None:
    said = drill("sit", "--paper", "20", "--extra-time", "25", "--seed", "4", *AT,
                 typed=["ada", "stop", "yes"]).output  # fmt: skip
    marks, minutes = map(int, re.search(r"of (\d+) marks: (\d+) minutes", said).groups())
    assert minutes == round(marks * 1.25)
    assert f"Not reached: {marks} marks." in said


def test_no_hint_is_given_and_handing_in_is_asked_for_twice(home: Path) -> None:
    typed = ["ada", "?", "example", "pause", "", "stop", "", "calc 2*3", "stop", "yes"]
    said = drill("sit", "--paper", "10", "--seed", "4", *AT, typed=typed).output
    assert said.count("Not during a paper") == 2
    assert "Going on, 10 min left" in said
    assert "2*3 = 6" in said
    assert said.count("Hand it in?") == 2
    assert "0 of " in said


def test_nothing_done_comes_to_nothing() -> None:
    found = result_of([], [], {}, 0.0, {})
    assert (found.marks, found.of, found.by_word) == (0, 0, ())


def stopped(home: Path) -> list[str]:
    """A paper whose window is closed after two answers; what was asked on it."""
    command = ("sit", "--paper", "10", "--seed", "4", "--learner", "ada", "--extra-time", "100")
    drill("plan", "--learner", "ada", "--course", "separate higher", *AT)
    with Terminal(home, *command, *AT) as window:
        window.until("A paper of 10 marks: 20 minutes.")
        for _ in range(2):
            window.answer(" > ", "zzz")
        asked = window.until(" > ")
        window.hang_up()
    return asked.splitlines()


def test_a_closed_window_or_ctrl_c_leaves_a_paper_that_goes_on(home: Path) -> None:
    stopped(home)
    again = ("sit", "--paper", "10", "--learner", "ada", "--at", "2027-01-12T18:00")
    with Terminal(home, *again) as window:
        window.until("A paper of 10 marks: 20 minutes.")  # extra time as it was granted
        window.until("Going on where you stopped, after ")
        window.answer(" > ", "zzz")
        window.until(" > ")
        time.sleep(0.2)
        window.type("\x03")
        window.until("drill sit --paper 10 goes on.")
        assert window.wait() == 130
    said = drill(*again, typed=["zzz"] * 60).output
    assert "Going on where you stopped, after " in said
    assert " of 20 minutes." in said
    assert "Not reached" not in said
    with Store.open(home / "drill.db") as store:
        askings = store.askings(store.learners()[0])
        assert not store.open_sittings(store.learners()[0])
    assert len({(one.template, one.seed) for one in askings}) == len(askings)


def test_a_paper_that_waits_is_told_of_and_not_taken_for_a_sitting(home: Path) -> None:
    stopped(home)
    later = ("--learner", "ada", "--at", "2027-01-12T17:30")
    said = drill("sit", *later, typed=["stop"]).output
    assert "A paper was broken off: drill sit --paper 10 goes on with it." in said
    assert "Going on where you stopped" not in said
    said = drill("sit", "--paper", "20", *later, typed=["stop", "yes"]).output
    assert "A paper of 10 marks" in said
    late = ("--learner", "ada", "--at", "2027-01-14T17:30")
    assert "broken off" not in drill("sit", *late, typed=["stop"]).output
