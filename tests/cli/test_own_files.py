"""What a school's own questions bring along: drawings and tables of facts, on any machine."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.app.context import open_store
from drill.exchange.handout import Refused, packed, unpacked
from tests.cli.test_handout import DECK
from tests.common.desk import drill
from tests.common.ends import ends

AT = ("--at", "2027-03-01T17:00")
QUESTION = """format = 1
title = "Our rig"
skills = ["calc.mass-by-difference"]
command_word = "calculate"
course = ["combined higher"]
side = "calculation"
picture = "our-rig"

[draw]
boat = { row_of = "our_boats" }
salt = { from = 2.10, to = 7.90, step = 0.01, unit = "g" }

[work]
both = { is = "boat.mass + salt", unit = "g", decimals = 2 }
mass = { is = "both - boat.mass", unit = "g", decimals = 2 }

[[part]]
kind = "number"
ask = "The {boat.name} is {boat.mass}. With salt it is {both}. Calculate the mass of the salt."
answer = "mass"
"""
FACTS = """id,name,mass (g),source
blue,blue boat,1.31,weighed at this school
red,red boat,1.64,weighed at this school
"""
RIG = """<svg xmlns="http://www.w3.org/2000/svg" fill="none" stroke="black" viewBox="0 0 40 40">
  <desc>A shallow dish on a flat plate.</desc>
  <polyline points="4 20 8 30 32 30 36 20"/>
</svg>
"""


@pytest.fixture
def deck(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A school's deck with a question, its drawing and its table; the teacher sits at the desk."""
    own = tmp_path / "school" / "questions"
    for name, text in (
        ("salts/mine.toml", QUESTION),
        ("facts/our_boats.csv", FACTS),
        ("drawings/our-rig.svg", RIG),
    ):
        (own / name).parent.mkdir(parents=True, exist_ok=True)
        (own / name).write_text(text, encoding="utf-8")
    file = tmp_path / "school" / "ours.toml"
    file.write_text(DECK, encoding="utf-8")
    monkeypatch.setenv("DRILL_HOME", str(tmp_path / "teacher"))
    return file


@pytest.fixture
def handout(deck: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Its handout; the school's folder is gone, and a pupil sits at the desk."""
    file = tmp_path / "ours.handout"
    assert drill("deck", "handout", str(deck), "--out", str(file)).exit_code == 0
    (deck.parent / "questions").rename(deck.parent / "put-away")
    monkeypatch.setenv("DRILL_HOME", str(tmp_path / "pupil"))
    return file


def test_drawing_and_facts_reach_a_pupil_in_the_handout(handout: Path) -> None:
    said = drill("sit", str(handout), "--learner", "k7", "--plain", "--questions", "1", *AT,
                 typed=["", "2.5 g", "", "stop"]).output  # fmt: skip
    assert "A shallow dish on a flat plate." in said
    assert "boat is 1." in said
    with open_store(reading=True) as store:
        asking, *_ = store.askings(store.learners()[0])
    assert asking.template == "own/ours/salts/mine"
    past = drill("answers", "--plain", "--at", "2027-03-02T17:00").output
    assert "boat is 1." in past
    assert "A shallow dish on a flat plate." in past


def changed(handout: Path, name: str, text: str) -> Path:
    files = unpacked(handout.read_bytes())
    out = handout.with_name("changed.handout")
    out.write_bytes(packed({**files, name: text}, ()))
    return out


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("own/drawings/our-rig.svg", RIG.replace("<polyline", "<script>x</script><polyline")),
        ("own/drawings/our-rig.svg", RIG + "".join(f"<!-- {n * n} -->" for n in range(30_000))),
        ("own/drawings/our-rig.svg", "<g>" * 1300),
        ("own/facts/our_boats.csv", "id,name,mass (g),source\nblue,blue,heavy,us\n"),
        ("own/facts/our_boats.csv", "\x1b[31mno table"),
        ("own/facts/our_boats.csv", ""),
    ],
)
def test_what_is_spoilt_is_not_asked_and_stops_nothing(handout: Path, name: str, text: str) -> None:
    end = ends("sit", str(changed(handout, name, text)), "--learner", "k7", *AT, typed=["stop"])
    assert end.is_clean, end.err
    assert "\x1b[31m" not in end.out
    with open_store(reading=True) as store:
        assert [row for who in store.learners() for row in store.askings(who)] == []


@pytest.mark.parametrize(
    "name", ["own/drawings/x.py", "own/facts/x.toml/y.csv", "own/drawings/../x.svg", "own/x.svg"]
)
def test_nothing_else_has_a_place_in_a_handout(handout: Path, name: str) -> None:
    with pytest.raises(Refused):
        changed(handout, name, "x")


def test_a_table_does_not_take_the_place_of_a_shipped_one(deck: Path) -> None:
    own = deck.parent / "questions"
    (own / "facts" / "our_boats.csv").rename(own / "facts" / "solubility.csv")
    question = own / "salts" / "mine.toml"
    question.write_text(QUESTION.replace("our_boats", "solubility"), encoding="utf-8")
    told = drill("deck", "check", str(deck)).output
    assert "there is a shipped table solubility.csv too" in " ".join(told.split())
