"""Graphs of the bank to look at, and to read for somebody who does not know what is right."""

from __future__ import annotations

import random
from collections.abc import Iterator

from drill.bank import read_template
from drill.drawings import graph_rows
from drill.generate import generate
from drill.model import Question, Template
from drill.places import bank_dir
from tests.bench.blind_trial import Trial

EACH = 2  # seeds of each template


def all_graphs(first: int = 1) -> Iterator[Question]:
    """Every question with a graph, a few seeds of each."""
    for path in sorted(bank_dir().glob("*/*.toml")):
        if "\n[graph]\n" in path.read_text("utf-8"):
            template = read_template(path, bank_dir())
            assert isinstance(template, Template)
            for seed in range(first, first + EACH):
                question = generate(template, seed)
                assert isinstance(question, Question)
                yield question


def graphs(seed: int, columns: int = 80, lines: int = 17) -> tuple[Trial, ...]:
    """All of them, shuffled, each with what is asked and what the mark scheme accepts."""
    questions = list(all_graphs(first=seed))
    random.Random(seed).shuffle(questions)
    return tuple(Trial(_shown(one, columns, lines), "read it", _key(one)) for one in questions)


def _shown(question: Question, columns: int, lines: int) -> tuple[str, ...]:
    assert question.graph is not None
    rows = graph_rows(question.graph, columns, lines) or ("too little room",)
    asked: list[str] = []
    for part in question.parts:
        asked.append(f"({part.id}) {part.ask}")
        asked += [f"    {o.letter} {o.text}" for o in getattr(part.key, "options", ())]
    return (*rows, *asked)


def _key(question: Question) -> str:
    says = "; ".join(f"({part.id}) {part.points[-1].says}" for part in question.parts)
    return f"{question.template} seed {question.seed}: {says}"
