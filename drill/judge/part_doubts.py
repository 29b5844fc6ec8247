"""Compares a part of a question, of any kind, with the judge's own result."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from drill.judge.author import Raw
from drill.judge.doubts import Doubt, differs, otherwise
from drill.judge.filling import filled, says
from drill.judge.number_doubts import answer_doubts, number_doubts
from drill.judge.parts import PartCase, numbers_of
from drill.judge.world import Case, Env

if TYPE_CHECKING:
    from drill.model import Part, PartSpec

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def part_doubts(
    case: Case, env: Env, spec: PartSpec, part: Part, made: PartCase, renamed: bool
) -> Iterator[Doubt]:
    """Where a part differs from the judge's result.

    Args:
        renamed: a school's own words stand in the texts, which are then left alone.
    """
    if not renamed:
        yield from _texts(spec, part, made.raw, env)
        yield from _KEYS.get(part.kind, _nothing)(spec, part, made, env)
    key: Any = part.key
    cells = key.cells if part.kind == "table" else {"": key}
    specs = spec.cells if part.kind == "table" else {"": spec}
    for name, one in made.numbers.items():
        about = f'of "{name}", part {part.id}' if name else f"of part {part.id}"
        raw = numbers_of(made.raw)[name]
        yield from number_doubts(specs[name], cells[name], one, about, raw, env, renamed)
    if made.numbers:
        yield from answer_doubts(case, env, spec, part, made, renamed)


def _texts(spec: PartSpec, part: Part, raw: Raw, env: Env) -> Iterator[Doubt]:
    for key, found in (("ask", part.ask), ("hint", part.hint)):
        if not says(found, raw.get(key, ""), env):
            yield otherwise(f"{key} of part {part.id}", spec.lines.get(key, spec.line), found)


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
            yield otherwise(about, line, found.text)
        elif not says(found.says, mine.raw.get("says", ""), env):
            yield otherwise(f"reason of {about}", line, found.says)
        elif found.right != mine.right:
            yield differs(about, line, _right(found.right), _right(mine.right))
    letters = ", ".join(
        letter for letter, one in zip(LETTERS, made.options, strict=False) if one.right
    )
    if part.model_answer != letters:
        yield differs(f"the answer of part {part.id}", spec.line, part.model_answer, letters)


def _right(is_: bool) -> str:
    return "right" if is_ else "wrong"


def _accept(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    """Names, formulae and equations that are accepted, and names that look like them."""
    key: Any = part.key
    texts = made.raw["accept"]
    for text in texts:
        if not any(says(found, text, env) for found in key.accept):
            yield otherwise(f"key of part {part.id}", spec.line, text)
    for found in key.accept:
        if not any(says(found, text, env) for text in texts):
            yield otherwise(f"key of part {part.id}", spec.line, found)
    if not says(key.accept[0], texts[0], env) or part.model_answer != key.accept[0]:
        yield otherwise(f"answer of part {part.id}", spec.line, part.model_answer)
    if part.kind == "name":
        yield from _look_alikes(spec, part, made, env)


def _look_alikes(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    key: Any = part.key
    right = {filled(text, env).casefold() for text in made.raw["accept"]}
    alike = {filled(name, env): why for name, why in made.raw.get("look_alikes", {}).items()}
    wanted = {name: why for name, why in alike.items() if name.casefold() not in right}
    if key.look_alikes.keys() != wanted.keys():
        found = ", ".join(key.look_alikes)
        yield differs(f"the look-alikes of part {part.id}", spec.line, found, ", ".join(wanted))
        return
    for name, why in wanted.items():
        if not says(key.look_alikes[name], why, env):
            about = f'reason of "{name}", part {part.id}'
            yield otherwise(about, spec.line, key.look_alikes[name])


def _order(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    key: Any = part.key
    texts = dict(key.steps)
    steps = zip(key.right, made.raw["steps"], strict=True)
    if not all(says(texts[letter], step, env) for letter, step in steps):
        yield otherwise(f"order of part {part.id}", spec.line, key.right)
    for step, why in made.raw.get("why", {}).items():
        if not says(key.why.get(filled(step, env), ""), why, env):
            yield otherwise(f"reason of a step of part {part.id}", spec.line, step)


def _points(spec: PartSpec, part: Part, made: PartCase, env: Env) -> Iterator[Doubt]:
    """What is said of each marking point, and the words of its patterns that hold a value."""
    key: Any = part.key
    ids = [point["id"] for point in made.points]
    if [point.id for point in key.points] != ids:
        listed = ", ".join(point.id for point in key.points)
        yield differs(f"the points of part {part.id}", spec.line, listed, ", ".join(ids))
        return
    for found, raw in zip(key.points, made.points, strict=True):
        if not says(found.says, raw["says"], env):
            about = f'point "{found.id}" of part {part.id}'
            yield otherwise(about, found.line, found.says)
        for kind in ("accept", "reject", "ignore"):
            words = {word for one in getattr(found, kind) for word in one.concepts}
            for text in _words(raw.get(kind, ())):
                if "{" in text and not any(says(word, text, env) for word in words):
                    yield otherwise(f'pattern of point "{found.id}"', found.line, text)
    if not says(part.model_answer, made.raw.get("model_answer", ""), env):
        yield otherwise(f"model answer of part {part.id}", spec.line, part.model_answer)
    for (_, found_), raw in zip(getattr(key, "levels", ()), made.raw.get("level", ()), strict=True):
        if not says(found_, raw["says"], env):
            yield otherwise(f"level of part {part.id}", spec.line, found_)


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
