"""Choices: the letter, several letters, or the option's own words."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from drill.marking.short.chosen import chosen_options
from drill.model import ChoiceKey, Mark, Option, Part, PointMark
from drill.typed.awarding import nothing, settled, whole
from drill.typed.number_asked import number_asked


def mark_choice(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """One mark for each right letter, less wrong ones beyond the number asked for."""
    key = part.key
    assert isinstance(key, ChoiceKey)
    chosen = chosen_options(key.options, typed, part.ask, several=key.several)
    if chosen is None:
        letters = ", ".join(option.letter for option in key.options)
        return nothing(part, f"Not one of the letters {letters}: type a letter.", readable=False)
    if key.several:
        return _several(part, key.options, chosen)
    if len(chosen) > 1:
        return whole(part, False, "More than one letter chosen: only one is asked for.")
    option = chosen[0]
    says = option.says or _instead(key.options)
    if option.right:
        says = f"Right: {option.letter}. {option.says}".rstrip()
    return whole(part, option.right, says, None if option.right else option.letter)


def _instead(options: tuple[Option, ...]) -> str:
    right = next((option for option in options if option.right), None)
    return f"The right one is {right.letter}: {right.text}." if right else "Not the right one."


def _several(part: Part, options: tuple[Option, ...], chosen: tuple[Option, ...]) -> Mark:
    """Each letter beyond the number asked for cancels a right one, when there are wrong ones.

    Where the question gives no number, every wrong letter does.
    """
    wrong = [option for option in chosen if not option.right]
    missed = [option for option in options if option.right and option not in chosen]
    says = _about_several(wrong, missed)
    by_letter = {option.letter: option for option in options}
    if any(point.id not in by_letter for point in part.points):
        return whole(part, not wrong and not missed, says)
    beyond = len(chosen) - number_asked(part.ask) if number_asked(part.ask) else len(wrong)
    cancelled = max(0, min(len(wrong), beyond))
    points: list[PointMark] = []
    for point in part.points:
        earned = by_letter[point.id] in chosen
        if earned and cancelled:
            cancelled -= 1
            points.append(PointMark(point.id, 0, point.marks, "cancelled by a wrong letter"))
        else:
            because = "chosen" if earned else "not chosen"
            points.append(PointMark(point.id, point.marks * earned, point.marks, because))
    return settled(part, points, says, slip=wrong[0].letter if wrong else None)


def _about_several(wrong: list[Option], missed: list[Option]) -> str:
    if not wrong and not missed:
        return "Right: all of them and no other."
    said = [option.says or f"{option.letter} is wrong." for option in wrong]
    if missed:
        said.append("Missing: " + "; ".join(f"{one.letter}, {one.text}" for one in missed) + ".")
    return " ".join(said)
