"""Papers and schemes say what the screen says, and every block has a place in every writer."""

from __future__ import annotations

import re
import sys
from datetime import UTC, datetime
from functools import cache

import pytest

from drill.app.ask import as_row, question_of
from drill.app.context import find_deck, open_bank
from drill.app.papers.assembly import PaperWish, assemble_versions
from drill.app.papers.paper_rows import paper_questions
from drill.app.papers.paper_sheet import PaperSheet, code_of, columns, sheet
from drill.bank import Bank
from drill.documents import html, paper_document, scheme_document, terminal, typeset
from drill.documents.larger_words import with_larger_words
from drill.documents.notation import runs
from drill.documents.values import (
    AnswerLines,
    Boxes,
    Document,
    Figure,
    FinalAnswer,
    Form,
    Grid,
    Heading,
    Kept,
    PageBreak,
    Paragraph,
    Part,
    Table,
    Working,
)
from drill.errors import DrillError
from drill.model import LevelsKey, TableKey
from tests.common.shipped import shipped_bank

NOW = datetime(2027, 7, 1, 12, tzinfo=UTC)


@cache
def bank() -> Bank:
    return shipped_bank()


def folded(text: str) -> str:
    return re.sub(r"\W+", " ", text)


def sheet_of(templates: list[str], seed: int) -> PaperSheet:
    questions = [question_of(bank(), one, seed) for one in templates]
    rows = paper_questions(bank(), questions)
    marks = sum(one.marks for one in questions)
    return PaperSheet(code_of(questions), "d", "T", "", seed, "A", marks, "", "", rows)


def some_templates() -> list[str]:
    """Every eighth of the bank, and one of each kind of part."""
    entries = bank().entries()
    kinds = {kind: entry.id for entry in entries for kind in entry.kinds}
    return sorted({entry.id for entry in entries[::8]} | set(kinds.values()))


@pytest.mark.parametrize("seed", [3, 11])
def test_paper_and_scheme_say_what_the_screen_says(seed: int) -> None:
    templates = some_templates()
    assert len(templates) > 30
    made = sheet_of(templates, seed)
    paper = folded(terminal.write(paper_document.document([made]), width=4000))
    scheme = folded(terminal.write(scheme_document.document([made]), 4000, plain=True))
    for template in templates:
        asked = as_row(question_of(bank(), template, seed))
        assert folded(asked.text) in paper
        assert folded(asked.picture or "").strip() in paper, template
        for part in asked.parts:
            says = re.sub(r"\s*Type .*?\.(?=\s|$)", "", part.ask)
            for sentence in re.split(r"(?<=[.?!])\s+|\n", says):  # a drawing may stand between two
                assert folded(sentence).strip() in paper, template
            for one in (*(part.options or ()), *(part.steps or ())):
                assert folded(f"{one.letter} {one.text}") in paper, template
            assert _model(part.model_answer, part.options) in scheme, template
            for slip in part.slips:
                assert folded(f"{slip.value} {slip.earns} mark") in scheme, template
                assert folded(slip.says).strip() in scheme, template
            if part.kind == "written":
                assert all(folded(point.says).strip() in scheme for point in part.points)
        for part in question_of(bank(), template, seed).parts:
            if isinstance(part.key, LevelsKey):
                assert all(folded(says).strip() in scheme for _, says in part.key.levels)
            if isinstance(part.key, TableKey):
                for name, cell in part.key.cells.items():
                    assert folded(f"{name} {cell.unit}").strip() in paper, (template, name)


@pytest.mark.parametrize("seed", [3])
def test_a_part_has_on_paper_the_letter_that_the_screen_gives_it(seed: int) -> None:
    for template in some_templates():
        made = sheet_of([template], seed)
        paper = folded(terminal.write(paper_document.document([made]), width=4000))
        parts = as_row(question_of(bank(), template, seed)).parts
        if len(parts) > 1:
            asked = [f" {part.id} {' '.join(folded(part.ask).split()[:4])} " for part in parts[1:]]
            places = [paper.find(one) for one in asked]
            assert -1 not in places, (template, asked)
            assert places == sorted(places), (template, asked)


def _model(answer: str, options: object) -> str:
    return folded(answer.split(",")[0] if options else answer).strip()


def test_every_kind_of_part_is_held_against_the_screen() -> None:
    kinds = {kind for entry in bank().entries() for kind in entry.kinds}
    asked = [question_of(bank(), one, 3) for one in some_templates()]
    assert {part.kind for question in asked for part in question.parts} == kinds


def test_what_introduces_a_drawing_stands_before_it() -> None:
    made = sheet_of(["safety/what-the-symbol-means", "salts/label-the-parts"], 3)
    text = terminal.write(paper_document.document([made]), width=4000)
    first, second = made.questions
    for before, drawn, after in (
        ("hazard symbol of the drawing.", first.picture, "Identify what it warns of"),
        ("Crystals of a salt are being made.", second.picture, "Label the set-up"),
    ):
        places = [folded(text).index(folded(one).strip()) for one in (before, drawn, after)]
        assert places == sorted(places)


