"""Numbers: value, unit, figures and method judged apart, each wrong route told by its name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.frozen import replace
from drill.marking.numeric import known_slips as slips
from drill.marking.numeric.carry_forward import (
    Values,
    answer_from,
    is_impossible,
    own_values,
    rounded_early,
    worked,
)
from drill.marking.numeric.final_answer import Answer, read_answer
from drill.marking.numeric.number_reading import TypedNumber
from drill.marking.numeric.rounding import fits_figures, is_as_asked, is_cut_short, is_rounding
from drill.marking.numeric.unit_match import UNCONVERTED, InUnit, chosen_among, in_unit
from drill.marking.numeric.working import Method, method_read
from drill.model import Mark, NumberKey, Part, PointMark
from drill.plaintext import counted
from drill.quantities import show_decimals, show_figures
from drill.typed.awarding import nothing, settled

_FAR = Fraction(1, 10)  # rounding on the way to 3 figures never takes an answer further off

_ASKS_FOR_FORM = re.compile(r"significant figure|decimal place|\bs\.?f\b|\bd\.?p\b", re.IGNORECASE)


@dataclass(frozen=True)
class JudgedValue:
    """What was decided of one value: `right`, on which numbers, or by which wrong route.

    `exact` is the value it was held against, in the key's unit.
    """

    right: bool
    exact: Fraction
    carried: bool = False
    slip: slips.FoundSlip | None = None


def mark_number(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Value, unit, figures and method, each for what the part awards it."""
    key = part.key
    assert isinstance(key, NumberKey)
    return number_mark(part, key, typed, earlier)


