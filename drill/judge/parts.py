"""The parts of a question: what the key of each must be, and where the one it has differs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from drill.judge.author import Raw, formula
from drill.judge.doubts import Doubt, differs
from drill.judge.drawn import half_of
from drill.judge.expected import Expected, Reading, accepted, expected
from drill.judge.filling import filled, names_in, says
from drill.judge.stream import mixed
from drill.judge.units import means, unit_of
from drill.judge.worked import line_doubts, table_lines
from drill.judge.working import holds
from drill.judge.world import Case, Env, retried

if TYPE_CHECKING:
    from drill.model import Part, PartSpec, Question
    from drill.model.template import SlipSpec

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
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
    good: bool


def parts_of(case: Case, env: Env, question: Question, tries: int) -> tuple[PartCase, ...]:
    """What each part must be with these values.

    Raises:
        Cannot: a part has no key.
    """
    out = []
    printed = names_in(case.raw.get("stem", "")) | names_in(case.raw.get("picture", ""))
    earlier: set[str] = set()
    for index, raw in enumerate(case.raw["part"]):
        printed |= names_in(raw.get("ask", ""))
        letter = chr(97 + index) if index < 26 else ""
        reading = _reading(raw, case, printed, earlier, question)
        numbers = {
            name: expected(one, case.raw, env, case.steps, reading)
            for name, one in _numbers_of(raw).items()
        }
        stream = retried(f"{case.id} part {letter}", tries) + " options"
        options = _offered(raw, env, question.seed, stream)
        good = _sensible(raw, options, env) and all(one.told_apart for one in numbers.values())
        out.append(PartCase(raw, numbers, options, good))
        if raw["kind"] in _NUMBERS:
            earlier |= _asked(raw) & set(case.steps)
    return tuple(out)


def _numbers_of(raw: Raw) -> Mapping[str, Raw]:
    if raw["kind"] == "table":
        cells: Mapping[str, Raw] = raw["cells"]
        return cells
    return {"": raw} if raw["kind"] in _NUMBERS else {}


def _asked(raw: Raw) -> set[str]:
    return {formula(one["answer"]).strip() for one in _numbers_of(raw).values()}


def _reading(
    raw: Raw, case: Case, printed: frozenset[str], earlier: set[str], question: Question
) -> Reading | None:
    """What is read off the graph, and which values a student has been told by now."""
    if question.graph is None or not raw.get("read_off"):
        return None
    axes = {"x": question.graph.x, "y": question.graph.y}
    halves = {name: half_of(axes[axis]) for name, axis in raw["read_off"].items()}
    known = (printed | (set(halves) - earlier)) & set(case.steps)
    return Reading(halves, frozenset(known - _asked(raw)))


def _offered(raw: Raw, env: Env, seed: int, stream: str) -> tuple[Offered, ...]:
    """The options that are offered, in their order."""
    options = [
        one for one in raw.get("option", ())
        if "when" not in one or holds(formula(one["when"]), env)
    ]  # fmt: skip
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


def _sensible(raw: Raw, options: tuple[Offered, ...], env: Env) -> bool:
    """Whether a choice has two options or more, all different, and as many right as it must."""
    if raw["kind"] == "order":
        steps = [filled(step, env) for step in raw["steps"]]
        return len(set(steps)) == len(steps) > 1
    if raw["kind"] != "choice":
        return True
    texts = {filled(one.raw["text"], env).lower() for one in options}
    right = sum(one.right for one in options)
    return 2 <= len(texts) == len(options) and (right == 1 or (right > 1 and "several" in raw))


# ------------------------------------------------------------ held against what was made


def part_doubts(
    case: Case, env: Env, spec: PartSpec, part: Part, made: PartCase, renamed: bool
) -> Iterator[Doubt]:
    """Where a part says another number than the judge."""
    where = f"of part {part.id}"
    if not renamed:
        yield from _texts(spec, part, made.raw, env)
        yield from _KEYS.get(part.kind, _nothing)(spec, part, made, env)
    key: Any = part.key
    cells = key.cells if part.kind == "table" else {"": key}
    specs = spec.cells if part.kind == "table" else {"": spec}
    for name, one in made.numbers.items():
        about = f'of "{name}", part {part.id}' if name else where
        yield from _number(specs[name], cells[name], one, about, _numbers_of(made.raw)[name], env)
    if made.numbers:
        yield from _answer(case, env, spec, part, made, renamed)


def _texts(spec: PartSpec, part: Part, raw: Raw, env: Env) -> Iterator[Doubt]:
    for key, found in (("ask", part.ask), ("hint", part.hint)):
        if not says(found, raw.get(key, ""), env):
            line = spec.lines.get(key, spec.line)
            yield Doubt(f"{key} {part.id}", line, _other(f"{key} of part {part.id}", found))


def _other(what: str, found: str) -> str:
    return f'the {what} prints a number otherwise than the second judge: "{found[:80]}".'


def _number(
    spec: PartSpec, key: Any, made: Expected, about: str, raw: Raw, env: Env
) -> Iterator[Doubt]:
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
    yield from _slips(spec, key, made, about, raw, env)


def _slips(
    spec: PartSpec, key: Any, made: Expected, about: str, raw: Raw, env: Env
) -> Iterator[Doubt]:
    specs: Mapping[str, SlipSpec] = {slip.id: slip for slip in spec.slips}
    found, mine = [slip.id for slip in key.slips], [route.id for route in made.routes]
    if found != mine:
        yield differs(f"the slips {about}", spec.line, ", ".join(found), ", ".join(mine))
        return
    texts = {slip["id"]: slip.get("says", "") for slip in raw.get("slip", ())}
    for slip, route in zip(key.slips, made.routes, strict=True):
        line = specs[slip.id].line
        if (slip.value, slip.low, slip.high) != (route.value, route.low, route.high):
            yield differs(f'the slip "{slip.id}" {about}', line, slip.value, route.value)
        elif not _alike(slip.text, route.text):
            yield differs(f'the slip "{slip.id}" {about}', line, slip.text, route.text)
        if texts[slip.id] and not says(slip.says, texts[slip.id], env):
            yield Doubt(f"says {slip.id}", line, _other(f'slip "{slip.id}" {about}', slip.says))


def _alike(found: str, mine: str) -> bool:
    """The same number as written, in the same unit however that is spelled."""
    number, _, unit = mine.partition(" ") if "×" not in mine else (mine, "", "")
    return found == mine or (
        found.startswith(number) and means(found[len(number) :], unit_of(unit))
    )


def _answer(
    case: Case, env: Env, spec: PartSpec, part: Part, made: PartCase, renamed: bool
) -> Iterator[Doubt]:
    """The right answer as it is printed, in the mark scheme and in the worked answer."""
    names = list(made.numbers)
    pairs = [(name, made.numbers[name].text) for name in names]
    model = "; ".join(f"{name} = {text}" if name else text for name, text in pairs)
    if not _alike(part.model_answer, model):
        yield differs(f"the answer of part {part.id}", spec.line, part.model_answer, model)
    scheme = _scheme(made)
    for point in part.points:
        if point.says != scheme.get(point.id, point.says):
            about = f"the mark scheme of part {part.id}"
            yield differs(about, spec.line, point.says, scheme[point.id])
    own = made.raw.get("worked", "")
    worked = part.worked
    if own and not renamed:
        head = worked[: len(worked) - len(_after(worked, own))].rstrip("\n")
        if not says(head, own, env):
            line = spec.lines.get("worked", spec.line)
            yield Doubt(f"worked {part.id}", line, _other(f"working of part {part.id}", head))
    lines = _after(worked, own).splitlines()
    several = table_lines(lines, names) if part.kind == "table" else {"": lines}
    for name, text in pairs:
        yield from line_doubts(several[name], env, case.steps, text, spec.line)


def _scheme(made: PartCase) -> dict[str, str]:
    """The lines of a mark scheme that hold numbers."""
    if "" not in made.numbers:
        return {name: f"{name}: {one.text}" for name, one in made.numbers.items()}
    one = made.numbers[""]
    return {"value": one.text + accepted(one), "figures": _places(one)}


def _places(one: Expected) -> str:
    """The places or figures asked for, in words."""
    count, unit = one.figures, "significant figure"
    if one.decimals is not None:
        count, unit = one.decimals, "decimal place"
    if one.decimals == 0:
        return "to the nearest whole number"
    return f"to {count} {unit}{'' if count == 1 else 's'}"


def _after(worked: str, own: str) -> str:
    """What stands behind the author's own lines of a worked answer."""
    lines = worked.split("\n")
    return "\n".join(lines[own.count("\n") + 1 :]) if own else worked


