"""Questions fill their pages: what is known of their heights, and in which order they come."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from statistics import mean

import pytest

from drill.app.ask import question_of
from drill.app.papers.page_filling import by_pages, heights
from drill.app.papers.paper_rows import paper_questions
from drill.documents import typeset
from drill.documents.paper_document import question_block
from drill.documents.values import Document
from drill.model import Question
from tests.common.shipped import shipped_bank

_MEASURE = """
#context for one in it.blocks {
  let tall = measure(block(width: text-width, question(one, 1))).height
  [#metadata(tall / 1mm) <high>]
}
"""


@cache
def questions() -> list[Question]:
    bank = shipped_bank()
    return [question_of(bank, entry.id, 5) for entry in bank.entries()[::7]]


def measured(folder: Path, asked: list[Question]) -> list[float]:
    """Millimetres, as the typesetter measures them."""
    typst = pytest.importorskip("typst")
    blocks = tuple(question_block(one, set()) for one in paper_questions(shipped_bank(), asked))
    style = Path(typeset.__file__).with_name("typeset.typ").read_text(encoding="utf-8")
    file = folder / "measure.typ"
    file.write_text(style[: style.index("#let blocks =")] + _MEASURE, encoding="utf-8")
    document = typeset._document(Document("x", blocks, notation=True))
    found = typst.query(
        str(file), "<high>", field="value", font_paths=typeset._fonts(),
        ignore_system_fonts=True, sys_inputs={"document": json.dumps(document)},
    )  # fmt: skip
    return list(json.loads(found))


def test_heights_are_near_what_the_typesetter_measures(tmp_path: Path) -> None:
    off = [
        tall - sum(heights(one))
        for tall, one in zip(measured(tmp_path, questions()), questions(), strict=True)
    ]
    assert abs(mean(off)) < 3
    assert sum(abs(one) < 10 for one in off) > 0.9 * len(off)


def test_every_question_stands_once_and_the_first_first() -> None:
    wished = list(enumerate(questions()[:20]))
    order = by_pages(wished)
    assert sorted(order) == list(range(20))
    assert order[0] == 0
    assert max(place - at for at, place in enumerate(order)) <= 16


def test_pages_are_fuller_than_in_the_order_wished() -> None:
    wished = list(enumerate(questions()[:30]))
    assert pages(by_pages(wished)) < pages([place for place, _ in wished])


def pages(order: list[int]) -> int:
    """How many pages questions take that are kept whole."""
    count, used = 1, 44.0
    for place in order:
        tall = sum(heights(questions()[place])) + 8
        if used + tall > 252:
            count, used = count + 1, 0.0
        used += tall
    return count
