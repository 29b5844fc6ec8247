"""Old seeds give the questions they gave: the golden file decides, and notices every change."""

from __future__ import annotations

from hashlib import sha256

import pytest

from drill.generate.draws import draw_kinds as draws
from drill.generate.draws import stream
from drill.generate.keys import part_keys as keys
from drill.generate.text import fill
from drill.generate.text.articles import article
from tests.generate.golden import FILE, as_text


def test_every_seed_gives_the_question_it_always_gave():
    assert as_text() == FILE.read_text("utf-8"), (
        "Questions changed: learners' old answers would be shown beside other numbers. "
        "If that is meant, raise ENGINE and run python -m tests.generate.golden."
    )


def other_choose(seed: int, name: str, n: int) -> int:
    """The stream with its pieces joined by another character."""
    return int.from_bytes(sha256(f"{seed}:{name}:0".encode()).digest(), "big") % n


@pytest.mark.parametrize("module", [stream, draws])
def test_another_stream_would_be_noticed(monkeypatch, module):
    monkeypatch.setattr(module, "choose", other_choose)
    assert as_text() != FILE.read_text("utf-8")


def test_another_shuffle_would_be_noticed(monkeypatch):
    monkeypatch.setattr(keys, "shuffled", lambda seed, name, items: tuple(reversed(items)))
    assert as_text() != FILE.read_text("utf-8")


def test_another_way_to_fill_would_be_noticed(monkeypatch):
    monkeypatch.setattr(fill, "article", lambda text: article(text).upper())
    assert as_text() != FILE.read_text("utf-8")


def test_another_way_to_show_numbers_would_be_noticed(monkeypatch):
    from drill.generate.keys import number_keys as numbers

    monkeypatch.setattr(numbers, "show_figures", lambda value, figures: f"{float(value):.3g}")
    assert as_text() != FILE.read_text("utf-8")
