"""CSV: one row for each thing typed, nothing a spreadsheet would run."""

from __future__ import annotations

import csv
import io

import pytest

from drill.exchange import export_csv
from drill.exchange.spreadsheet import COLUMNS
from drill.store import Store
from tests.exchange.making import practised
from tests.store.making import asked, later, rich_mark, typed


def table(store: Store, code: str = "K7") -> list[dict[str, str]]:
    who = next(one for one in store.learners() if one.code == code)
    out = io.StringIO(newline="")
    number = export_csv(store, who, out)
    rows = list(csv.DictReader(io.StringIO(out.getvalue(), newline="")))
    assert number == (len(rows), 0)
    return rows


def test_a_row_says_all_there_is_to_say(here: Store) -> None:
    asking = asked(here)
    answer = here.answer(asking, "a", "66,0\n%", "answer", "guess", 12.5, later(12))
    here.verdict(answer, "engine", "3", rich_mark(), later(13))
    here.appeal(answer, "why not", later(14))
    assert table(here) == [
        {
            "learner": "K7",
            "asked": "2027-03-01T17:00:00+01:00",
            "template": "salts/percentage-yield",
            "version": "5f" * 16,
            "seed": "7",
            "skill": "calc.yield",
            "part": "a",
            "kind": "answer",
            "answer": "66,0\n%",
            "sure": "guess",
            "seconds": "12.5",
            "answered": "2027-03-01T17:00:12+01:00",
            "marks": "1",
            "of": "3",
            "own_marks": "0",
            "own_of": "0",
            "judged_by": "engine",
            "slip": "inverted",
            "readable": "no",
            "not_sure": "value",
            "carried_forward": "yes",
            "self_marked": "no",
            "appeal": "why not",
            "faulty": "no",
            "question": "",
            "option": "",
            "right_answer": "",
        }
    ]


def test_an_answer_without_a_verdict_has_empty_marks(here: Store) -> None:
    typed(here, asked(here))
    (row,) = table(here)
    assert {row[name] for name in COLUMNS[12:20]} == {""}


@pytest.mark.parametrize(
    ("text", "cell"),
    [
        ("=1+1", "'=1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("-2+3", "'-2+3"),
        ("+cmd|' /C calc'!A0", "'+cmd|' /C calc'!A0"),
        ("\t=1", "'\t=1"),
        ("-4.5", "-4.5"),
        ("+3", "+3"),
        ("-4,5", "-4,5"),
        ("66.0 %", "66.0 %"),
        ("the acid", "the acid"),
    ],
)
def test_formulas_are_disarmed_and_numbers_left_alone(here: Store, text: str, cell: str) -> None:
    typed(here, asked(here), text)
    (row,) = table(here)
    assert row["answer"] == cell


@pytest.mark.parametrize("seed", range(4))
def test_every_answer_is_a_row(here: Store, seed: int) -> None:
    who = practised(here, "K7", seed)
    answers = [answer for asking in here.askings(who) for answer in asking.answers]
    assert len(table(here)) == len(answers)
