"""Numbers: value, unit, figures and method judged apart, each wrong route told by its name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.marking import slips
from drill.marking.answer import Answer, read_answer
from drill.marking.beside import UNCONVERTED, InUnit, chosen_among, in_unit
from drill.marking.chain import Env, answer_from, own_values, rounded_early, worked
from drill.marking.precision import fits_figures, is_rounding
from drill.marking.reading import Number
from drill.marking.verdict import nothing, settled
from drill.marking.working import method_share
from drill.model import Mark, NumberKey, Part, PointMark

_FAR = Fraction(1, 10)  # rounding on the way to 3 figures never takes an answer further off


@dataclass(frozen=True)
class Judged:
    """What was decided of one value: `right`, on which numbers, or by which wrong route."""

    right: bool
    carried: bool = False
    slip: slips.Found | None = None


def mark_number(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Value, unit, figures and method, each for what the part awards it."""
    key = part.key
    assert isinstance(key, NumberKey)
    return number_mark(part, key, typed, earlier)


def number_mark(part: Part, key: NumberKey, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """The same for any number key; a table's cells come this way too."""
    answer = read_answer(typed)
    number = answer.chosen or chosen_among(answer.rivals, key)
    if number is None:
        return _unread(part, key, answer)
    unit = in_unit(number, key)
    judged = judge(number, unit, key, earlier)
    judged, unit = _unconverted(number, unit, judged, key, earlier)
    return _verdict(part, key, answer, number, unit, judged)


def _unread(part: Part, key: NumberKey, answer: Answer) -> Mark:
    if answer.comma is not None:
        return nothing(part, f"Did you mean {answer.comma}? Use a point.", readable=False)
    if not answer.rivals:
        unit = f" with its unit ({key.unit})" if key.unit and not key.unit_printed else ""
        return nothing(part, f"No number to read: type one{unit}.", readable=False)
    if answer.sum_only:
        says = "Not worked out: give the result too."
    else:
        shown = " and ".join(number.raw for number in answer.rivals[:3])
        says = f"More than one value, {shown}: choose one."
    points = _points(part, {"method": method_share(key, answer.working)}, says)
    return settled(part, points, says)


def judge(number: Number, unit: InUnit, key: NumberKey, earlier: Mapping[str, Fraction]) -> Judged:
    """Right on the question's numbers, right on the learner's own, or which slip."""
    if _fits(number, unit, key, key.value, {}):
        return Judged(True)
    own = own_values(key, earlier)
    env = worked(key.chain, own) if own else {}
    carried = answer_from(key, env)
    if carried is not None and key.low is None and _fits(number, unit, key, carried, own):
        return Judged(True, carried=True)
    found = slips.find(number, unit.scale, key, key.value, key.chain.printed)
    if found is None and carried is not None and carried != key.value:
        found = slips.find(number, unit.scale, key, carried, env)
        return Judged(False, carried=found is not None, slip=found)
    return Judged(False, slip=found)


def _fits(number: Number, unit: InUnit, key: NumberKey, exact: Fraction, own: Env) -> bool:
    """Within the bounds; else a rounding of the exact value, or of one rounded on the way."""
    if key.low is not None and key.high is not None:
        return key.low <= number.value * unit.scale <= key.high
    if is_rounding(number, exact, unit.scale):
        return True
    if abs(number.value * unit.scale - exact) > _FAR * abs(exact):
        return False
    return any(is_rounding(number, early, unit.scale) for early in rounded_early(key, own))


def _unconverted(
    number: Number, unit: InUnit, judged: Judged, key: NumberKey, earlier: Mapping[str, Fraction]
) -> tuple[Judged, InUnit]:
    """The right number beside a unit of another size: the number counts where the unit has a mark.

    Where the unit is printed, a unit that contradicts it loses the value.
    """
    if unit.unit == "wrong" and (key.unit_printed or not key.award.get("unit")):
        return Judged(False, slip=slips.contradicts(number, key)), unit
    if judged.right or unit.scale == 1 or key.unit_printed or not key.award.get("unit"):
        return judged, unit
    again = judge(number, UNCONVERTED, key, earlier)
    return (again, UNCONVERTED) if again.right else (judged, unit)


def _verdict(
    part: Part, key: NumberKey, answer: Answer, number: Number, unit: InUnit, judged: Judged
) -> Mark:
    share = _shares(key, answer, number, unit, judged)
    says = _says(key, number, unit, judged, share, answer)
    slip = judged.slip.id if judged.slip and not judged.right else None
    return settled(
        part,
        _points(part, share, says),
        says,
        slip=slip,
        value=number.value * unit.scale,
        carried=judged.carried and judged.right,
    )


def _shares(
    key: NumberKey, answer: Answer, number: Number, unit: InUnit, judged: Judged
) -> dict[str, int]:
    """Marks earned under each heading of `award`."""
    award = key.award
    if judged.right:
        earned = {"method": award.get("method", 0), "value": award.get("value", 0)}
    else:
        earns = judged.slip.earns if judged.slip else 0
        method = max(min(earns, award.get("method", 0)), method_share(key, answer.working))
        left = max(0, earns - award.get("method", 0))
        most = max(0, award.get("value", 0) - 1)
        earned = {"method": method, "value": min(left, most)}
    earned["unit"] = award.get("unit", 0) if unit.unit == "right" else 0
    fits = fits_figures(number, key.decimals, key.figures)
    earned["figures"] = award.get("figures", 0) if fits else 0
    return earned


def _points(part: Part, share: Mapping[str, int], says: str) -> list[PointMark]:
    return [
        PointMark(one.id, min(share.get(one.id, 0), one.marks), one.marks, says)
        for one in part.points
    ]


def _says(
    key: NumberKey,
    number: Number,
    unit: InUnit,
    judged: Judged,
    share: Mapping[str, int],
    answer: Answer,
) -> str:
    """What is right or wrong with the value first; it is what the reader looks for."""
    said = [_about_value(number, judged)]
    if key.award.get("unit") and not share["unit"]:
        what = "is missing" if unit.unit == "missing" else f"{number.unit} is not right"
        said.append(f"The unit {what}: {key.unit}.")
    if key.award.get("figures") and not share["figures"]:
        said.append(_about_figures(key))
    if not judged.right and share["method"]:
        said.append("The method earns its mark.")
    if answer.several and not judged.right:
        said.append(f"(I read {number.raw}, the value given last.)")
    return " ".join(said)


def _about_value(number: Number, judged: Judged) -> str:
    shown = f"{number.raw} {number.unit}".strip()
    if judged.right and judged.carried:
        return f"Right on your own earlier value: {shown}."
    if judged.right:
        return f"Right: {shown}."
    return judged.slip.says if judged.slip else f"Not the value: {shown}."


def _about_figures(key: NumberKey) -> str:
    if key.decimals is not None:
        return f"Asked for with {key.decimals} decimal places."
    return f"Asked for to {key.figures} significant figures."
