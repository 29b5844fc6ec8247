"""What a question's text becomes: draws, steps, parts, names, version."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from drill.bank import read_template
from drill.model import Pattern, Template
from drill.quantities import Quantity, unit_of

Read = Callable[[str], Template]
Problems = Callable[[str], list[str]]

NUMBER = '[[part]]\nkind = "number"\nask = "Calculate it."\nanswer = "12.5"\n'


def whole(good: Path, name: str) -> Template:
    template = read_template(good / f"{name}.toml", good)
    assert isinstance(template, Template), template
    return template


def test_a_question_with_everything_a_calculation_has(good: Path) -> None:
    template = whole(good, "salts/percentage-yield")
    assert template.id == "salts/percentage-yield"
    assert template.skills == ("calc.percentage-yield", "calc.mass-by-difference")
    assert [draw.kind for draw in template.draws] == ["row", "range", "range", "range", "range"]
    assert [row.id for row in template.draws[0].rows] == ["CuO_H2SO4", "ZnO_H2SO4"]
    assert template.draws[0].first == "CuO_H2SO4"
    assert [step.name for step in template.work] == ["theory", "crystals", "total", "percent"]
    assert template.work[1].is_.text == "round(theory * share, 2)"
    assert template.requirements[0].says == "the yield is believable"
    assert template.has_draws
    assert template.lines["stem"] == 6


def test_lines_are_the_authors(good: Path) -> None:
    template = whole(good, "salts/percentage-yield")
    rows = template.text.splitlines()
    for draw in template.draws:
        assert rows[draw.line - 1].startswith(f"{draw.name} =")
    for step in template.work:
        assert rows[step.line - 1].startswith(f"{step.name} =")
    for part in template.parts:
        assert rows[part.line - 1] == "[[part]]"
        assert rows[part.lines["answer"] - 1].startswith("answer =")
        assert all(rows[slip.line - 1] == "[[part.slip]]" for slip in part.slips)


def test_a_range_is_shown_with_the_places_it_is_written_with(read: Read) -> None:
    template = read(
        "[draw]\n"
        'a = { from = 38.00, to = 60, step = 0.5, unit = "g" }\n'
        'b = { from = "a + (1 in g)", to = "2 * a", step = 0.1, unit = "g" }\n'
        'c = { from = 1, to = 9, step = "a / a" }\n'
        "d = { from = 1, to = 9, step = 1, decimals = 3 }\n" + NUMBER
    )
    assert [draw.decimals for draw in template.draws] == [2, 1, None, 3]


def test_the_kinds_of_draw(good: Path) -> None:
    draws = {draw.name: draw for draw in whole(good, "salts/every-draw").draws}
    assert {name: draw.kind for name, draw in draws.items()} == {
        "who": "names", "other": "names", "metal": "choice", "size": "choice",
        "order": "shuffle", "two": "pick", "centre": "range", "titres": "readings",
        "upper": "range", "route": "row",
    }  # fmt: skip
    gram = unit_of("g")
    assert gram is not None
    assert draws["size"].choices == (
        Quantity(Fraction("1.2"), gram, 2),
        Quantity(Fraction("0.5"), gram, 1),
        Quantity(Fraction(3), gram, 0),
    )
    assert draws["other"].first == "Sam"
    assert (draws["two"].count, draws["titres"].count) == (2, 4)
    assert draws["titres"].anomaly
    assert [row.id for row in draws["route"].rows] == ["CuO_H2SO4", "ZnO_H2SO4"]


def test_an_answer_takes_unit_and_places_of_its_step(good: Path) -> None:
    first, second = whole(good, "salts/percentage-yield").parts
    assert (first.unit, first.decimals, first.figures) == ("g", 2, None)
    assert (second.unit, second.decimals, second.figures) == ("%", None, 3)
    assert first.award == {"value": 1}
    assert second.award == {"method": 1, "value": 1}


def test_a_shared_slip_speaks_where_the_author_does_not(good: Path) -> None:
    template = whole(good, "salts/percentage-yield")
    inverted, own = template.parts[1].slips
    assert inverted.says == "That is upside down: turn the division over."
    assert own.says == "That is the mass with its basin. Written {{like this}}."
    assert set(template.shared_slips) == {"inverted", "container-not-subtracted"}


def test_patterns_and_their_concepts(good: Path) -> None:
    template = whole(good, "salts/why-excess")
    point = template.parts[0].points[0]
    assert point.accept == (
        Pattern(("acid", "used-up")),
        Pattern(("acid", "none-left"), window=8, ordered=True, polarity="any"),
        Pattern(("neutralised",)),
    )
    assert point.reject == (Pattern(("not acid", "solid", "used-up")),)
    assert set(template.concepts) == {"acid", "used-up", "none-left", "solid"}
    assert template.concepts["acid"] == ("acid",)


def test_parts_of_the_other_kinds(good: Path) -> None:
    choice, name, order, formula, equation, table, levels, reading = whole(
        good, "salts/other-kinds"
    ).parts
    assert [option.right for option in choice.options] == [True, False, False]
    assert choice.options[2].right_when is not None
    assert choice.several
    assert choice.keep_order
    assert name.look_alikes["pipette"] == "A pipette has no tap."
    assert order.steps == ("warm", "filter", "evaporate")
    assert order.why == {"filter": "The excess must be out first."}
    assert formula.accept == ("CuSO4.5H2O",)
    assert equation.award == {"species": 1, "balance": 1, "states": 1}
    assert list(table.cells) == ["mean", "highest value"]
    assert table.cells["mean"].slips[0].id == "inverted"
    assert levels.levels == ((4, "It works."), (2, "It would not work."))
    assert reading.kind == "reading"


def test_masses_are_those_that_papers_print(good: Path) -> None:
    masses = whole(good, "salts/other-kinds").tables["atomic_masses"]
    unit = unit_of("g/mol")
    assert unit is not None
    assert {row.id: row.cells for row in masses}["Cu"] == {
        "mass": Quantity(Fraction("63.5"), unit, 1)
    }


def test_a_file_with_windows_line_ends_is_the_same_question(good: Path, bank: Path) -> None:
    path = bank / "measure" / "windows.toml"
    before = whole(good, "measure/windows")
    raw = path.read_bytes()
    assert b"\r\n" in raw
    path.write_bytes(raw.removeprefix(b"\xef\xbb\xbf").replace(b"\r\n", b"\n"))
    after = read_template(path, bank)
    assert isinstance(after, Template)
    assert after.version == before.version
    assert (after.parts, after.stem) == (before.parts, before.stem)


@pytest.mark.parametrize(
    ("file", "old", "new", "changes"),
    [
        ("facts/salts.csv", "249.5", "249.6", True),
        ("facts/salts.csv", "287.4", "287.5", True),
        ("facts/salts.csv", "MgCl2.6H2O,,", "MgCl2.6H2O,203,", False),  # no row of this question
        ("facts/salts.csv", "common practice, no source", "A handbook", False),
        ("slips.toml", "upside down", "the wrong way up", True),
        ("lexicon.toml", "used up", "finished", False),
        ("salts/percentage-yield.toml", "0.85", "0.80", True),
        ("salts/percentage-yield.toml", "[work]", "# a note\n[work]", True),
    ],
)
def test_what_changes_a_version(bank: Path, file: str, old: str, new: str, changes: bool) -> None:
    before = whole(bank, "salts/percentage-yield").version
    path = bank / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    assert (whole(bank, "salts/percentage-yield").version != before) == changes


def test_the_version_of_a_plain_question_is_fixed(read: Read) -> None:
    """A change here re-proves every question: it needs a reason, and ENGINE raised."""
    version = read(NUMBER).version
    assert version == "cb16526c388efdbd254f5e8324c1db8e"


def test_a_formula_names_the_column_in_the_file(tmp_path: Path, good: Path) -> None:
    path = tmp_path / "salts" / "question.toml"
    path.parent.mkdir()
    path.write_text('format = 1\n[work]\na = { is = "2 * (3" }\n', encoding="utf-8")
    found = read_template(path, good)
    assert not isinstance(found, Template)
    problem = next(one for one in found if one.line == 3)
    row = path.read_text(encoding="utf-8").splitlines()[2]
    assert row[problem.column - 1] == "("


def test_all_faults_are_shown_together(problems: Problems) -> None:
    assert problems('stem = "{x}"\nseconds = "long"\n' + NUMBER + 'figures = "three"\n') == [
        "6: {x}: nothing is called that here.",
        '7: seconds must be a whole number, got "long". Write for example: seconds = 90',
        '12: figures must be a whole number, got "three". Write figures = 3.',
    ]


def test_a_question_of_a_bank_lies_in_a_practicals_folder(bank: Path) -> None:
    path = bank / "slats" / "why-excess.toml"
    path.parent.mkdir()
    path.write_text((bank / "salts" / "why-excess.toml").read_text(), encoding="utf-8")
    found = read_template(path, bank)
    assert isinstance(found, tuple)
    assert str(found[0]) == (
        f'{path}:1: practicals.toml has no "slats", the file\'s folder. Did you mean "salts"?'
    )


@pytest.mark.parametrize("place", ["loose.toml", "salts/deeper/question.toml"])
def test_a_question_at_another_depth_is_told_where_to_go(bank: Path, place: str) -> None:
    path = bank / place
    path.parent.mkdir(exist_ok=True)
    path.write_text((bank / "salts" / "why-excess.toml").read_text(), encoding="utf-8")
    found = read_template(path, bank)
    assert isinstance(found, tuple)
    assert str(found[0]) == (
        f'{path}:1: "{place.removesuffix(".toml")}" is not practical/question. '
        "Put it into the folder of its practical, as salts/why-excess.toml."
    )


@pytest.mark.parametrize(
    ("where", "ids"),
    [
        ('acid = "sulfuric acid"', ["CuO_H2SO4", "ZnO_H2SO4"]),
        ('id = ["MgO_HCl", "CuO_H2SO4"]', ["CuO_H2SO4", "MgO_HCl"]),
        ("M_crystals = 249.50", ["CuO_H2SO4"]),
        ("salt_per_acid = [0.5, 1]", ["CuO_H2SO4", "ZnO_H2SO4", "MgO_HCl"]),
        ('acid = "sulfuric acid", M_crystals = 287.4', ["ZnO_H2SO4"]),
    ],
)
def test_rows_that_meet_where(read: Read, where: str, ids: list[str]) -> None:
    template = read(f'[draw]\nx = {{ row_of = "salts", where = {{ {where} }} }}\n{NUMBER}')
    assert [row.id for row in template.draws[0].rows] == ids


def test_an_answer_from_a_column_has_the_columns_unit(read: Read) -> None:
    draw = '[draw]\nx = { row_of = "salts", where = { class_use = "yes" } }\n'
    assert read(draw + NUMBER.replace("12.5", "x.M_crystals")).parts[0].unit == "g/mol"


def test_a_table_of_facts_with_a_fault_is_shown_at_its_own_line(bank: Path) -> None:
    path = bank / "facts" / "salts.csv"
    path.write_text(path.read_text().replace("249.5", "heavy"), encoding="utf-8")
    found = read_template(bank / "salts" / "percentage-yield.toml", bank)
    assert isinstance(found, tuple)
    assert str(found[0]) == (
        f'{path}:2: M_crystals must be a number, got "heavy". '
        "Write digits and a point; the unit stands in the header."
    )


def test_a_missing_file_and_a_folder_are_problems(good: Path) -> None:
    for name in ("salts/none.toml", "salts"):
        found = read_template(good / name, good)
        assert isinstance(found, tuple)
        assert found[0].message == "there is no such file."


def test_a_huge_file_is_refused_unread(bank: Path) -> None:
    path = bank / "salts" / "huge.toml"
    path.write_text("#" * 1_000_001, encoding="utf-8")
    found = read_template(path, bank)
    assert isinstance(found, tuple)
    assert found[0].message == "the file has 1,000,001 bytes; at most 1,000,000 are read."


def test_sample_answers_make_a_written_part_proven(bank: Path) -> None:
    assert whole(bank, "salts/why-excess").parts[0].unproven
    answers = bank / "salts" / "why-excess.answers.jsonl"
    line = '{"part": "a", "answer": "all the acid reacts", "points": {"acid-used-up": 1}}\n'
    answers.write_text("not JSON\n[]\n" + line * 34, encoding="utf-8")
    assert whole(bank, "salts/why-excess").parts[0].unproven
    answers.write_text(line * 35, encoding="utf-8")
    assert not whole(bank, "salts/why-excess").parts[0].unproven
