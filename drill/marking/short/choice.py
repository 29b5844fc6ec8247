"""Choices: the letter, several letters, or the option's own words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from drill.model import ChoiceKey, Mark, Option, Part, PointMark
from drill.typed.awarding import nothing, settled, whole
from drill.typed.variants import one_spelling

_LEAD = re.compile(
    r"^(?:(?:i think|it is|it's|its|the answer is|answer|option|letter|choice)\b[\s:]*)+"
)
_REASON = re.compile(r"\s(?:because|since|as it)\b.*", re.DOTALL)
_PLAIN = re.compile(r"[^a-z0-9]+")


def mark_choice(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right letters less wrong ones; with one right answer, that one and no other."""
    key = part.key
    assert isinstance(key, ChoiceKey)
    chosen = _chosen(key.options, typed)
    if chosen is None:
        letters = ", ".join(option.letter for option in key.options)
        return nothing(part, f"Not one of the letters {letters}: type a letter.", readable=False)
    if key.several:
        return _several(part, key.options, chosen)
    if len(chosen) > 1:
        return whole(part, False, "More than one letter chosen: only one is asked for.")
    option = chosen[0]
    says = option.says or (f"Right: {option.letter}." if option.right else _instead(key.options))
    return whole(part, option.right, says, None if option.right else option.letter)


def _instead(options: tuple[Option, ...]) -> str:
    right = next((option for option in options if option.right), None)
    return f"The right one is {right.letter}: {right.text}." if right else "Not the right one."


def _several(part: Part, options: tuple[Option, ...], chosen: tuple[Option, ...]) -> Mark:
    """Each wrong letter cancels one right one, as a list is marked."""
    wrong = [option for option in chosen if not option.right]
    missed = [option for option in options if option.right and option not in chosen]
    says = _about_several(wrong, missed)
    by_letter = {option.letter: option for option in options}
    if any(point.id not in by_letter for point in part.points):
        return whole(part, not wrong and not missed, says)
    cancelled = len(wrong)
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


def _chosen(options: tuple[Option, ...], typed: str) -> tuple[Option, ...] | None:
    """The options meant, in their own order; None when it cannot be told."""
    text = typed.lower()
    by_text = [option for option in options if _bare(option.text) == _bare(text)]
    if by_text:
        return (by_text[0],)
    text = _LEAD.sub("", _REASON.sub("", text)).strip()
    letters = {option.letter.lower(): option for option in options}
    words = [word for word in re.split(r"[^a-z0-9]+", text) if word not in ("", "and")]
    if words and words[0] in letters and len(words) > 1:
        rest = _bare(" ".join(words[1:]))
        if rest == _bare(letters[words[0]].text):
            return (letters[words[0]],)
    joined = "".join(words) if all(word in letters for word in words) else ""
    if not joined and len(words) == 1 and set(words[0]) <= set(letters):
        joined = words[0]
    if not joined:
        return None
    return tuple(option for option in options if option.letter.lower() in joined)


def _bare(text: str) -> str:
    words = [
        word
        for word in _PLAIN.split(one_spelling(text.lower()))
        if word not in ("", "a", "an", "the")
    ]
    return " ".join(words)
