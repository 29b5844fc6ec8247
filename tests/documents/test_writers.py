"""The same document on a screen, for a screen reader and as a page; hostile text stays text."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drill.documents import WRITERS, html, terminal, writer
from drill.documents.values import (
    AnswerLines,
    Bar,
    Chart,
    Document,
    Figure,
    Heading,
    Labelled,
    Listing,
    PageBreak,
    Paragraph,
    Part,
    Table,
)

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 4"><path d="M0 0L4 4"/></svg>'
WHOLE = Document(
    "Titration, second lesson",
    (
        Heading("What was asked"),
        Paragraph("Hydrochloric acid was added from a burette until the indicator changed colour."),
        Part("a", "Calculate the mean titre from the concordant results.", 2),
        AnswerLines(1),
        Part("", "Which of these is read at the bottom of the meniscus, at the height of the eye?",
             1, (("A", "a burette"), ("B", "a balance"))),
        Heading("What was found", 3),
        Table(("reading", "cm3"), (("first", "24.10"), ("second", "24.20")), "Two titres"),
        Figure("A burette read at 24.10 cm3.", SVG, ("⠈⠉", "⠒⠤"), "Figure 1"),
        Chart("Share of marks on the day", (Bar("10 min a day", 0.38, 0.12, 0.5), Bar("none", 0))),
        Labelled((("12 March", "typed 24.1"), ("13 March", ("typed 24.15 and then, after a while, "
                                                           "24.2 with its unit")))),
        Listing(("rinse", "fill"), numbered=True),
        Listing(("goggles",)),
        PageBreak(),
        Paragraph("End.", quiet=True),
    ),
)  # fmt: skip

SCREEN = """\
Titration, second lesson
────────────────────────────────────────────────────────────────────────────────
What was asked

Hydrochloric acid was added from a burette until the indicator changed colour.

(a) Calculate the mean titre from the concordant results.              [2 marks]

________________________________________________________________________________

Which of these is read at the bottom of the meniscus, at the height of the eye?
                                                                        [1 mark]
  A   a burette
  B   a balance

What was found
  reading  cm3
  first    24.10
  second   24.20

⠈⠉
⠒⠤
Figure 1

Share of marks on the day
                      0     25      50     75     100
  10 min a day  38 %  ····───────●────···············  12 % to 50 %
  none          0 %   ●······························

  12 March    typed 24.1
  13 March    typed 24.15 and then, after a while, 24.2 with its unit

  1. rinse
  2. fill

  - goggles

────────────────────────────────────────────────────────────────────────────────

End.
"""

PLAIN = """\
Titration, second lesson
What was asked

Hydrochloric acid was added from a burette until the indicator changed colour.

(a) Calculate the mean titre from the concordant results.  [2 marks]


Which of these is read at the bottom of the meniscus, at the height of the eye?
[1 mark]
A: a burette
B: a balance

What was found
reading first, cm3 24.10
reading second, cm3 24.20

A burette read at 24.10 cm3.
Figure 1

Share of marks on the day
10 min a day: 38 %, 12 % to 50 %
none: 0 %

12 March: typed 24.1
13 March: typed 24.15 and then, after a while, 24.2 with its unit

  1. rinse
  2. fill

  - goggles


