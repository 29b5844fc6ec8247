"""Words round a name: what changes nothing never costs it, what changes it always does."""

from __future__ import annotations

from itertools import product

import pytest

from drill.generate import generate
from drill.marking import mark
from drill.model import NameKey, Part, Question, Template
from tests.common.shipped import shipped_bank
from tests.marking.making import name

FILLERS = (
    "the {}", "a {}", "it is a {}", "I think it's the {}", "C is the {}", "C: {}", "{} thing",
    "some {}", "{}.", "{} I think", "it looks like a {}", "{} because of its shape",
    "a small {}", "{} which is used in the lab", "the {} that is on the bench", "{} in the drawing",
    "{} (part C)", "a school {}", "this would be called a {}",
)  # fmt: skip
KIT = {
    "conical flask": name("conical flask", alike={"beaker": "b", "round-bottomed flask": "r"}),
    "burette": name("burette", "buret", alike={"measuring cylinder": "m", "gas syringe": "g"}),
    "tripod": name("tripod", alike={"clamp stand": "c", "gauze": "g", "tongs": "t"}),
    "copper sulfate": name(
        "copper sulfate", "copper(II) sulfate", "CuSO4", alike={"copper sulfite": "i", "water": "w"}
    ),
}


@pytest.mark.parametrize(("right", "filler"), list(product(KIT, FILLERS)))
def test_a_filler_never_costs_a_right_name(right, filler):
    assert mark(KIT[right], filler.format(right)).marks == 1


@pytest.mark.parametrize(("right", "filler"), list(product(KIT, FILLERS)))
def test_a_filler_never_makes_a_look_alike_right(right, filler):
    part = KIT[right]
    assert isinstance(part.key, NameKey)
    for other in part.key.look_alikes:
        assert mark(part, filler.format(other)).marks == 0


METALS = {"copper": "II", "iron": "III", "lead": "II"}
NUMERALS = ("I", "II", "III", "IV", "VI")
FORMS = ("{}({}) oxide", "{} ({}) oxide", "the {}({}) oxide", "{}({}) oxide powder", "{} {} oxide")


@pytest.mark.parametrize(("metal", "numeral", "form"), list(product(METALS, NUMERALS, FORMS)))
def test_another_numeral_is_always_another_thing(metal, numeral, form):
    right = METALS[metal]
    part = name(f"{metal}({right}) oxide", f"{metal} oxide", alike={metal: "the metal"})
    typed = form.format(metal, numeral)
    assert mark(part, typed).marks == (numeral == right), typed
    assert mark(part, typed.lower()).marks == (numeral == right), typed


@pytest.mark.parametrize("typed", ["biuret", "gas burette", "burette clamp", "burette and pipette"])
def test_what_is_near_a_burette_is_none(typed):
    assert mark(KIT["burette"], typed).marks == 0


@pytest.mark.parametrize("typed", ["conical flask or beaker", "conical flask and a pipette"])
def test_two_things_are_asked_about_once(typed):
    got = mark(KIT["conical flask"], typed)
    assert (got.marks, got.readable) == (0, False)
    assert "give just the" in got.says


def test_a_formula_is_right_beside_its_name_and_alone_but_never_another():
    part = KIT["copper sulfate"]
    for typed in ("CuSO4", "copper sulfate CuSO4", "CuSO4 solution", "copper sulfate (CuSO4)"):
        assert mark(part, typed).marks == 1, typed
    for typed in ("CuSO3", "CuS", "copper sulfate CuCl2", "cuso3"):
        assert mark(part, typed).marks == 0, typed


def _name_parts() -> list[Part]:
    bank = shipped_bank()
    found: list[Part] = []
    for entry in bank.entries():
        template = bank.template(entry.id)
        if isinstance(template, Template) and any(p.kind == "name" for p in template.parts):
            asked = generate(template, 0)
            assert isinstance(asked, Question)
            found += [part for part in asked.parts if part.kind == "name"]
    return found


def test_every_accepted_name_of_the_bank_is_right_and_no_look_alike_is():
    parts = _name_parts()
    assert len(parts) > 20
    for part in parts:
        assert isinstance(part.key, NameKey)
        for right in part.key.right:
            assert mark(part, right).marks == part.marks, right
        for wrong in part.key.look_alikes:
            assert mark(part, wrong).marks == 0, wrong
