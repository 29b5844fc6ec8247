"""Questions for a class before a screen: one file, a page at a time, large, by keys or clicks.

Without its script every page is still there, one below the other, and every link leads on.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from typing import TYPE_CHECKING

from drill.documents.html import body
from drill.documents.larger_words import with_larger_words
from drill.documents.paper_document import SAFETY, asked_part, question_head
from drill.documents.scheme_document import answer_lines, guidance
from drill.documents.values import Block, Heading, Listing, Paragraph
from drill.plaintext import counted, escaped

if TYPE_CHECKING:
    from drill.app.board import Board
    from drill.app.papers.paper_rows import PaperQuestion

_LETTERS = 1.6  # of a drawing, in place of those on paper
_SCRIPT = """
const pages = [...document.querySelectorAll('section')];
const here = () => document.getElementById(location.hash.slice(1)) || pages[0];
const root = document.documentElement;
const fit = () => {
  root.style.fontSize = '';
  root.classList.remove('tight');
  const full = parseFloat(getComputedStyle(root).fontSize);
  const over = () => root.scrollHeight > innerHeight + 1;
  root.classList.toggle('tight', over());
  for (let size = 1; size > .6 && over();) {
    size -= .04;
    root.style.fontSize = `${full * size}px`;
  }
};
const show = () => {
  pages.forEach(page => page.classList.toggle('here', page === here()));
  here().focus({preventScroll: true});
  fit();
  scrollTo(0, 0);
};
root.classList.add('paged');
addEventListener('hashchange', show);
addEventListener('resize', fit);
show();
addEventListener('keydown', event => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const link = here().querySelector(`a[data-key="${CSS.escape(event.key)}"]`);
  if (link) { event.preventDefault(); location.hash = link.hash; }
});
"""

_STYLE = """
@page { size: A4 }
:root { font: clamp(22px, 2.7vw, 60px)/1.35 sans-serif; color: #111; background: #fff }
body, main { margin: 0 }
section { box-sizing: border-box; min-height: 100vh; padding: 1.2rem 2rem 2.6rem;
  display: flow-root; outline: 0; overflow-wrap: anywhere }
.paged section:not(.here) { display: none }
h1, h2, h3, h4 { font-size: 1.1rem; margin: 0 0 .3em; line-height: 1.2 }
p, ul, ol { margin: 0 0 .4em; max-width: 78ch; white-space: pre-line }
.quiet { font-size: .65rem; color: #444; max-width: none }
figure { float: right; width: 48%; margin: 0 0 .4em 1em }
svg { width: 100%; height: auto; max-height: 62vh }
.part { display: flex; gap: 1em; justify-content: space-between; align-items: end }
.marks { white-space: nowrap }
.options { list-style: none; padding: 0 }
.options li { padding-left: 1.3em; text-indent: -1.3em; break-inside: avoid }
.options strong { display: inline-block; width: 1.02em; text-indent: 0 }
.tight .options { columns: 2 14em }
.kept-together { white-space: nowrap }
sub, sup { line-height: 0; font-size: .7em }
nav { position: fixed; bottom: 0; left: 0; right: 0; padding: .4em 2rem; background: #fff;
  border-top: 2px solid #111; font-size: clamp(14px, 1.6vw, 36px);
  display: flex; gap: 1.4em; flex-wrap: wrap }
html:not(.paged) nav { position: static }
nav a { color: #111; padding: .2em 0 }
a:focus-visible { outline: 3px solid #111; outline-offset: 2px }
kbd { border: 1px solid #111; border-radius: 3px; padding: 0 .3em; font: inherit }
@media print { section { display: block !important; break-after: page; min-height: 0 }
  nav { display: none } :root { font-size: 16pt } }
"""


@dataclass(frozen=True)
class _Page:
    """A page with its anchor and the links at its foot: (key, how it is shown, name, anchor)."""

    id: str
    blocks: tuple[Block, ...]
    links: tuple[tuple[str, str, str, str], ...]


def write(board: Board) -> str:
    """The whole file as text; every text in it is escaped, and nothing is fetched."""
    digest = b64encode(sha256(_SCRIPT.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{digest}'"
    title = escaped(board.title)
    pages = "\n".join(map(_section, _pages(board)))
    return (
        '<!DOCTYPE html>\n<html lang="en-GB">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{title}</title>\n<style>{_STYLE}</style>\n</head>\n"
        f"<body>\n<main>\n{pages}\n</main>\n<script>{_SCRIPT}</script>\n</body>\n</html>\n"
    )


def _section(page: _Page) -> str:
    links = "".join(
        f'<a href="#{anchor}" data-key="{escaped(key)}" aria-keyshortcuts="{escaped(key)}">'
        f"<kbd>{escaped(sign)}</kbd> {escaped(name)}</a>"
        for key, sign, name, anchor in page.links
    )
    inner = body(page.blocks, notation=True)
    inner = inner.replace("h2>", "h1>", 2)  # the first heading: a page is seen by itself
    return f'<section id="{page.id}" tabindex="-1">\n{inner}\n<nav>{links}</nav>\n</section>'


def _pages(board: Board) -> Iterator[_Page]:
    shown = [("s", one) for one in board.starter] + [("q", one) for one in board.questions]
    names = [f"{kind}{question.number}" for kind, question in shown]
    yield _contents(board, names)
    for place, (kind, question) in enumerate(shown):
        before = names[place - 1] if place else "start"
        after = names[place + 1] if place + 1 < len(names) else "start"
        yield from _of_question(kind, question, before, after)


def _contents(board: Board, names: list[str]) -> _Page:
    marks = sum(question.marks for question in board.questions)
    blocks: list[Block] = [Heading(board.title)]
    first = names[0] if names else "start"
    links = [("ArrowRight", "→", "begin", first)]
    if board.starter:
        blocks.append(Paragraph(f"Starter: {counted(len(board.starter), 'question')}.", True))
        links.append(("q", "q", "to the questions", "q1"))
    told = f"{counted(len(board.questions), 'question')}, {counted(marks, 'mark')}."
    blocks.append(Paragraph(told))
    keys = ("→ or ← leads on or back.", "h: a hint. m: the mark scheme. w: the worked answer.")
    blocks += [Listing(keys), Paragraph(SAFETY, quiet=True)]
    return _Page("start", tuple(blocks), tuple(links))


def _of_question(kind: str, question: PaperQuestion, before: str, after: str) -> Iterator[_Page]:
    """The question, then hint, scheme and worked answer on pages of their own."""
    name = f"{kind}{question.number}"
    back = ("ArrowLeft", "←", "back to the question", name)
    hints = tuple(_lines(question, [[part.hint] for part in question.parts]))
    ways = [("m", "m", "mark scheme", f"{name}-m"), ("w", "w", "worked answer", f"{name}-w")]
    if hints:
        ways.insert(0, ("h", "h", "hint", f"{name}-h"))
    steps = (
        ("ArrowRight", "→", "next", after),
        ("ArrowLeft", "←", "before", before),
        ("Home", "Home", "start", "start"),
    )
    yield _Page(name, tuple(_question(kind, question)), (*ways, *steps))
    head = f"{_label(kind)} {question.number}"
    on = ("ArrowRight", "→", "next question", after)
    if hints:
        yield _Page(f"{name}-h", (Heading(f"{head}: hint"), *hints), (back, *ways[1:], on))
    told = _lines(question, [[*answer_lines(one), *guidance(one)] for one in question.parts])
    yield _Page(f"{name}-m", (Heading(f"{head}: mark scheme"), *told), (back, ways[-1], on))
    worked = _lines(
        question, [[one.asked.worked or one.asked.model_answer] for one in question.parts]
    )
    yield _Page(f"{name}-w", (Heading(f"{head}: worked answer"), *worked), (back, ways[-2], on))


def _label(kind: str) -> str:
    return "Starter" if kind == "s" else "Question"


def _question(kind: str, question: PaperQuestion) -> Iterator[Block]:
    yield Heading(f"{_label(kind)} {question.number}: {question.title}")
    for block in list(question_head(question, set()))[1:]:
        yield with_larger_words(block, _LETTERS)
    for part in question.parts:
        yield from asked_part(question, part)


def _lines(question: PaperQuestion, texts: list[list[str]]) -> Iterator[Block]:
    """What is said of each part, with its letter where there are several."""
    for part, lines in zip(question.parts, texts, strict=True):
        said = "\n".join(filter(None, lines))
        letter = f"({part.asked.id}) " if len(question.parts) > 1 else ""
        if said:
            yield Paragraph(letter + said)