End.
"""


def test_a_document_on_a_screen_of_eighty_columns() -> None:
    assert terminal.write(WHOLE) == SCREEN


def test_a_document_for_a_screen_reader_is_words_only() -> None:
    assert terminal.write(WHOLE, plain=True) == PLAIN


@pytest.mark.parametrize("width", [30, 50, 100])
def test_no_line_is_wider_than_the_screen(width: int) -> None:
    assert max(map(len, terminal.write(WHOLE, width).splitlines())) <= width


def test_colour_is_left_out_unless_it_is_wanted() -> None:
    assert "\x1b" not in terminal.write(WHOLE)
    assert "\x1b[1m" in terminal.write(WHOLE, colour=True)


class Page(HTMLParser):
    """Elements as (name, attributes), text, and whether each was closed in order."""

    VOID = ("meta", "hr", "path", "circle")

    def __init__(self, text: str) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.text, self.open = "", []
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag, attrs) -> None:
        self.elements.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs) -> None:
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag) -> None:
        if tag not in self.VOID:
            assert self.open.pop() == tag

    def handle_data(self, data) -> None:
        self.text += data

    def named(self, name: str) -> list[dict[str, str | None]]:
        return [attributes for tag, attributes in self.elements if tag == name]


def test_a_page_says_its_language_its_headings_in_order_and_what_each_head_is_for() -> None:
    page = Page(html.write(WHOLE))
    assert page.named("html") == [{"lang": "en-GB"}]
    assert [tag for tag, _ in page.elements if tag in ("h1", "h2", "h3")] == ["h1", "h2", "h3"]
    scopes = [one["scope"] for one in page.named("th")]
    assert scopes == ["col", "col", "row", "row"]
    assert len(page.named("caption")) == 1
    assert "@page { size: A4" in page.text


def test_a_heading_never_skips_a_level() -> None:
    page = Page(html.write(Document("T", (Heading("deep", 5), Heading("deeper", 6)))))
    assert [tag for tag, _ in page.elements if tag[0] == "h" and tag[1:].isdigit()] == [
        "h1", "h2", "h3",
    ]  # fmt: skip


def test_every_drawing_of_a_page_is_told_in_words() -> None:
    page = Page(html.write(WHOLE))
    assert [one["role"] for one in page.named("svg")] == ["img", "img"]
    picture, chart = page.named("svg")
    assert picture["aria-label"] == "A burette read at 24.10 cm3."
    assert "aria-label" not in chart
    assert len(page.named("title")) == 2  # the page's, the chart's
    assert "10 min a day: 38 %, from 12 % to 50 %" in page.text


def test_a_head_that_says_nothing_heads_nothing() -> None:
    page = Page(html.write(Document("t", (Table(("", "cm3"), (("", "1"), ("first", "2"))),))))
    assert [one["scope"] for one in page.named("th")] == ["col", "row"]
    assert len(page.named("td")) == 4


HOSTILE = (
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "</style></title><script src=//e.example/x.js>",
    "\x1b[2J\x1b]0;gone\x07",
    "a\x00b\u202egnp.exe",
    "[bold]not bold[/bold] :smile:",
    "&lt;b&gt; \" ' onload=",
    "x" * 50_000,
)


def everywhere(text: str) -> Document:
    """A document with the text in every place where one can stand."""
    return Document(
        text,
        (
            Heading(text),
            Paragraph(text, strong=True),
            Labelled(((text, text),)),
            Listing((text,)),
            Table((text, text), ((text, text),), text),
            Figure(text, SVG, (text[:20],), text),
            Figure(text, text),
            Chart(text, (Bar(text, 0.5),)),
            Part(text, text, 1, ((text, text),)),
        ),
        text,
    )


def held(page: Page) -> None:
    names = {tag for tag, _ in page.elements}
    assert not names & {"script", "img", "iframe", "object", "embed", "link", "b", "form", "a"}
    for _, attributes in page.elements:
        assert not [one for one in attributes if one.startswith("on") or one in ("src", "href")]


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: repr(text[:12]))
def test_hostile_text_is_shown_and_never_obeyed(text: str) -> None:
    page = html.write(everywhere(text))
    held(Page(page))
    for shown in (
        page,
        terminal.write(everywhere(text)),
        terminal.write(everywhere(text), plain=True),
    ):
        assert not set(shown) & {"\x1b", "\x00", "\x07", "\u202e"}
    if "bold" in text:
        assert "[bold]not bold[/bold] :smile:" in terminal.write(everywhere(text))


@given(st.text(max_size=60))
def test_any_text_can_be_written(text: str) -> None:
    held(Page(html.write(everywhere(text))))
    assert "\x1b" not in terminal.write(everywhere(text), plain=True)


ACTS = (
    '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(1)</script></svg>',
    (
        '<svg xmlns="http://www.w3.org/2000/svg"><image href="http://e.example/x.png"/>'
        '<a href="javascript:alert(1)"><path d="M0 0"/></a></svg>'
    ),
    (
        '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0" fill="url(http://e.example/x)" '
        'style="background:url(//e.example)"/><foreignObject><b>x</b></foreignObject></svg>'
    ),
    '<!DOCTYPE svg [<!ENTITY a "aaaa">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>',
    "<svg",
    "<html/>",
)


@pytest.mark.parametrize("vectors", ACTS)
def test_vectors_that_act_are_left_out_and_the_words_stay(vectors: str) -> None:
    page = html.write(Document("T", (Figure("A burette.", vectors),)))
    held(Page(page))
    assert "e.example" not in page
    assert "alert" not in page
    assert "A burette." in page


def test_shipped_drawings_pass_whole() -> None:
    from drill.app.ask import question_of
    from drill.app.context import open_bank
    from drill.documents.safe_svg import safe_svg
    from drill.drawings import graph_as_svg, scale_as_svg

    scale = question_of(open_bank(), "measure/read-burette", 0).scale
    assert scale is not None
    graphed = next(
        question for entry in open_bank().entries() if entry.ok
        if (question := question_of(open_bank(), entry.id, 0)).graph is not None
    )  # fmt: skip
    for vectors in (scale_as_svg(scale), graph_as_svg(graphed.graph)):
        kept = safe_svg(vectors, "words")
        for shape in (
            "<path",
            "<line",
            "<rect",
            "<text",
            "<circle",
            "<polyline",
            " d=",
            "transform=",
        ):
            assert kept.count(shape) == vectors.count(shape), shape


def test_a_document_can_be_written_as_every_kind_there_is() -> None:
    assert "html" in WRITERS
    for name in WRITERS:
        assert "Titration, second lesson" in writer(name)(WHOLE)
