"""The rows of a tutor's report for a spreadsheet: one a learner and skill."""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import fields
from io import StringIO
from typing import TYPE_CHECKING

from drill.app.weakness.skill_rows import SkillRow

if TYPE_CHECKING:
    from drill.app.weakness.weak import LearnerReport

_LEFT_OUT = ("evidence",)


def as_csv(reports: Iterable[LearnerReport]) -> str:
    """A head and a row each; what a spreadsheet would take for a formula is kept as text.

    It begins with a byte-order mark, so that a spreadsheet reads it as UTF-8.
    """
    from drill.exchange.spreadsheet import harmless_cells

    names = [one.name for one in fields(SkillRow) if one.name not in _LEFT_OUT]
    out = StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(("learner", *names))
    for report in reports:
        for row in report.skills:
            writer.writerow(
                harmless_cells((report.learner, *(getattr(row, name) for name in names)))
            )
    return "\ufeff" + out.getvalue()
