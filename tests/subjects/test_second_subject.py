"""A second subject, from an author's file to a mark: what the interface promises is enough."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import drill.subjects
from drill.bank import Bank
from drill.frozen import replace
from drill.generate import generate
from drill.marking import mark
from drill.model import Question, Template
from drill.subjects import known, own_kinds, subject

HERE = Path(__file__).parent / "second"


@pytest.fixture(autouse=True)
def _two_subjects(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(drill.subjects, "__path__", [*drill.subjects.__path__, str(HERE)])
    subject.cache_clear()
    yield
    subject.cache_clear()
    for name in [one for one in sys.modules if one.startswith("drill.subjects.physics")]:
        del sys.modules[name]


@pytest.fixture
def bank(tmp_path: Path) -> Path:
    return Path(shutil.copytree(HERE / "bank", tmp_path / "bank"))


def template(bank: Path, **changed: str) -> Template | list[str]:
    """The bank's question with pieces of its text changed; its problems in words."""
    path = bank / "forces" / "weight.toml"
    text = path.read_text(encoding="utf-8")
    for old, new in changed.items():
        assert old in text
        text = text.replace(old, new)
    path.write_text(text, encoding="utf-8")
    found = Bank.open(bank).template("forces/weight")
    return found if isinstance(found, Template) else [one.message for one in found]


def question(bank: Path, **changed: str) -> Question:
    read = template(bank, **changed)
    assert isinstance(read, Template), read
    made = generate(read, 3)
    assert isinstance(made, Question), made
    return made


def test_both_subjects_are_found_by_their_folders() -> None:
    assert known() == ("chemistry", "physics")
    assert {"direction", "equation", "formula"} == set(own_kinds())


def test_its_bank_has_no_problems(bank: Path) -> None:
    opened = Bank.open(bank)
    assert [one for one in opened.problems() if "slips.toml" not in one.path] == []
    (entry,) = opened.entries()
    assert entry.kinds == ("number", "direction", "name")
    assert entry.seconds == 50 + 15 + 20


def test_its_function_is_worked_with_its_reference_values(bank: Path) -> None:
    number = question(bank).parts[0]
    mass = int(question(bank).parts[0].ask.split("load of ")[1].split(" kg")[0])
    assert number.model_answer == f"{mass * 1.6:.1f} N"
    assert mark(number, number.model_answer).marks == 1
    assert mark(number, f"{mass * 9.8:.1f} N").marks == 0


def test_its_kind_of_part_is_read_made_and_marked(bank: Path) -> None:
    part = question(bank).parts[1]
    assert (part.kind, part.subject, part.model_answer) == ("direction", "physics", "down")
    assert part.worked == "A weight pulls towards the ground.\ndown"
    assert mark(part, "Downwards").marks == 1
    assert mark(part, "up").marks == 0
    assert not mark(part, "sideways").readable


def test_its_reader_tells_the_author(bank: Path) -> None:
    assert template(bank, **{'points_to = "down"': 'points_to = "nowhere"'}) == [
        "an arrow points somewhere."
    ]


def test_its_key_maker_may_refuse(bank: Path) -> None:
    read = template(bank, **{'points_to = "down"': 'points_to = "inside"'})
    assert isinstance(read, Template)
    made = generate(read, 0)
    assert not isinstance(made, Question)
    assert "inside is no direction" in made.message


def test_names_are_compared_by_its_own_rules(bank: Path) -> None:
    """An ending decides in one that is only misspelt in the other; and so do words beside it."""
    part = question(bank).parts[2]
    assert mark(part, "newtanmeter").marks == 1
    assert mark(part, "newtonmetar").marks == 0
    assert mark(part, "newtonmeter solution").marks == 0
    chemical = replace(part, subject="chemistry")
    assert mark(chemical, "newtonmetar").marks == 1
    assert mark(chemical, "newtonmeter solution").marks == 1


def test_another_subject_s_kinds_and_functions_are_not_known(bank: Path) -> None:
    (kind,) = template(bank, **{'kind = "direction"\n': 'kind = "formula"\n'})
    assert kind == (
        "kind must be one of number, reading, choice, name, order, written, table, levels, "
        'direction; got "formula".'
    )
    (function, *_) = template(bank, **{"weight_at": "M", '"Moon", mass': '"H2O"'})
    assert "there is no function 'M'" in function


def test_its_table_s_name_is_taken(bank: Path) -> None:
    problems = template(bank, **{"pull": "G"})
    assert isinstance(problems, list)
    assert '"G" is a word of the formulas.' in problems


def test_a_table_without_values_is_told(bank: Path) -> None:
    (bank / "facts" / "places.csv").unlink()
    assert template(bank) == ["G(…) needs facts/places.csv, which has no values."]


def test_a_practical_names_a_subject_that_there_is(bank: Path) -> None:
    path = bank / "practicals.toml"
    path.write_text(path.read_text("utf-8").replace("physics", "phisics"), encoding="utf-8")
    told = [one for one in Bank.open(bank).problems() if one.path == str(path)]
    assert [(one.message, one.hint) for one in told] == [
        ('no subject is called "phisics".', 'Did you mean "physics"?')
    ]
