"""What learners decide themselves: points left open, and marks for extended answers."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import TYPE_CHECKING

from drill.cli import views

if TYPE_CHECKING:
    from drill.cli.screen import Screen
    from drill.model import Mark, Part
    from drill.sitting import CurrentQuestion, Sitting


def decide(
    screen: Screen, sitting: Sitting, asked: CurrentQuestion, part: Part, now: datetime
) -> tuple[Mark | None, bool]:
    """Scheme and answer stand on the screen; the learner decides what the marker could not.

    Returns:
        The mark with what was decided, None when nothing was; and whether they typed `stop`.
    """
    says = {point.id: point.says for point in part.points}
    earned: dict[str, bool] = {}
    stops = False
    for point in asked.marks[part.id].unsure:
        screen.item("scheme", says.get(point, point))
        screen.item("you wrote", asked.typed[part.id][1])
        reply = screen.ask("Does your answer say that? yes or no (Enter: leave it) > ")
        word = reply.strip().casefold()
        if word in ("yes", "y", "no", "n"):
            earned[point] = word.startswith("y")
        elif word == "stop":
            stops = True
            break
    return _keep(screen, sitting, asked, part, earned, now), stops


def _keep(
    screen: Screen,
    sitting: Sitting,
    asked: CurrentQuestion,
    part: Part,
    earned: Mapping[str, bool],
    now: datetime,
) -> Mark | None:
    """Keep what the learner decided; None when it was nothing."""
    if not earned:
        return None
    decided = sitting.decide(asked, part, earned, now)
    own = asked.shares(part.id)
    screen.line(f"Noted: {own.own} of {own.own_of}, decided by you and counted apart.")
    return decided


def set_level(
    screen: Screen, sitting: Sitting, asked: CurrentQuestion, part: Part, now: datetime
) -> bool:
    """Levels and an exemplar stand on the screen; the learner confirms or changes the mark.

    Returns:
        Whether they typed `stop`.
    """
    views.show_levels(screen, part, asked.typed[part.id][1])
    while True:
        reply = screen.ask(f"Your mark, 0 to {part.marks} (Enter: leave it) > ").strip()
        if reply == "":
            screen.line("Left for your teacher or tutor.")
            break
        if reply.casefold() == "stop":
            return True
        if reply in map(str, range(part.marks + 1)):
            own = sitting.set_level(asked, part, int(reply), now)
            screen.line(f"Noted: {own.marks} of {own.of}, set by you and counted apart.")
            break
    screen.line()
    return False
