"""Answers tried on a written part: the marks, and for each point the line that decided."""

from __future__ import annotations

import json
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from drill.app.ask import question_of, template_of
from drill.errors import DrillError

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.checking.close_look import TriedAnswer
    from drill.checking.twins import Things
    from drill.model import Part


class Trial:
    """One written part of a question at a seed, ready for answers."""

    def __init__(self, bank: Bank, name: str, letter: str = "", seed: int = 0) -> None:
        """Find the part; without a letter the first that is marked by patterns.

        Raises:
            DrillError: there is no such question, or no such part in it.
        """
        self.template = template_of(bank, name)
        self.seed = seed
        parts = [one for one in question_of(bank, name, seed).parts if one.kind == "written"]
        named = [one for one in parts if letter in ("", one.id)]
        if not named:
            has = ", ".join(one.id for one in parts) or "none"
            raise DrillError(f'"{name}" has no such written part. It has: {has}.')
        self.part: Part = named[0]

    def answer(self, typed: str) -> TriedAnswer:
        """Mark one answer, say why, and mark the same answer reversed."""
        from drill.checking.close_look import look_closely

        return look_closely(self.part, typed, self._things)

    @cached_property
    def _things(self) -> Things:
        """The things named by the part and its samples."""
        from drill.bank import answers_path
        from drill.checking.samples import read_samples
        from drill.checking.trials import things_spoken_of

        samples = read_samples(answers_path(Path(self.template.path)))[0]
        spec = self.template.parts[ord(self.part.id) - ord("a")]
        return things_spoken_of(spec, [one for one in samples if one.part == self.part.id])

    def keep(self, tried: TriedAnswer, marks: list[int]) -> Path:
        """Keep an answer as a sample, with the marks a person gives each point.

        Raises:
            DrillError: there are not as many marks as points, or one is too high.
            OSError: the file cannot be written to.
        """
        from drill.bank import answers_path

        points = self.part.points
        if len(marks) != len(points) or any(
            not 0 <= mark <= point.marks for mark, point in zip(marks, points, strict=False)
        ):
            wanted = ", ".join(f"{point.id} (0 to {point.marks})" for point in points)
            raise DrillError(f"Give a mark for each point, in this order: {wanted}.")
        given = {point.id: mark for point, mark in zip(points, marks, strict=True)}
        row = {"part": self.part.id, "seed": self.seed, "answer": tried.answer, "points": given}
        path = answers_path(Path(self.template.path))
        with path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(row, ensure_ascii=False) + "\n")
        return path
