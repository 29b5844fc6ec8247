"""Whole shipped questions and the values of their keys, to hold against published ones."""

from __future__ import annotations

from drill.bank import read_template
from drill.generate import generate
from drill.model import NumberKey, Question, Template
from drill.places import bank_dir


def question(id: str, seed: int) -> Question:
    template = read_template(bank_dir() / f"{id}.toml", bank_dir())
    assert isinstance(template, Template)
    drawn = generate(template, seed)
    assert isinstance(drawn, Question)
    return drawn


def value(asked: Question, part: int) -> float:
    key = asked.parts[part].key
    assert isinstance(key, NumberKey)
    return float(key.value)
