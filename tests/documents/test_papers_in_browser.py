"""Papers and the board in a real browser: no message, nothing fetched, accessible, keys lead on.

Needs Chromium; `.ci/run` installs it where it is missing.
"""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import pytest

from drill.app.board import board
from drill.app.context import find_deck, open_bank, open_store
from drill.app.papers.assembly import PaperWish, assemble
from drill.app.papers.paper_sheet import sheet
from drill.documents import board as board_page
from drill.documents import html, paper_document, scheme_document
from tests.documents import test_in_browser as browser
from tests.documents.test_in_browser import asked_of

NOW = datetime(2027, 7, 1, 12, tzinfo=UTC)
pytestmark = browser.pytestmark


@cache
def written(kind: str) -> str:
    deck = find_deck("spring-practicals")
    if kind == "board":
        with open_store() as store:
            return board_page.write(board(store, open_bank(), deck, 20, 3, NOW))
    made = assemble(open_bank(), deck, PaperWish(30, 3), NOW)
    sheets = [sheet(open_bank(), deck, made)]
    document = paper_document if kind == "paper" else scheme_document
    return html.write(document.document(sheets))


@pytest.fixture(params=["paper", "scheme", "board"])
def page(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    path = tmp_path / f"{request.param}.html"
    path.write_text(written(request.param), encoding="utf-8")
    return path


def test_a_page_fetches_nothing_and_passes_the_accessibility_rules(page: Path) -> None:
    browser.test_the_page_fetches_nothing_and_passes_the_accessibility_rules(page)


def test_a_page_prints_on_a4_and_says_nothing_to_the_console(page: Path) -> None:
    browser.test_the_page_prints_on_a4_and_says_nothing_to_the_console(page)


def test_every_page_of_the_board_is_seen_whole(tmp_path: Path) -> None:
    """On a small screen too: nothing lies below its edge, and no text gets too small to read."""
    path = tmp_path / "board.html"
    path.write_text(written("board"), encoding="utf-8")
    script = """
      const root = document.documentElement;
      const pages = [...document.querySelectorAll('section')].map(one => one.id);
      const told = [];
      const next = () => {
        const id = pages[told.length];
        if (!id) return shown([innerWidth, told]);
        location.hash = '#' + id;
        setTimeout(() => {
          const over = root.scrollHeight - innerHeight;
          told.push([id, over > 1, parseFloat(getComputedStyle(root).fontSize)]);
          next();
        }, 20);
      };
      next();
    """
    wide, pages = asked_of(path, script)
    assert len(pages) > 40
    assert [id_ for id_, over, _ in pages if over] == []
    assert min(size for *_, size in pages) > 0.016 * wide


def test_keys_lead_through_the_board(tmp_path: Path) -> None:
    path = tmp_path / "board.html"
    path.write_text(written("board"), encoding="utf-8")
    script = """
      const press = key => dispatchEvent(new KeyboardEvent('keydown', {key}));
      const told = [];
      const next = keys => {
        const shown = document.querySelectorAll('section.here');
        told.push([shown.length, shown[0].id]);
        if (!keys.length) return window.shown_by_test(told);
        press(keys[0]);
        setTimeout(() => next(keys.slice(1)), 50);
      };
      window.shown_by_test = shown;
      next(['ArrowRight', 'm', 'ArrowLeft', 'w', 'ArrowRight', 'Home', 'x']);
    """
    places = ["start", "s1", "s1-m", "s1", "s1-w", "s2", "start", "start"]
    assert asked_of(path, script) == [[1, place] for place in places]