# ------------------------------------------------------------ keys that are not numbers


def _nothing(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    return iter(())


def _choice(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    key: Any = part.key
    if len(key.options) != len(made.options):
        yield differs("the number of options", spec.line, len(key.options), len(made.options))
        return
    lines = {one.text: one.line for one in spec.options}
    for letter, found, mine in zip(LETTERS, key.options, made.options, strict=False):
        line = lines.get(mine.raw["text"], spec.line)
        about = f"option {letter} of part {part.id}"
        if not says(found.text, mine.raw["text"], env):
            yield Doubt(about, line, _other(about, found.text))
        elif not says(found.says, mine.raw.get("says", ""), env):
            yield Doubt(about, line, _other(f"reason of {about}", found.says))
        elif found.right != mine.right:
            yield differs(about, line, _right(found.right), _right(mine.right))


def _right(is_: bool) -> str:
    return "right" if is_ else "wrong"


def _accept(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    """Names, formulae and equations that are accepted."""
    key: Any = part.key
    texts = [text for text in made.raw["accept"] if filled(text, env)]
    for text in texts:
        if not any(says(found, text, env) for found in key.accept):
            yield Doubt(f"accept {part.id}", spec.line, _other(f"key of part {part.id}", text))
    if not any(says(key.accept[0], text, env) for text in texts[:1]):
        yield Doubt(f"first {part.id}", spec.line, _other(f"key of part {part.id}", key.accept[0]))


def _order(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    key: Any = part.key
    texts = dict(key.steps)
    steps = zip(key.right, made.raw["steps"], strict=True)
    if not all(says(texts[letter], step, env) for letter, step in steps):
        yield Doubt(f"order {part.id}", spec.line, _other(f"order of part {part.id}", key.right))


def _points(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    """What is said of each marking point, and the words of its patterns that hold a value."""
    key: Any = part.key
    for found, raw in zip(key.points, made.raw.get("point", ()), strict=True):
        if not says(found.says, raw["says"], env):
            about = f'point "{found.id}" of part {part.id}'
            yield Doubt(about, found.line, _other(about, found.says))
        for kind in ("accept", "reject", "ignore"):
            words = {word for one in getattr(found, kind) for word in one.concepts}
            for text in _words(raw.get(kind, ())):
                if "{" in text and not any(says(word, text, env) for word in words):
                    about = f'pattern of point "{found.id}"'
                    yield Doubt(about, found.line, _other(about, text))
    if not says(part.model_answer, made.raw.get("model_answer", ""), env):
        about = f"model answer of part {part.id}"
        yield Doubt(about, spec.line, _other(about, part.model_answer))


def _words(patterns: Any) -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, str):
            yield pattern
        else:
            yield from pattern["all"] if isinstance(pattern, Mapping) else pattern


_KEYS: Mapping[str, Any] = {
    "choice": _choice,
    "name": _accept,
    "formula": _accept,
    "equation": _accept,
    "order": _order,
    "written": _points,
    "levels": _points,
}
