"""Checks every text a student may see for faults that filling in values can leave."""

from __future__ import annotations

import re
from collections.abc import Iterator

from drill.checking.report import Finding
from drill.generate import article
from drill.model import (
    ChoiceKey,
    Key,
    LevelsKey,
    NameKey,
    NumberKey,
    OrderKey,
    PartSpec,
    Question,
    TableKey,
    Template,
)

_ARTICLE = re.compile(r"(?<![\w'’-])([Aa]n?) ([a-z]{2,}|\d[\d.]*)")
# "a or b" names two letters, and is no article
_AFTER_A_LETTER = ("or", "and", "is", "in", "are", "to", "of", "as", "at", "if", "on", "only")
_NOTHING = re.compile(r"(?<=[\w,;(] )None\b")  # "None is left." begins a sentence
_SPACE = re.compile(r" [,.;:!?](?:\s|$)")


def texts_are_clean(template: Template, question: Question) -> Iterator[Finding]:
    """No brace left over, no double space, no "a apple"."""
    braces = "{{" in template.text or "}}" in template.text
    for where, line, text in texts_of(template, question):
        for fault in text_faults(text, braces):
            says = f"{where} has {fault}."
            yield Finding(f"text {where}", line, says, "Look at the text and at what fills it.")


def text_faults(text: str, braces: bool = False) -> Iterator[str]:
    """What is wrong with a filled text, in words; `braces` allows braces the author wanted."""
    if not braces and ("{" in text or "}" in text):
        yield f'a brace: "{_near(text, text.find("{" if "{" in text else "}"))}"'
    if "  " in text:
        yield f'two spaces together: "{_near(text, text.find("  "))}"'
    if found := _NOTHING.search(text):
        yield f'a value that is not there: "{_near(text, found.start())}"'
    if found := _SPACE.search(text):
        yield f'a space before a stop: "{_near(text, found.start())}"'
    for match in _ARTICLE.finditer(text):
        said, word = match[1].lower(), match[2]
        if word not in _AFTER_A_LETTER and said != article(word):
            yield f'the wrong article: "{match[0]}"'


def texts_of(template: Template, question: Question) -> Iterator[tuple[str, int, str]]:
    """Where it stands, the author's line, the text."""
    lines = template.lines
    yield "the title", lines.get("title", 0), question.title
    yield "the stem", lines.get("stem", 0), question.text
    yield "the safety line", lines.get("safety", 0), question.safety
    for spec, part in zip(template.parts, question.parts, strict=True):
        for what, key, text in (
            ("question", "ask", part.ask),
            ("hint", "hint", part.hint),
            ("worked answer", "worked", part.worked),
        ):
            yield f"the {what} of part {part.id}", spec.lines.get(key, spec.line), text
        for point in part.points:
            yield f"the mark scheme of part {part.id}", spec.line, point.says
        for what, line, text in _of_key(spec, part.key):
            yield f"{what} of part {part.id}", line, text


def _of_key(spec: PartSpec, key: Key) -> Iterator[tuple[str, int, str]]:
    """What it is, the author's line, the text."""
    line = spec.line
    if isinstance(key, NumberKey):
        lines = {slip.id: slip.line for slip in spec.slips}
        yield from (("a slip", lines.get(slip.id, line), slip.says) for slip in key.slips)
    elif isinstance(key, TableKey):
        for name, cell in key.cells.items():
            yield from _of_key(spec.cells[name], cell)
    elif isinstance(key, ChoiceKey):
        for option in key.options:
            yield from (("an option", line, text) for text in (option.text, option.says))
    elif isinstance(key, OrderKey):
        yield from (("a step", line, text) for _, text in key.steps)
        yield from (("a reason", line, why) for why in key.why.values())
    elif isinstance(key, NameKey):
        yield from (("a look-alike", line, why) for why in key.look_alikes.values())
    elif isinstance(key, LevelsKey):
        yield from (("a level", line, says) for _, says in key.levels)


def _near(text: str, at: int) -> str:
    return text[max(0, at - 15) : at + 15].replace("\n", " ")
