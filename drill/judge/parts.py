"""The parts of a question: the expected key of each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drill.judge.author import Raw, formula
from drill.judge.expected import Expected, Reading, expected
from drill.judge.filling import filled, names_in
from drill.judge.graph import Drawn
from drill.judge.stream import mixed
from drill.judge.working import holds
from drill.judge.world import Case, Env, retried

_NUMBERS = ("number", "reading")


@dataclass(frozen=True)
class Offered:
    """An option of a choice."""

    raw: Raw
    right: bool


@dataclass(frozen=True)
class PartCase:
    """A part as its author wrote it, and what its key must be; `good` where it can be asked."""

    raw: Raw
    numbers: Mapping[str, Expected]
    options: tuple[Offered, ...]
    points: tuple[Raw, ...]
    good: bool


def parts_of(
    case: Case, env: Env, seed: int, tries: int, graph: Drawn | None
) -> tuple[PartCase, ...]:
    """The expected key of each part with these values.

    Raises:
        Cannot: a part has no key.
    """
    out = []
    printed = names_in(case.raw.get("stem", "")) | names_in(case.raw.get("picture", ""))
    earlier: set[str] = set()
    for index, raw in enumerate(case.raw["part"]):
        printed |= names_in(raw.get("ask", ""))
        letter = _letter(index)
        reading = _reading(raw, case, printed, earlier, graph)
        numbers = {
            name: expected(one, case.raw, env, case.steps, reading)
            for name, one in numbers_of(raw).items()
        }
        stream = retried(f"{case.id} part {letter}", tries) + " options"
        options = _offered(raw, env, seed, stream)
        points = tuple(one for one in raw.get("point", ()) if _applies(one, env))
        good = _sensible(raw, options, env) and _enough(raw, points)
        good = good and all(one.told_apart for one in numbers.values())
        out.append(PartCase(raw, numbers, options, points, good))
        if raw["kind"] in _NUMBERS:
            earlier |= _asked(raw) & set(case.steps)
    return tuple(out)


def _letter(index: int) -> str:
    return (chr(96 + index // 26) if index > 25 else "") + chr(97 + index % 26)


def numbers_of(raw: Raw) -> Mapping[str, Raw]:
    """The numbers that a part asks for: its cells by name, or itself by no name."""
    if raw["kind"] == "table":
        cells: Mapping[str, Raw] = raw["cells"]
        return cells
    return {"": raw} if raw["kind"] in _NUMBERS else {}


def _asked(raw: Raw) -> set[str]:
    return {formula(one["answer"]).strip() for one in numbers_of(raw).values()}


def _reading(
    raw: Raw, case: Case, printed: frozenset[str], earlier: set[str], graph: Drawn | None
) -> Reading | None:
    """What is read off the graph, and which values have been printed by now."""
    if graph is None or not raw.get("read_off"):
        return None
    halves = {name: graph.half(axis) for name, axis in raw["read_off"].items()}
    known = (printed | (set(halves) - earlier)) & set(case.steps)
    return Reading(halves, frozenset(known - _asked(raw)))


def _offered(raw: Raw, env: Env, seed: int, stream: str) -> tuple[Offered, ...]:
    """The options that are offered, in their order."""
    options = [one for one in raw.get("option", ()) if _applies(one, env)]
    if not raw.get("keep_order"):
        options = mixed(seed, stream, options)
    return tuple(
        Offered(
            one,
            holds(formula(one["right_when"]), env)
            if "right_when" in one
            else one.get("right", False),
        )
        for one in options
    )


def _applies(raw: Raw, env: Env) -> bool:
    return "when" not in raw or holds(formula(raw["when"]), env)


def _enough(raw: Raw, points: tuple[Raw, ...]) -> bool:
    """Whether the points that are asked for with these values earn as much as the part is worth."""
    if raw["kind"] != "written":
        return True
    worth: int = raw.get("max") or sum(one.get("marks", 1) for one in raw["point"])
    return worth <= sum(int(one.get("marks", 1)) for one in points)


def _sensible(raw: Raw, options: tuple[Offered, ...], env: Env) -> bool:
    """Whether a choice has at least two options, all different, and the right number correct."""
    if raw["kind"] == "order":
        steps = [filled(step, env) for step in raw["steps"]]
        return len(set(steps)) == len(steps) > 1
    if raw["kind"] != "choice":
        return True
    texts = {filled(one.raw["text"], env).lower() for one in options}
    right = sum(one.right for one in options)
    return 2 <= len(texts) == len(options) and (right == 1 or (right > 1 and "several" in raw))
