"""The limits of settings: for options, imported values and values stored earlier.

Settings with other names are not checked.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from datetime import date, datetime
from math import isfinite
from pathlib import PurePath

FIRST_YEAR, LAST_YEAR = 2000, 2100
"""Dates and times outside cannot be meant, and counting days from them leaves the calendar."""
LEAST_MINUTES, MOST_MINUTES = 1.0, 240.0
"""Minutes a day."""
MOST_SITTING = 1440.0
"""Minutes of one sitting."""
MOST_QUESTIONS = 1000
LONGEST_TEXT = 100_000
"""Characters of what is typed; more would be too long for the line it travels in."""
_LONGEST = 4096


def is_sound(name: str, value: str) -> bool:
    """Whether a setting may have this value; the empty text takes a setting away."""
    check = _SETTINGS.get(name)
    return len(value) <= _LONGEST and (not value or check is None or check(value))


def is_known(name: str) -> bool:
    """Whether it is a setting that a learner takes along to another computer."""
    return name in _SETTINGS


def is_moment(when: datetime) -> bool:
    """Whether a time can be meant."""
    return FIRST_YEAR <= when.year <= LAST_YEAR


def is_goal(text: str) -> bool:
    """Whether it is a sitting's goal as JSON: questions and minutes, each with its limits."""
    try:
        goal = json.loads(text)
    except (ValueError, RecursionError):
        return False
    return isinstance(goal, dict) and goal == sound_goal(goal)


def sound_goal(goal: Mapping[str, object]) -> dict[str, object]:
    """What of a goal is within the limits; other entries are left out."""
    limits = {
        "questions": (1, MOST_QUESTIONS),
        "minutes": (0, MOST_SITTING),
        "paper": (1, MOST_QUESTIONS),
        "seed": (0, 2**63 - 1),
        "extra": (0, 1000),
    }
    return {
        name: goal[name]
        for name, (least, most) in limits.items()
        if name in goal and (goal[name] is None or _within(goal[name], least, most))
    }


def _within(value: object, least: float, most: float) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return isfinite(value) and least <= value <= most


def _is_minutes(text: str) -> bool:
    try:
        return LEAST_MINUTES <= float(text) <= MOST_MINUTES  # not for nan
    except ValueError:
        return False


def _is_day(text: str) -> bool:
    try:
        return FIRST_YEAR <= date.fromisoformat(text).year <= LAST_YEAR
    except ValueError:
        return False


def _is_deck(text: str) -> bool:
    """An id, or the whole path of a file: a path that climbs means nothing on this machine."""
    path = PurePath(text)
    return text.isprintable() and (path.is_absolute() or path.name == text)


_YES_OR_NO = ("yes", "no").__contains__
_SETTINGS: dict[str, Callable[[str], bool]] = {
    "minutes": _is_minutes,
    "exam": _is_day,
    "deck": _is_deck,
    "course": str.isprintable,
    "sure": _YES_OR_NO,
    "plain": _YES_OR_NO,
    "greeted": _YES_OR_NO,
}