def test_a_scheme_quotes_no_answer_that_gave_up_and_none_misspelt() -> None:
    made = sheet_of(["salts/what-is-seen", "salts/why-excess", "salts/why-water-bath"], 3)
    told = [one for q in made.questions for part in q.parts for one in part.reject]
    kept = [one for q in made.questions for part in q.parts for _, one in part.accept]
    assert len(kept) >= 3
    words = set(re.findall(r"[a-z]+", " ".join(told + kept).casefold()))
    assert not words & {"dont", "cant", "wont", "idk", "dunno", "sure"}


def test_a_page_and_a_screen_hold_the_same_words() -> None:
    document = paper_document.document([sheet_of(some_templates()[::4], 5)])
    screen = set(folded(terminal.write(document, width=4000)).split())
    page = html.write(document)
    page = re.sub(r"<svg.*?</svg>|<style.*?</style>", " ", page, flags=re.DOTALL)
    page = re.sub(r"</?(?:su[bp]|span)[^>]*>", "", page)
    words = set(folded(re.sub(r"<[^>]+>", " ", page)).split())
    assert {word for word in words if word.isalpha()} - screen - {"DOCTYPE", "html"} == set()


def test_the_number_of_parts_and_their_marks_are_the_columns_of_the_marks_sheet() -> None:
    made = sheet_of(["salts/percentage-yield", "salts/why-excess"], 7)
    assert columns(made.questions) == (("1a", 1), ("1b", 4), ("2", 2))


def test_a_code_stands_for_questions_with_their_numbers() -> None:
    one = question_of(bank(), "salts/percentage-yield", 7)
    other = question_of(bank(), "salts/percentage-yield", 8)
    assert code_of([one]) == code_of([one])
    assert code_of([one]) != code_of([other])
    assert len(code_of([one])) == 6


def test_a_table_typed_as_text_is_set_as_a_table() -> None:
    made = sheet_of(["salts/which-run-was-fastest"], 3)
    head = list(paper_document.question_head(made.questions[0], set()))
    (table,) = (block for block in head if isinstance(block, Table))
    assert table.head == ("run", "acid in °C", "solid", "stirred", "time in s")
    assert len(table.rows) == 4
    assert not any(" | " in block.text for block in head if isinstance(block, Paragraph))


def test_a_table_in_what_is_asked_stands_between_its_words_with_room_to_fill_in() -> None:
    made = sheet_of(["investigating/complete-the-changes"], 3)
    blocks = list(paper_document.asked_part(made.questions[0], made.questions[0].parts[0]))
    assert [type(one) for one in blocks] == [Part, Table, Paragraph]
    table = blocks[1]
    assert isinstance(table, Table)
    assert {row[-1].strip("\N{NO-BREAK SPACE}") for row in table.rows} == {""}
    assert "_" not in "".join(cell for row in table.rows for cell in row)


def test_a_scheme_says_how_marks_are_lost_in_orders_and_ticks() -> None:
    made = sheet_of(["salts/order-crystals", "water/fair-comparison"], 3)
    text = terminal.write(scheme_document.document([made]), 400)
    assert "1 mark less for each step that has to be moved." in text
    assert "1 less for each wrong tick beyond the number asked for." in text


def test_a_later_part_says_from_which_part_it_is_carried_forward() -> None:
    text = terminal.write(scheme_document.document([sheet_of(["salts/percentage-yield"], 7)]), 200)
    assert "Carried forward from (a)" in text
    assert "56.68 g: 0 marks." in text


def test_samples_of_other_numbers_are_not_told_as_accepted() -> None:
    made = sheet_of(["salts/why-excess"], 7)
    (part,) = made.questions[0].parts
    assert part.accept
    asked = part.asked.ask + part.asked.model_answer
    foreign = {"copper", "magnesium", "hydrochloric", "nitric", "carbonate"} - set(asked.split())
    assert not any(word in wording for _, wording in part.accept for word in foreign)


def test_safety_is_told_once_on_a_paper() -> None:
    made = sheet_of(["safety/name-the-symbol", "safety/name-the-drawn-symbol"], 2)
    text = terminal.write(paper_document.document([made]))
    safety = made.questions[0].safety
    assert safety == made.questions[1].safety
    assert folded(text).count(folded(f"Safety: {safety}").strip()) == 1


# ------------------------------------------------------------------ notation


