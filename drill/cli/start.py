"""What `drill` alone prints: in ten lines, what a student, a teacher and a tutor would type."""

from __future__ import annotations

import re
import textwrap

LINES = """\
Practice for practical-skills exam questions. Start: drill sit

Student  drill sit                     what gains most; --again: what went wrong
         drill sit titration           one practical, topic or skill
         drill plan --exam 2027-05-18  your exam date; then how you stand
         drill answers                 what you typed, its marks, what was right
Teacher  drill deck new                what was taught, and when the exam is
         drill deck handout            a file for pupils; drill appeals: marks
Tutor    drill weak                    where marks are lost, and why
Every command: drill -h               One of them: drill sit -h"""


def is_heard() -> bool:
    """Whether who practised here last wanted plain screens; no store is made to find out."""
    from drill.app.context import open_store, store_file
    from drill.cli.common import is_plain
    from drill.errors import DrillError

    try:
        if not store_file().is_file():
            return False
        with open_store(reading=True) as store:
            return is_plain(store, "", None)
    except DrillError:  # every other command says what is wrong with it
        return False


def lines_for(columns: int, heard: bool) -> str:
    """The lines as they stand; without columns where they are heard or do not fit, and wrapped."""
    if not heard and max(map(len, LINES.splitlines())) <= columns:
        return LINES
    rows = for_ears(LINES).splitlines()
    return "\n".join(textwrap.fill(row, max(20, columns), break_on_hyphens=False) for row in rows)


def for_ears(text: str) -> str:
    """The same without columns: `for_ears("Tutor  drill weak    why")` is "Tutor: drill weak: why".

    Where the next column begins a sentence, it has a line of its own.
    """
    lines = re.sub(r"(?<=\S) {2,}(?=[A-Z])", "\n", text).splitlines()
    return "\n".join(re.sub(r" {2,}", ": ", line.strip()) for line in lines)
