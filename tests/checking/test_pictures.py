"""Pictures that cannot be shown are problems of the template, before anyone is asked."""

from __future__ import annotations

from drill.bank import read_template
from drill.checking.pictures import picture_can_be_drawn
from drill.frozen import replace
from drill.generate import generate
from drill.model import Question, Template
from drill.places import bank_dir


def _made(name: str) -> tuple[Template, Question]:
    template = read_template(bank_dir() / f"{name}.toml", bank_dir())
    assert isinstance(template, Template)
    question = generate(template, 1)
    assert isinstance(question, Question)
    return template, question


def _says(template: Template, question: Question) -> list[str]:
    return [finding.says for finding in picture_can_be_drawn(template, question)]


def test_shipped_pictures_are_drawn() -> None:
    for name in ("measure/read-burette", "salts/fault-in-filtering"):
        assert _says(*_made(name)) == []


def test_a_picture_that_is_not_there() -> None:
    template, question = _made("salts/fault-in-filtering")
    assert "no drawing" in _says(template, replace(question, picture="filtring"))[0]


def test_a_shape_that_is_not_drawn_a_scale_too_wide_and_both() -> None:
    template, question = _made("measure/read-ruler")
    assert question.scale is not None
    strange = replace(question, scale=replace(question.scale, shape="sundial"))
    assert "sundial" in _says(template, strange)[0]
    wide = replace(question, scale=replace(question.scale, spaces=100))
    assert "too wide" in _says(template, wide)[0]
    assert "not both" in _says(template, replace(question, picture="beaker"))[0]