def shown(text: str) -> str:
    signs = {"": "{}", "sup": "^{}", "sub": "_{}"}
    return "".join(signs[run.place].format(run.text) for run in runs(text))


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("37.0 cm3 of 0.90 mol/dm3", "37.0\u00a0cm^3 of 0.90\u00a0mol/dm^3"),
        ("CuO(s) + H2SO4(aq) -> CuSO4(aq)", "CuO(s) + H_2SO_4(aq) → CuSO_4(aq)"),
        ("CuSO4.5H2O 249.5.", "CuSO_4·5H_2O 249.5."),
        ("Cu2+ SO4(2-) Mg^2+, NO3- SO42-", "Cu^2+ SO_4^2− Mg^2+, NO_3^− SO_4^2−"),
        ("Al2(SO4)3. (2 marks) [3]", "Al_2(SO_4)_3. (2 marks) [3]"),
        ("Rf of P, A4 paper, copper(II)", "R_f of P, A4 paper, copper(II)"),
        ("2.5 x 10^-4, x2 and K07", "2.5 x 10^−4, x_2 and K07"),
        ("2Br- -> Br2 + 2e-, and e-.", "2Br^− → Br_2 + 2e^−, and e^−."),
        ("HCl, pH 7, NaCl, U-tube, propan-1-ol", "HCl, pH 7, NaCl, U-tube, propan-1-ol"),
    ],
)
def test_notation_is_set_as_a_printed_page_sets_it(typed: str, printed: str) -> None:
    assert shown(typed) == printed


def test_notation_loses_nothing_of_what_the_bank_prints() -> None:
    for template in some_templates():
        for part in as_row(question_of(bank(), template, 4)).parts:
            plain = "".join(run.text for run in runs(part.ask))
            assert re.sub(r"[^A-Za-z0-9]", "", plain) == re.sub(r"[^A-Za-z0-9]", "", part.ask)


# ------------------------------------------------------------------ writers

ROOM = Document(
    "Room",
    (
        Form((("Name", ""), ("Class", "9 <b>"))),
        Part("a", "Choose H2O.", 1, (("A", "one"), ("B", "two")), tick="Tick one box."),
        Kept((Paragraph("kept"), Kept((Working(2), FinalAnswer("Answer", "cm3"))))),
        FinalAnswer("Answer", "", unit_asked=True),
        Boxes(4),
        Grid(5, 3),
        AnswerLines(2),
        PageBreak(numbered_anew=True),
        Paragraph("#evil[*text*] $x$ \\ // </script>"),
    ),
    foot="seed 7",
    notation=True,
)


def test_room_to_answer_is_written_by_every_writer() -> None:
    page = html.write(ROOM)
    assert "Choose H<sub>2</sub>O" in page or "<sub>2</sub>" in page
    assert page.count('class="box"') == 6
    assert "9 &lt;b&gt;" in page
    assert "<script" not in page
    screen = terminal.write(ROOM)
    assert "[ ] A" in screen
    assert "Answer ________________________ cm3" in screen
    assert "[  ] [  ] [  ] [  ]" in screen
    plain = terminal.write(ROOM, plain=True)
    assert "____" not in plain.replace("_" * 24, "").replace("_" * 8, "")
    pages = typeset.pictures(ROOM, 30)
    assert len(pages) == 2


def test_text_is_data_to_the_typesetter() -> None:
    """What looks like its language is printed, not obeyed: no fault, one page, a PDF."""
    hostile = '#read("/etc/passwd") #panic() $a$ *b* _c_ <label> @ref \\ `x` // /* \u202e \x00'
    document = Document(hostile, (Paragraph(hostile), Part("a", hostile, 1)), notation=True)
    assert typeset.write(document).startswith(b"%PDF")
    assert len(typeset.pictures(document, 20)) == 1


def test_a_paper_with_its_scheme_is_a_pdf_and_the_same_each_time() -> None:
    deck = find_deck("first-steps")
    made = assemble_versions(bank(), deck, PaperWish(20, 1), ("A",), NOW)
    paper = sheet(open_bank(), deck, made[0])
    pdf = typeset.write(paper_document.document([paper]))
    assert pdf.startswith(b"%PDF")
    assert pdf == typeset.write(paper_document.document([paper]))
    assert len(typeset.pictures(paper_document.document([paper], large=True), 20)) > len(
        typeset.pictures(paper_document.document([paper]), 20)
    )


def test_without_the_typesetter_it_is_said_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(DrillError, match=r"drill\[paper\].*--format html,text"):
        typeset.write(ROOM)


def test_drawings_of_large_print_and_of_the_board_have_larger_letters() -> None:
    drawn = Figure("words", '<svg><text font-size="3.2">A</text><path stroke-width="0.4"/></svg>')
    (kept,) = Kept((with_larger_words(Kept((drawn, Paragraph("x"))), 1.5),)).blocks
    assert isinstance(kept, Kept)
    figure, text = kept.blocks
    assert isinstance(figure, Figure)
    assert figure.vectors == drawn.vectors.replace("3.2", "4.80")
    assert text == Paragraph("x")


def test_headings_of_one_level_look_alike_on_a_page() -> None:
    levels = (3, 3, 2, 3, 3, 5, 2)
    page = html.body(tuple(Heading(str(at), level) for at, level in enumerate(levels)))
    assert re.findall(r"<h(\d)", page) == ["2", "2", "2", "3", "3", "4", "2"]


def test_each_pupils_paper_has_the_title_of_the_deck_and_its_code() -> None:
    sheets = [sheet_of(["salts/why-excess"], seed) for seed in (3, 4)]
    text = terminal.write(paper_document.document(sheets), width=80)
    assert f"{sheets[1].title}: paper {sheets[1].code}" in text
