"""Compares the key of a number with the judge's own result."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from drill.judge.author import Raw
from drill.judge.doubts import Doubt, differs, otherwise
from drill.judge.expected import Expected, accepted
from drill.judge.filling import says
from drill.judge.parts import PartCase
from drill.judge.units import means, unit_of
from drill.judge.worked import line_doubts, table_lines
from drill.judge.world import Case, Env

if TYPE_CHECKING:
    from drill.model import Part, PartSpec
    from drill.model.template import SlipSpec


def number_doubts(
    spec: PartSpec, key: Any, made: Expected, about: str, raw: Raw, env: Env, renamed: bool
) -> Iterator[Doubt]:
    """Where a key, or one of its wrong routes, differs from the judge's number.

    Args:
        about: which number it is, for the message.
    """
    line = spec.lines.get("answer", spec.line)
    if key.value != made.value or not means(key.unit, unit_of(made.unit)):
        found = f"{key.value} {key.unit}".strip()
        yield differs(f"the answer {about}", line, found, f"{made.value} {made.unit}".strip())
    if (key.low, key.high) != (made.low, made.high):
        found, mine = f"{key.low} to {key.high}", f"{made.low} to {made.high}"
        yield differs(f"what is accepted {about}", line, found, mine)
    if (key.decimals, key.figures) != (made.decimals, made.figures):
        says_ = f"the answer {about} is asked for in other places to the second judge."
        yield Doubt(f"places {about}", line, says_)
    award = {name: marks for name, marks in raw.get("award", {}).items() if marks}
    if dict(key.award) != (award or {"value": 1}) or key.unit_printed == bool(
        raw.get("unit_asked")
    ):
        yield Doubt(f"award {about}", line, f"the marks {about} are others to the second judge.")
    yield from _slips(spec, key, made, about, raw, env, renamed)


def _slips(
    spec: PartSpec, key: Any, made: Expected, about: str, raw: Raw, env: Env, renamed: bool
) -> Iterator[Doubt]:
    specs: Mapping[str, SlipSpec] = {slip.id: slip for slip in spec.slips}
    found, mine = [slip.id for slip in key.slips], [route.id for route in made.routes]
    if found != mine:
        yield differs(f"the slips {about}", spec.line, ", ".join(found), ", ".join(mine))
        return
    written = {slip["id"]: slip for slip in raw.get("slip", ())}
    for slip, route in zip(key.slips, made.routes, strict=True):
        line = specs[slip.id].line
        if (slip.value, slip.low, slip.high) != (route.value, route.low, route.high):
            yield differs(f'the slip "{slip.id}" {about}', line, slip.value, route.value)
        elif not _alike(slip.text, route.text):
            yield differs(f'the slip "{slip.id}" {about}', line, slip.text, route.text)
        text = written[slip.id].get("says") or specs[slip.id].says  # that of slips.toml
        if not renamed and not says(slip.says, text, env):
            yield otherwise(f'slip "{slip.id}" {about}', line, slip.says)
        if slip.earns != written[slip.id].get("earns", 0):
            yield differs(
                f'what "{slip.id}" earns', line, slip.earns, written[slip.id].get("earns", 0)
            )


def _alike(found: str, mine: str) -> bool:
    """The same number as written, in the same unit however that is spelled."""
    number, _, unit = mine.partition(" ") if "×" not in mine else (mine, "", "")
    return found == mine or (
        found.startswith(number) and means(found[len(number) :], unit_of(unit))
    )


def answer_doubts(
    case: Case, env: Env, spec: PartSpec, part: Part, made: PartCase, renamed: bool
) -> Iterator[Doubt]:
    """Checks the correct answer as printed in the mark scheme and in the worked answer."""
    pairs = [(name, one.text) for name, one in made.numbers.items()]
    model = "; ".join(f"{name} = {text}" if name else text for name, text in pairs)
    if not _alike(part.model_answer, model):
        yield differs(f"the answer of part {part.id}", spec.line, part.model_answer, model)
    beside = "" if part.kind == "table" or made.raw.get("unit_asked") else made.numbers[""].unit
    if not means(part.unit, unit_of(beside)):
        yield differs(f"the unit beside part {part.id}", spec.line, part.unit, beside)
    scheme = _scheme(made)
    for point in part.points:
        if point.says != scheme.get(point.id, point.says):
            about = f"the mark scheme of part {part.id}"
            yield differs(about, spec.line, point.says, scheme[point.id])
    own = made.raw.get("worked", "")
    if own and not renamed:
        head = part.worked[: len(part.worked) - len(_after(part.worked, own))].rstrip("\n")
        if not says(head, own, env):
            yield otherwise(f"working of part {part.id}", spec.lines.get("worked", spec.line), head)
    yield from _lines(case, env, spec, part, made)


def _lines(case: Case, env: Env, spec: PartSpec, part: Part, made: PartCase) -> Iterator[Doubt]:
    """The lines behind the author's own."""
    lines = _after(part.worked, made.raw.get("worked", "")).splitlines()
    several = table_lines(lines, list(made.numbers)) if part.kind == "table" else {"": lines}
    ends = [(lines, part.model_answer)]
    ends += [(several[name], one.text) for name, one in made.numbers.items() if several[name]]
    for of, answer in ends:
        if not of or not of[-1].replace("−", "-").endswith(answer.replace("−", "-")):
            says_ = f"the working of part {part.id} does not end in {answer}."
            yield Doubt(f"end {part.id} {answer}", spec.line, says_)
    for name, one in made.numbers.items():
        asked = (one.text, _places(one))
        yield from line_doubts(several[name], env, case.steps, asked, spec.line)


def _scheme(made: PartCase) -> dict[str, str]:
    """The lines of a mark scheme that hold numbers."""
    if "" not in made.numbers:
        return {name: f"{name}: {one.text}" for name, one in made.numbers.items()}
    one = made.numbers[""]
    return {"value": one.text + accepted(one), "figures": _places(one)}


def _places(one: Expected) -> str:
    """The places or figures asked for, in words; "rounded" where none are."""
    if one.decimals == 0:
        return "to the nearest whole number"
    count, unit = one.figures, "significant figure"
    if one.decimals is not None:
        count, unit = one.decimals, "decimal place"
    return f"to {count} {unit}{'' if count == 1 else 's'}" if count is not None else "rounded"


def _after(worked: str, own: str) -> str:
    """What stands behind the author's own lines of a worked answer."""
    lines = worked.split("\n")
    return "\n".join(lines[own.count("\n") + 1 :]) if own else worked