def number_mark(part: Part, key: NumberKey, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """The same for any number key; a table's cells come this way too."""
    answer = read_answer(typed, part.ask)
    number = answer.chosen or chosen_among(answer.rivals, key, part.ask)
    if number is None:
        return _unread(part, key, answer, earlier)
    unit = in_unit(number, key, part.ask)
    judged = judge(number, unit, key, earlier)
    judged, unit = _unconverted(number, unit, judged, key, earlier)
    method = method_read(key, answer.text, own_values(key, earlier))
    return _verdict(part, key, answer, number, unit, judged, method)


def _unread(part: Part, key: NumberKey, answer: Answer, earlier: Mapping[str, Fraction]) -> Mark:
    """To be typed again; the method keeps what its working earned."""
    if answer.meant is not None:
        return nothing(part, answer.meant, readable=False)
    if not answer.rivals:
        unit = f" with its unit ({key.unit})" if key.unit and not key.unit_printed else ""
        return nothing(part, f"No number to read: type one{unit}.", readable=False)
    if answer.sum_only:
        says = "Not worked out: give the result too."
    else:
        shown = " and ".join(number.raw for number in answer.rivals[:3])
        says = f"More than one value, {shown}: choose one."
    method = method_read(key, answer.text, own_values(key, earlier))
    mark = settled(part, _points(part, {"method": method.marks}, method), says)
    return replace(mark, readable=False)


def judge(
    number: TypedNumber, unit: InUnit, key: NumberKey, earlier: Mapping[str, Fraction]
) -> JudgedValue:
    """Right on the question's numbers, right on the learner's own, or which slip."""
    if _fits(number, unit, key, key.value, {}):
        return JudgedValue(True, key.value)
    own = own_values(key, earlier)
    env = worked(key.chain, own) if own else {}
    carried = answer_from(key, env)
    if carried is not None and _fits_carried(number, unit, key, carried, own):
        if is_impossible(key, carried):
            blamed = slips.impossible(_first_wrong(key, earlier))
            return JudgedValue(False, key.value, slip=blamed)
        return JudgedValue(True, carried, carried=True)
    found = slips.find(number, unit.scale, key, key.value, key.chain.printed)
    if found is None and carried is not None and carried != key.value:
        found = slips.find(number, unit.scale, key, carried, env)
        return JudgedValue(False, carried, carried=found is not None, slip=found)
    return JudgedValue(False, key.value, slip=found)


def _first_wrong(key: NumberKey, earlier: Mapping[str, Fraction]) -> str:
    """The first earlier part whose value is below zero, else the first that is carried on."""
    used = [part for part in key.chain.answers if part in earlier]
    return next((part for part in used if earlier[part] < 0), used[0])


def _fits(number: TypedNumber, unit: InUnit, key: NumberKey, exact: Fraction, own: Values) -> bool:
    """Within the bounds; else a rounding of the exact value, or of one rounded on the way."""
    if key.low is not None and key.high is not None:
        return key.low <= number.value * unit.scale <= key.high
    if unit.scale == 1 and is_cut_short(number, exact, key):
        return False
    if is_rounding(number, exact, unit.scale):
        return True
    if unit.scale == 1 and is_as_asked(number, exact, key.decimals, key.figures):
        return True
    if abs(number.value * unit.scale - exact) > _FAR * abs(exact):
        return False
    return any(is_rounding(number, early, unit.scale) for early in rounded_early(key, own))


def _fits_carried(
    number: TypedNumber, unit: InUnit, key: NumberKey, carried: Fraction, own: Values
) -> bool:
    """What follows from an own reading has no room of its own: that was in the reading."""
    if key.low is not None:
        return is_rounding(number, carried, unit.scale)
    return _fits(number, unit, key, carried, own)


def _unconverted(
    number: TypedNumber,
    unit: InUnit,
    judged: JudgedValue,
    key: NumberKey,
    earlier: Mapping[str, Fraction],
) -> tuple[JudgedValue, InUnit]:
    """The right number beside a unit of another size: it counts where the unit has a mark.

    Where the unit is printed, a unit that contradicts it loses the value.
    """
    own_mark = not key.unit_printed and bool(key.award.get("unit"))
    if unit.unit == "wrong" and not own_mark:
        return JudgedValue(
            False, key.value, slip=slips.contradicts(number, key, judged.right)
        ), unit
    if judged.right or unit.scale == 1:
        return judged, unit
    again = judge(number, UNCONVERTED, key, earlier)
    if again.right and not own_mark:
        again = replace(again, right=False, slip=slips.other_size(number, key))
        return again, UNCONVERTED
    return (again, UNCONVERTED) if again.right else (judged, unit)


def _verdict(
    part: Part,
    key: NumberKey,
    answer: Answer,
    number: TypedNumber,
    unit: InUnit,
    judged: JudgedValue,
    method: Method,
) -> Mark:
    share = _shares(key, method.marks, number, unit, judged)
    says = _says(key, part.ask, number, unit, judged, share, answer)
    slip = judged.slip.id if judged.slip and not judged.right else None
    return settled(
        part,
        _points(part, share, method),
        says,
        slip=slip,
        value=number.value * unit.scale,
        carried=judged.carried and judged.right,
    )


def _shares(
    key: NumberKey, typed: int, number: TypedNumber, unit: InUnit, judged: JudgedValue
) -> dict[str, int]:
    """Marks earned under each heading of `award`; `typed` are those of the working."""
    award = key.award
    if judged.right:
        earned = {"method": award.get("method", 0), "value": award.get("value", 0)}
    else:
        earns = judged.slip.earns if judged.slip else 0
        method = max(min(earns, award.get("method", 0)), typed)
        left = max(0, earns - award.get("method", 0))
        most = max(0, award.get("value", 0) - 1)
        earned = {"method": method, "value": min(left, most)}
    # figures alone are worth nothing: any number has some
    fits = any(earned.values()) and fits_figures(number, key.decimals, key.figures)
    earned["unit"] = award.get("unit", 0) if unit.unit == "right" else 0
    earned["figures"] = award.get("figures", 0) if fits else 0
    return earned


def _points(part: Part, share: Mapping[str, int], method: Method) -> list[PointMark]:
    """The marks alone, and beside the method's the working that was read for it."""
    made: list[PointMark] = []
    for one in part.points:
        marks = min(share.get(one.id, 0), one.marks)
        because = method.because if one.id == "method" and marks else ""
        made.append(PointMark(one.id, marks, one.marks, because))
    return made


def _says(
    key: NumberKey,
    ask: str,
    number: TypedNumber,
    unit: InUnit,
    judged: JudgedValue,
    share: Mapping[str, int],
    answer: Answer,
) -> str:
    """What lost a mark first, the value before the rest; it is what the reader looks for."""
    said = [_about_value(number, unit, judged)]
    fits = fits_figures(number, key.decimals, key.figures)
    if key.award.get("figures") and not share["figures"] and not fits:
        said = _about_figures(key, unit, judged, said)
    elif judged.right and not fits and _ASKS_FOR_FORM.search(ask):
        asked, shown = _as_asked(key, unit, judged)
        said.append(f"Asked for to {asked}, {shown}: an exam may take a mark for the form.")
    if key.award.get("unit") and not share["unit"]:
        what = "is missing" if unit.unit == "missing" else f"{number.unit} is not right"
        said.append(f"The unit {what}: {key.unit}.")
    if not judged.right and share["method"]:
        whole = share["method"] == key.award["method"]
        said.append("The method earns its mark." if whole else "Part of the method earns a mark.")
    if answer.several and not judged.right:
        said.append(f"(I read {number.raw}, the value given last.)")
    return " ".join(said)


def _about_value(number: TypedNumber, unit: InUnit, judged: JudgedValue) -> str:
    shown = f"{number.raw} {number.unit}".strip()
    if judged.right and unit.unit == "ignored":
        left = f"A {unit.beside} has no unit: {number.unit} is left out."
        return f"Right: {number.raw}. {left}"
    if judged.right and judged.carried:
        return f"Right on your own earlier value: {shown}."
    if judged.right:
        return f"Right: {shown}."
    return judged.slip.says if judged.slip else f"Not the value: {shown}."


def _about_figures(key: NumberKey, unit: InUnit, judged: JudgedValue, said: list[str]) -> list[str]:
    """What was asked for, with the answer so written when the value itself is right."""
    asked, shown = _as_asked(key, unit, judged)
    if not judged.right:
        return [*said, f"Asked for to {asked}."]
    own = " on your own earlier value" if judged.carried else ""
    return [f"{shown} was wanted: {asked}.", f"The value is right{own}."]


def _as_asked(key: NumberKey, unit: InUnit, judged: JudgedValue) -> tuple[str, str]:
    """The places or figures asked for in words, and the exact value so written."""
    if key.decimals is not None:
        shown = show_decimals(judged.exact, key.decimals)
        asked = counted(key.decimals, "decimal place")
    else:
        figures = key.figures or 1
        shown = show_figures(judged.exact, figures)
        asked = counted(figures, "significant figure")
    return asked, shown if unit.scale == 1 else f"{shown} {key.unit}"
