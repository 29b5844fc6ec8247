"""Whatever is typed gives a verdict, at once. The rules are called without their guard."""

from __future__ import annotations

import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from drill.marking import mark, rule_of
from drill.model import TableKey
from drill.typed.typed_text import LONGEST, tidy
from tests.common.kinds import ALL_KINDS
from tests.marking.making import (
    chain,
    choice,
    equation,
    formula,
    levels,
    name,
    number,
    number_key,
    order,
    part,
    point,
    written,
)

MASS = number_key(
    chain({"total": ("53.02", "g"), "basin": ("48.90", "g")}, {"mass": ("total - basin", "g")}),
    "mass",
    "g",
    slips=[("whole", "total", 0)],
    award={"method": 1, "value": 1},
)
PARTS = {
    "number": number(MASS),
    "reading": part("reading", MASS, {"value": 1}),
    "choice": choice(("a beaker", False, ""), ("a burette", True, "")),
    "name": name("burette", alike={"pipette": "one volume"}),
    "order": order("ABC", "CAB"),
    "written": written(
        point("a", ["acid", "used up|gone ~3 left"], ["acid", "gone", "left", "here"]),
        point("b", ["not ~ react"]),
    ),
    "formula": formula("CuSO4"),
    "equation": equation("MgO + 2HCl -> MgCl2 + H2O"),
    "table": part("table", TableKey({"mean": MASS}), {"mean": 1}),
    "levels": levels(point("a", ["acid"])),
}
NASTY = [
    "", " ", "\x00", "\x1b[31mred\x1b[0m", "\u202e4.12\u202c", "4.12\u200b g", "\ufeff4.12",
    "\ud800", "1e999999999", "9" * 5000, "-" * 3000, "1/0", "0/0", "1 0/0", "((((((((((" * 300,
    "=" * 4000, "4.12 g " * 3000, "a" * 1_000_000, "1" * 1_000_000, "acid " * 200_000,
    "not " * 100_000, "<b>4.12</b>", "{total}", "__import__('os').system('true')", "%s%s%n",
    "'; DROP TABLE answer;--", "٤٫١٢", "４．１２", "½", "10^10^10^10", "1e-9999", "[Cu(H2O)6]^2+",
    "->->->", "+ + + ->", "2" + "H2O(" * 500, "Cu" * 2000, "A,B,C" * 900, "\n" * 4000, "é" * 3000,
    "🧪" * 2000, "NaN", "inf", "1" + " 000" * 900, "1,000" * 900, "x 10^" * 900, "1:1:" * 900,
    "+/-" * 900, "CABCAB" * 500, "5 x 10^" + "9" * 4, "H+" * 900 + "->" + "e-" * 900, "Cl---->",
    "acid gone " * 390, "a" + "\u0301" * 3000, "٣" * 3000, "²" * 3000, "%" * 3000, "1 : " * 900,
]  # fmt: skip


@pytest.mark.parametrize("kind", sorted(ALL_KINDS))
@pytest.mark.parametrize("typed", NASTY, ids=lambda typed: repr(typed[:12]))
def test_nasty_text_gets_a_verdict(kind, typed):
    made = PARTS[kind]
    text = tidy(typed)
    verdict = rule_of(made)(made, text, {}) if text else mark(made, typed)
    assert 0 <= verdict.marks <= made.marks
    assert [one.id for one in verdict.points] == [one.id for one in made.points]


@pytest.mark.parametrize("kind", sorted(ALL_KINDS))
@settings(max_examples=60, deadline=None)
@example(typed="0x10 1_000 1e5e5 ..5 5..")
@given(typed=st.text(max_size=80))
def test_any_text_gets_a_verdict(kind, typed):
    made = PARTS[kind]
    text = tidy(typed)
    if text:
        verdict = rule_of(made)(made, text, {})
        assert 0 <= verdict.marks <= made.marks


@pytest.mark.parametrize("kind", sorted(ALL_KINDS))
@settings(max_examples=60, deadline=None)
@given(typed=st.text(alphabet="0123456789.,-+x*/^=:() eE%gcmdhoA²³CuO", max_size=60))
def test_nearly_numbers_get_a_verdict(kind, typed):
    text = tidy(typed)
    if text:
        assert rule_of(PARTS[kind])(PARTS[kind], text, {}).marks >= 0


@pytest.mark.parametrize("kind", sorted(ALL_KINDS))
def test_the_longest_text_is_marked_within_50_ms(kind):
    made = PARTS[kind]
    mark(made, "wrm up misspeled")
    for typed in NASTY:
        tried = (_seconds(made, f"{turn} {typed}") for turn in range(3))
        assert any(seconds < 0.05 for seconds in tried), repr(typed[:20])


def _seconds(made, typed):
    """Of this thread: what else the machine is doing does not count."""
    start = time.thread_time()
    mark(made, typed)
    return time.thread_time() - start


def test_only_the_first_characters_are_read():
    assert mark(PARTS["number"], " " * LONGEST + "4.12").points == mark(PARTS["number"], "").points
    assert len(tidy("x" * 1_000_000)) == LONGEST


def test_a_fault_of_ours_leaves_the_mark_to_a_person(monkeypatch):
    def broken(*_):
        raise RuntimeError("an internal error")

    monkeypatch.setattr("drill.marking.marker.RULES", {"number": broken})
    verdict = mark(PARTS["number"], "4.12")
    assert verdict.unsure == ("method", "value")
    assert verdict.says == "Could not be marked by the program: compare it with the worked answer."
