"""What a practical is thin in, and what the shipped bank says of its questions and skills."""

from __future__ import annotations

from drill.app.coverage import covered_practicals, covered_skills
from drill.bank import Entry
from drill.bank.reference.facts import read_facts
from drill.places import bank_dir
from tests.common.shipped import shipped_bank


def entry(name: str, side: str, *kinds: str) -> Entry:
    course = ("separate higher",)
    return Entry(
        f"ions/{name}", "", practical="ions", kinds=kinds, side=side, ok=True, course=course,
        part_skills=("ions.tests",),
    )  # fmt: skip


def test_a_practical_tells_what_it_wants() -> None:
    some = [entry(f"a-{n}", "method", "order", "written") for n in range(12)]
    rest = [entry(f"b-{n}", "data", "levels") for n in range(4)]
    row, empty = covered_practicals([*some, *rest], ["ions", "measure"])
    assert (row.templates, row.method, row.data) == (16, 12, 4)
    assert row.thin == ("5 more sides", "too much of method")
    assert empty.thin == ("15 more templates",)


def test_a_retired_question_covers_nothing() -> None:
    old = Entry("ions/x", "", practical="ions", ok=True, retired=True, part_skills=("ions.tests",))
    (row,) = covered_practicals([old], ["ions"])
    (skill,) = covered_skills([old, entry("y", "data", "name")], ["ions.tests"])
    assert row.templates == 0
    assert (skill.templates, skill.separate_higher, skill.combined_higher) == (1, 1, 0)


def test_every_shipped_question_says_its_side_and_object() -> None:
    silent = [one.id for one in shipped_bank().entries() if not (one.side and one.object)]
    assert not silent


def test_every_skill_has_a_family_and_rows_of_a_published_list() -> None:
    rows = read_facts(bank_dir() / "facts" / "published_lists.csv")
    assert isinstance(rows, tuple)
    known = {row.id for row in rows}
    for skill in shipped_bank().skills().values():
        assert skill.family, skill.id
        assert skill.marks > 0, skill.id
        assert skill.answers, skill.id
        assert set(skill.answers) <= known, skill.id
