"""A paper against the clock at the terminal: nothing is told before it is handed in."""

from __future__ import annotations

import re
from pathlib import Path

from drill.app.papers.paper_results import result_of
from drill.store import Store
from tests.common.desk import drill

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
