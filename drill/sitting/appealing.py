"""What a learner says about a mark or a question: decided, contested, mistyped, faulty."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from drill.frozen import replace

if TYPE_CHECKING:
    from drill.model import Mark, Part
    from drill.sitting.answering import Answering
    from drill.sitting.choosing import Choosing
    from drill.sitting.current_question import CurrentQuestion
    from drill.store import Store


@dataclass(frozen=True)
class Appealing:
    """Records what the learner says beside what the marker decided."""

    store: Store
    answering: Answering
    choosing: Choosing

    def decide(
        self, asked: CurrentQuestion, part: Part, earned: Mapping[str, bool], now: datetime
    ) -> Mark:
        """The learner's own decision on points the marker was not sure of, kept beside it."""
        mark = asked.marks[part.id]
        points = tuple(
            replace(point, marks=point.of if earned[point.id] else 0, unsure=False)
            if point.id in earned
            else point
            for point in mark.points
        )
        total = min(mark.of, sum(point.marks for point in points))
        asked.decided[part.id] = tuple(earned)
        return self._own(asked, part, replace(mark, points=points, marks=total), now)

    def set_level(self, asked: CurrentQuestion, part: Part, marks: int, now: datetime) -> Mark:
        """The mark learners give their own extended answer, kept apart from every other figure."""
        mark = asked.marks[part.id]
        marks = max(0, min(marks, mark.of))
        points = tuple(
            replace(point, marks=marks if index == 0 else 0, because="set by you", unsure=False)
            for index, point in enumerate(mark.points)
        )
        return self._own(asked, part, replace(mark, marks=marks, points=points), now)

    def _own(self, asked: CurrentQuestion, part: Part, mark: Mark, now: datetime) -> Mark:
        self.store.verdict(asked.typed[part.id][0], "learner", self.answering.marker(), mark, now)
        asked.marks[part.id] = mark
        return mark

    def fix(self, asked: CurrentQuestion, part: Part, text: str, now: datetime) -> Mark:
        """Keep what is typed for a part whose mark was seen; the first text counts.

        A typing mistake put right, and the second try after a wrong route was named, are the same
        to everything that counts: both texts are kept, and the second earns and teaches nothing.
        """
        self.store.answer(asked.asking, part.id, text, "fix", None, 0.0, now)
        return self.answering.marked(asked, part, text)

    def appeal(self, asked: CurrentQuestion, part: Part, reason: str, now: datetime) -> None:
        """The learner contests a mark; it stands until a teacher or tutor settles it."""
        self.store.appeal(asked.typed[part.id][0], reason, now)

    def faulty(self, asked: CurrentQuestion, note: str, now: datetime) -> None:
        """The learner says the question itself is wrong; its remaining parts are not asked.

        Nothing is learned from it; but a part that was missed counts until a teacher agrees, so
        that nobody can call a question faulty only to be rid of a mark.
        """
        missed = asked.missed()
        for letter in missed:
            self.store.appeal(asked.typed[letter][0], f"the question is faulty: {note}", now)
        if missed:
            asked.over = True
        else:
            self.store.faulty(asked.asking, note, now)
            asked.left = True
        self.choosing.without(asked.question.template)
