"""One list of the kinds of part, and every table of kinds held against it.

A kind that is forgotten in one of them fails here by its name. The general kinds are `PART_KINDS`
of the bank's schema; a subject's own stand behind `SubjectKind`, which cannot be made without any
of its parts, and are held against what is told of kinds outside of it: guide, starters, docs.
"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from drill.bank.authoring.new_files import all_starters
from drill.bank.reading.template_reader import read_template
from drill.bank.schema.part_schema import AWARDS, PART_KINDS
from drill.bank.schema.schema_docs import schema_as_markdown
from drill.generate import generate
from drill.judge.part_doubts import _KEYS
from drill.judge.parts import _NUMBERS
from drill.marking import mark
from drill.model import Question, Template
from drill.places import bank_dir
from drill.subjects import own_kinds
from tests.common.kinds import ALL_FIELDS, ALL_KINDS, TABLES, table_of

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "question_bank" / "README.md"


@pytest.mark.parametrize(("module", "name", "holds"), TABLES)
def test_a_table_of_kinds_has_every_general_kind_and_no_other(
    module: str, name: str, holds: str
) -> None:
    assert set(table_of(module, name)) == set(PART_KINDS), f"{name} of {module}: {holds}"


def test_no_table_of_kinds_is_left_out_of_the_list() -> None:
    """A dictionary or tuple of the program that names most general kinds is one of `TABLES`."""
    listed = {module for module, _, _ in TABLES}
    for path in sorted((ROOT / "drill").rglob("*.py")):
        module = ".".join(path.relative_to(ROOT).with_suffix("").parts)
        if module.startswith(("drill.subjects", "drill.judge")) or module in listed:
            continue  # a subject has its own; the second judge shares nothing with the program
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            entries = node.keys if isinstance(node, ast.Dict) else getattr(node, "elts", [])
            words = {one.value for one in entries if isinstance(one, ast.Constant)}
            assert len(words & set(PART_KINDS)) <= 5, f"{module}:{node.lineno}: {words}"


def test_the_second_judge_knows_every_kind() -> None:
    """It passes over a kind it does not know, and then nothing proves its key."""
    assert {*_KEYS, *_NUMBERS, "table"} == set(ALL_KINDS), "drill/judge: part_doubts.py, parts.py"


def test_a_table_of_a_few_kinds_has_none_that_there_is_not() -> None:
    assert set(AWARDS) <= set(PART_KINDS)
    assert {kind for key in ALL_FIELDS for kind in key.kinds} == set(ALL_KINDS)


def test_the_kinds_of_subjects_have_names_of_their_own() -> None:
    assert len(set(ALL_KINDS)) == len(ALL_KINDS)
    assert all(key.kinds == (name,) for name, kind in own_kinds().items() for key in kind.fields)


def test_there_is_a_starter_for_every_kind_and_for_the_calculation() -> None:
    assert set(all_starters()) == {*ALL_KINDS, "calculation"}


@pytest.mark.parametrize("kind", ALL_KINDS)
def test_a_starter_travels_the_whole_way(kind: str, tmp_path: Path) -> None:
    """From the file to full marks; what every room needs of a kind is met on the way."""
    path = tmp_path / "salts" / "starter.toml"
    path.parent.mkdir()
    path.write_text(all_starters()[kind], encoding="utf-8")
    template = read_template(path, bank_dir())
    assert isinstance(template, Template), template
    question = generate(template, 1)
    assert isinstance(question, Question), question
    (part,) = question.parts
    assert part.kind == kind
    assert part.points
    assert sum(point.marks for point in part.points) >= part.marks > 0
    assert part.worked.endswith(part.model_answer)
    verdict = mark(part, part.model_answer)
    assert (verdict.marks, verdict.unsure) == (part.marks, ()) or verdict.self_marked


@pytest.mark.parametrize("kind", ALL_KINDS)
def test_the_guide_and_the_tables_of_keys_name_every_kind(kind: str) -> None:
    assert f"`{kind}`" in GUIDE.read_text(encoding="utf-8")
    assert kind in schema_as_markdown()
