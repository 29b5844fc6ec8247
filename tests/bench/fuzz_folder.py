"""The folder that a fuzzed try starts from: two learners, a school's own files, a class."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from drill.exchange import hand_in
from drill.places import bank_dir
from tests.common.attacks import two_learners
from tests.common.classes import class_of
from tests.common.ends import ends

GOOD = Path(__file__).resolve().parents[1] / "bank_files" / "good"
OWN_FACTS, OWN_PICTURE = "our_salts", "our-beaker"


def sound_folder(base: Path) -> None:
    """A data folder with two learners, a school's folder with a deck, questions, facts, word sets
    and a drawing of its own, a class's hand-ins, a marks sheet, an export."""
    home, before = base / "home", Path.cwd()
    base.mkdir()
    os.environ.update(DRILL_HOME=str(home), COLUMNS="80", NO_COLOR="1")
    two_learners(home)
    _school(base / "school")
    (base / "in").mkdir()
    for number, pupil in enumerate(class_of(2, 1, "safety.hazard", 8)):
        (base / "in" / f"{number}.handin").write_bytes(hand_in.packed(pupil))
    os.chdir(base)
    for words in (
        ("paper", "make", "first-steps", "--marks", "10", "--format", "text"),
        ("data", "export", "--learner", "K7", "--out", "k7.jsonl"),
        ("deck", "handout", "school/ours.toml", "--out", "ours.handout"),
        ("class", "collect", "in"),
    ):
        end = ends(*words)
        assert end.code == 0, end
    os.chdir(before)
    FILES.update({path.name: path.read_bytes() for path in base.iterdir() if path.is_file()})
    for path in (home / "classes").rglob("*"):
        if path.is_file():
            KEPT[str(path.relative_to(base))] = path.read_bytes()


FILES: dict[str, bytes] = {}
KEPT: dict[str, bytes] = {}
"""The files of the sound folder's top, and those kept of a class, once it is made."""


def _school(folder: Path) -> None:
    own = folder / "questions"
    for inner in ("salts", "facts", "drawings"):
        (own / inner).mkdir(parents=True)
    (folder / "ours.toml").write_text(DECK, "utf-8")
    (own / "salts" / "mine.toml").write_text(QUESTION, "utf-8")
    (own / "salts" / "mine.answers.jsonl").write_text(SAMPLES, "utf-8")
    (own / "salts" / "excess.toml").write_text(WRITTEN, "utf-8")
    (own / "facts" / f"{OWN_FACTS}.csv").write_text(FACTS, "utf-8")
    (own / "lexicon.toml").write_text(WORDS, "utf-8")
    shutil.copy(bank_dir() / "drawings" / "beaker.svg", own / "drawings" / f"{OWN_PICTURE}.svg")


def text_of(path: Path) -> str:
    return path.read_text("utf-8")


_SALTS = GOOD / "bank" / "salts"
QUESTION = text_of(_SALTS / "percentage-yield.toml").replace(
    'row_of = "salts"', f'row_of = "{OWN_FACTS}"'
)
WRITTEN = text_of(bank_dir() / "salts" / "why-excess.toml").replace(
    "[[part]]", f'picture = "{OWN_PICTURE}"\n[[part]]', 1
)
FACTS = text_of(GOOD / "bank" / "facts" / "salts.csv")
WORDS = """\
[our-basin]
doc = "where it dries"
words = ["basin", "dish", "all ~2 bowl*"]

[our-acid]
words = ["acid"]
"""
SAMPLES = '{"part": "a", "answer": "no idea", "points": {"value": 0}}\n' * 2
DECK = (
    text_of(GOOD / "decks" / "whole.toml").replace("autumn-salts", "ours")
    + '[own]\ntemplates = "questions"\n'
)
READINGS = """\
kind = "crystals"
route = "CuO_H2SO4"
basin = 57.23
total = "60.10 g"
volume = 25
conc = 0.8
solid = 2.10
"""
CLASS_LIST = "code,name\nk00,Ann A\nk01,Bo B\n"
