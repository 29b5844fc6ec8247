"""Compares every number of a question with the second judge, and with sympy on a few seeds."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from drill.checking.report import Finding
from drill.generate import PEOPLE
from drill.judge import Case, Doubt, doubts, never_met, proof_doubts
from drill.model import Question, Template

PROVED = 5  # seeds of each template whose algebra sympy looks at; the judge looks at all


def judged(template: Template, question: Question, folder: Path) -> Iterator[Finding]:
    """Where the second judge has a different result.

    Args:
        folder: the bank whose facts the judge reads for itself.
    """
    case = _case(template.id, template.text, folder, template.folder)
    yield from map(_finding, doubts(case, template, question))
    if question.seed < PROVED:
        yield from map(_finding, proof_doubts(case, template, question))


def why_none(template: Template, seed: int, folder: Path) -> str:
    """What sympy says of requirements that keep every number out; "" when it says nothing."""
    for says in never_met(_case(template.id, template.text, folder, template.folder), seed):
        return f'"{says}" does not depend on what is drawn, and is never met.'
    return ""


@lru_cache(maxsize=8)
def _case(id_: str, text: str, folder: Path, top: str) -> Case:
    return Case(id_, text, folder, PEOPLE, Path(top))


def _finding(doubt: Doubt) -> Finding:
    return Finding(f"judge {doubt.about}", doubt.line, doubt.says, doubt.hint)
