"""Help while answering: a worked example, tables, a calculator, a larger drawing."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import TYPE_CHECKING

from drill.cli import views
from drill.cli.command_words import HELP
from drill.cli.without_eyes import said

if TYPE_CHECKING:
    from drill.app.calculator import Sum
    from drill.app.weakness.learners_tables import ShownTable
    from drill.cli.screen import Screen
    from drill.model import Part, Question
    from drill.sitting import CurrentQuestion, Sitting

_NO_DRAWING = "This question has no drawing."


class Aids:
    """The aids of one sitting; `last` is the line the calculator worked out last."""

    def __init__(self, screen: Screen, sitting: Sitting, now: Callable[[], datetime]) -> None:
        self._screen, self._sitting, self._now = screen, sitting, now
        self._last: Sum | None = None

    def forget(self) -> None:
        """Forget the last line: it is no working of the next question."""
        self._last = None

    def example(self, asked: CurrentQuestion) -> None:
        """Another question of the kind, worked; memory is told as of a hint."""
        found = self._sitting.example(asked, now=self._now())
        if found is None:
            self._screen.line("There is no other one of this kind. For a hint: ?")
            return
        self._screen.line("Another one of the kind, worked through; yours is still to do.")
        self._screen.line()
        with self._screen.by_windows():
            views.show_question(self._screen, found, "example", safety=False)
            views.show_example(self._screen, found)
        self._screen.line("Now yours again:", style="bold")
        self._screen.rule()
        if asked.question.text:
            self._screen.line(said(self._screen, asked.question.text))

    def question(self, asked: CurrentQuestion, part: Part | None) -> None:
        """The question again: its text, and the part to be answered or, after the last, each."""
        parts = asked.question.parts
        if asked.question.text:
            self._screen.line(said(self._screen, asked.question.text))
        for one in (part,) if part is not None else parts:
            views.show_part(self._screen, one, alone=len(parts) == 1)

    def drawing(self, asked: CurrentQuestion) -> None:
        """What the drawing shows, in words alone."""
        from drill.app.pictures import picture_in_words

        self._screen.line(picture_in_words(asked.question) or _NO_DRAWING)

    def table(self, asked: CurrentQuestion) -> None:
        """This question's data again, then the tables printed with a paper."""
        from drill.app.weakness.learners_tables import tables_for

        if asked.question.text:
            self._screen.line(asked.question.text)
        for table in tables_for(self._sitting.bank, asked.question):
            self._screen.line()
            self._screen.line(table.title, style="bold")
            self._rows(table)

    def _rows(self, table: ShownTable) -> None:
        """Pairs side by side, as many as the window holds; one under the other in plain mode."""
        if self._screen.plain:
            self._screen.line("; ".join(f"{left}: {right}" for left, right in table.rows))
            return
        left = max(len(name) for name, _ in table.rows)
        pairs = [f"{name.ljust(left)} {value}" for name, value in table.rows]
        wide = max(map(len, pairs)) + 3
        across = max(1, self._screen.width // wide)
        for at in range(0, len(pairs), across):
            row = "".join(pair.ljust(wide) for pair in pairs[at : at + across])
            self._screen.line(row.rstrip())

    def calc(self, typed: str) -> None:
        """One line worked out; `take` makes it the working of the answer."""
        from drill.app.calculator import worked_out

        found = worked_out(typed)
        if isinstance(found, str):
            self._screen.line(found)
            return
        self._last = found
        more = "" if found.exact else "…"
        self._screen.line(f"{found.typed} = {found.value}{more}")
        self._screen.line(
            "To answer with this line as your working: take, or take and your rounded answer.",
            style="dim",
        )

    def taken(self, answer: str) -> str | None:
        """The last line as working, with an answer of one's own or its value; None without one."""
        if self._last is None:
            self._screen.line("There is no line to take yet. As: calc 100 * 3.77 / 9.2")
            return None
        return f"{self._last.typed} = {answer or self._last.value}"

    def tell(self, word: str, asked: CurrentQuestion) -> None:
        """What `help`, `larger`, `drawing` or `table` asks for."""
        if word == "help":
            for name, does in self._words(asked.question):
                self._screen.item(name, does, label_width=12)
        else:
            {"larger": self.larger, "drawing": self.drawing, "table": self.table}[word](asked)

    def _words(self, question: Question) -> list[tuple[str, str]]:
        """The words that do something here: those for a drawing only where there is one to see."""
        idle = {"larger"} if self._screen.plain else set()
        if not _has_drawing(question):
            idle = {"larger", "drawing"}
        return [(name, does) for name, does in HELP if name not in idle]

    def larger(self, asked: CurrentQuestion) -> None:
        """The drawing as large as the window."""
        question = asked.question
        if not _has_drawing(question):
            self._screen.line(_NO_DRAWING)
            return
        from drill.cli.pictures import show_picture

        show_picture(self._screen, question, whole=True)


def _has_drawing(question: Question) -> bool:
    return bool(question.graph or question.picture or question.scale)
