"""`drill board`: one file, every page reached by its links, nothing fetched, nothing obeyed."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drill.app.board import board
from drill.app.context import find_deck, open_bank, open_store
from drill.documents.board import write
from drill.frozen import replace
from tests.common.desk import drill

NOW = datetime(2027, 7, 1, 12, tzinfo=UTC)


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.chdir(tmp_path)
    result = drill("board", "first-steps", "--out", "board.html")
    assert result.exit_code == 0, result.output
    return Path("board.html").read_text("utf-8")


def sections(page: str) -> dict[str, str]:
    return dict(re.findall(r'<section id="([^"]+)".*?>(.*?)</section>', page, re.DOTALL))


def test_every_link_leads_to_a_page_and_every_page_is_reached(page: str) -> None:
    pages = sections(page)
    links = {name: set(re.findall(r'href="#([^"]+)"', inner)) for name, inner in pages.items()}
    reached, waiting = set(), {"start"}
    while waiting:
        reached |= waiting
        waiting = set().union(*(links[one] for one in waiting)) - reached
    assert reached == set(pages)
    assert len(pages) > 30


def test_each_question_has_scheme_and_worked_answer_by_key(page: str) -> None:
    pages = sections(page)
    questions = [name for name in pages if re.fullmatch(r"[sq]\d+", name)]
    assert sum(name.startswith("s") for name in questions) == 5
    for name in questions:
        found = re.findall(r'href="#([^"]+)" data-key="([^"]+)"', pages[name])
        keys = {key: anchor for anchor, key in found}
        assert (keys["m"], keys["w"]) == (f"{name}-m", f"{name}-w")
        assert {"ArrowRight", "ArrowLeft", "Home"} <= keys.keys()
        assert "mark scheme" in pages[f"{name}-m"]
        assert len(pages[f"{name}-w"]) > 100


def test_nothing_is_fetched_and_only_its_own_script_runs(page: str) -> None:
    assert "http" not in page.replace("http://www.w3.org/2000/svg", "").replace("http-equiv", "")
    assert page.count("<script") == 1
    assert re.search(r"script-src 'sha256-[\w+/=]+'", page)
    assert not re.search(r"\son\w+=", page)


def test_a_hostile_title_is_shown_and_not_obeyed() -> None:
    deck = find_deck("first-steps")
    with open_store() as store:
        made = board(store, open_bank(), deck, 10, 1, NOW)
    text = write(replace(made, title="<script>alert(1)</script>"))
    assert "<script>alert" not in text


def test_a_starter_is_of_what_was_taught_weeks_ago() -> None:
    deck = find_deck("spring-practicals")
    with open_store() as store:
        made = board(store, open_bank(), deck, 10, 1, datetime(2027, 3, 9, tzinfo=UTC))
    practicals = {question.template.split("/")[0] for question in made.starter}
    assert len(made.starter) == 5
    assert max(question.marks for question in made.starter) <= 2
    assert "rates" not in practicals  # its lesson was yesterday
    shown = {question.template for question in made.questions}
    assert not shown & {question.template for question in made.starter}
