"""Whether a question prints the value it asks for."""

from __future__ import annotations

from collections.abc import Iterator

from drill.checking.report import Finding
from drill.generate.text.fill import names_in
from drill.model import Question, Template

_MAY = ("show that",)  # command words of questions that give the answer and ask for the way to it


def answers_are_not_given_away(template: Template, question: Question) -> Iterator[Finding]:
    """No {name} up to a part is the answer of that part."""
    if template.command_word in _MAY:
        return
    printed = names_in(template.stem)
    for spec, part in zip(template.parts, question.parts, strict=True):
        printed |= names_in(spec.ask)
        for one in (spec, *spec.cells.values()):
            name = one.answer.text.strip() if one.answer is not None else ""
            if name in printed:
                says = f"part {part.id} prints {{{name}}}, which is the answer it asks for."
                line = spec.lines.get("ask", spec.line)
                yield Finding(f"given {part.id} {name}", line, says, "Take it out of the text.")
