"""An author's [[part]] becomes a `PartSpec`: a function for each kind, and the table of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from drill.bank.files.faults import Faults, nearest, nearest_or_all
from drill.bank.files.toml_lines import KeyPath
from drill.bank.files.validation import checked
from drill.bank.reading.answer_reader import AnswerReader
from drill.bank.reading.name_checks import NameScope
from drill.bank.reading.point_reader import PointReader
from drill.bank.schema.fields import seen
from drill.bank.schema.part_schema import (
    AWARDS,
    CELL,
    LEVEL,
    OPTION,
    PART,
    PART_KINDS,
    part_fields,
)
from drill.frozen import replace
from drill.model import OptionSpec, PartSpec
from drill.plaintext import one_line
from drill.typed.number_asked import number_asked

Clean = Mapping[str, Any]


class Parts:
    """Reads the parts of one question, once its draws and steps are known."""

    def __init__(self, names: NameScope, points: PointReader, answers: AnswerReader) -> None:
        self.names, self.points, self.answers = names, points, answers
        self.faults: Faults = names.faults

    def part(self, raw: Mapping[str, Any], where: KeyPath) -> PartSpec | None:
        """The part, or None when it does not say which kind it is."""
        kind = raw.get("kind")
        own = self.names.subject.kind(kind) if isinstance(kind, str) else None
        if not isinstance(kind, str) or (own is None and kind not in KINDS):
            self._kind_fault(raw, where)
            return None
        fields = part_fields({kind: own}) if own else PART
        clean = checked(raw, fields, where, self.faults, kind, f"a {kind} part")
        line = self.faults.lines.of(where)
        spec = PartSpec(
            kind,
            self.names.text(clean["ask"] or "", (*where, "ask")),
            line,
            skill=clean["skill"],
            hint=self.names.text(clean["hint"], (*where, "hint")),
            model_answer=self.names.text(clean["model_answer"] or "", (*where, "model_answer")),
            worked=self.names.text(clean["worked"], (*where, "worked")),
            lines={str(key): self.faults.lines.of((*where, key)) for key in raw},
        )
        return own.read(spec, clean, where, self) if own else KINDS[kind](self, spec, clean, where)

    def _kind_fault(self, raw: Mapping[str, Any], where: KeyPath) -> None:
        known = (*PART_KINDS, *self.names.subject.kinds)
        if "kind" not in raw:
            self.faults.add(where, "kind is missing.", f"One of {', '.join(known)}.")
            return
        message = f"kind must be one of {', '.join(known)}; got {seen(raw['kind'])}."
        self.faults.add((*where, "kind"), message, _nearest_kind(raw["kind"], known))

    # ---------------------------------------------------------------- for a subject's own kinds

    def texts(self, values: Any, where: KeyPath) -> tuple[str, ...]:
        """Texts whose {names} are known."""
        return self.names.texts(values or (), where)

    def award(self, known: tuple[str, ...], raw: Clean | None, where: KeyPath) -> dict[str, int]:
        """`{what: marks}` of a part that awards marks for the things in `known`."""
        return self.answers.award(known, raw, where)

    def fault(self, where: KeyPath, message: str, hint: str = "") -> None:
        """Add a fault at the line of this key."""
        self.faults.add(where, message, hint)

    # ---------------------------------------------------------------- one function a kind

    def number(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """A number, or a reading of a scale."""
        return self.answers.number(spec, clean, where)

    def choice(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """At least one option is right, and every wrong one says why it is wrong."""
        raw = clean["option"] or []
        options = tuple(self._option(one, (*where, "option", i)) for i, one in enumerate(raw))
        right = [option for option in options if option.right and option.when is None]
        if (
            raw
            and not any(option.right for option in options)
            and not any(option.right_when for option in options)
        ):
            self.faults.add(where, "no option is right.", "Write right = true below one.")
        always = [option for option in right if not option.when]  # the others depend on draws
        if len(always) > 1 and not clean["several"]:
            message = f"{len(always)} options are right, but only one may be chosen."
            self.faults.add(where, message, "Write several = true, or make one right.")
        texts = [option.text for option in options]
        for index, text in enumerate(texts):
            if text in texts[:index] and options[index].when is None:
                message = f"two options read {seen(text)}."
                self.faults.add((*where, "option", index, "text"), message)
        return replace(
            spec, options=options, several=clean["several"], keep_order=clean["keep_order"]
        )

    def _option(self, raw: Clean, where: KeyPath) -> OptionSpec:
        clean = checked(raw, OPTION, where, self.faults, "", "an option")
        if clean["right"] and "right_when" in raw:
            message = "an option cannot have both right and right_when."
            self.faults.add((*where, "right_when"), message, "Keep one of them.")
        if not clean["right"] and not clean["says"] and clean["text"]:
            message = f"the wrong option {seen(clean['text'])} does not say why it is wrong."
            self.faults.add(where, message, "Write says below it.")
        return OptionSpec(
            self.names.text(clean["text"] or "", (*where, "text")),
            clean["right"],
            self.names.text(clean["says"], (*where, "says")),
            self.faults.lines.of(where),
            self.names.formula(clean["when"], (*where, "when")),
            self.names.formula(clean["right_when"], (*where, "right_when")),
        )

    def order(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """The steps must differ, and each reason must belong to one of them."""
        steps = self.names.texts(clean["steps"] or (), (*where, "steps"))
        for index, step in enumerate(steps):
            if step in steps[:index]:
                self.faults.add((*where, "steps", index), f"the step {seen(step)} is there twice.")
        why = self.names.pairs(clean["why"], (*where, "why"))
        for step in why:
            if steps and step not in steps:
                hint = nearest_or_all(step, steps, 0)
                self.faults.add((*where, "why", step), f"no step reads {seen(step)}.", hint)
        award = self.answers.award(AWARDS["order"], clean["award"], where)
        marks = award.get("value", 0)
        if steps and marks >= len(steps):
            message = f"{marks} marks for {len(steps)} steps: the worst order would earn one."
            hint = f"Write award = {{ value = {len(steps) - 1} }} or less."
            self.faults.add((*where, "award"), message, hint)
        return replace(spec, steps=steps, why=why, award=award)

    def name(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """Accepted names, and look-alikes: wrong names easily confused with them."""
        accept = self.names.texts(clean["accept"] or (), (*where, "accept"))
        look_alikes = self.names.pairs(clean["look_alikes"], (*where, "look_alikes"))
        for look_alike in look_alikes:
            if look_alike.casefold() in {name.casefold() for name in accept}:
                message = f"{seen(look_alike)} is accepted, so it is no look-alike."
                self.faults.add((*where, "look_alikes", look_alike), message)
        return replace(spec, accept=accept, look_alikes=look_alikes)

    def written(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """Marking points; the part's marks must not exceed their total."""
        points = self.points.points(clean["point"] or [], (*where, "point"), "written")
        total = sum(point.marks for point in points)
        if clean["max"] is not None and points and clean["max"] > total:
            message = f"max is {clean['max']}, but the points add up to {total}."
            self.faults.add((*where, "max"), message, f"Write max = {total}, or add a point.")
        if clean["max"] is None and any(point.when for point in points):
            message = "points have a condition, so the file does not tell how many marks there are."
            self.faults.add(where, message, "Write max: the marks are the same for every draw.")
        return replace(spec, points=points, max=clean["max"] or total, asked=clean["asked"])

    def table(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """Cells, each of them a number."""
        cells: dict[str, PartSpec] = {}
        raw = clean["cells"] or {}
        if clean["cells"] is not None and not 1 <= len(raw) <= 20:
            self.faults.add((*where, "cells"), f"cells must have from 1 to 20, got {len(raw)}.")
            return spec
        for name, cell in raw.items():
            here = (*where, "cells", name)
            if not isinstance(cell, dict):
                message = f'the cell "{one_line(name, 40)}" must be a table, got {seen(cell)}.'
                self.faults.add(here, message, 'Write for example: mean = { answer = "12.5" }')
                continue
            values = checked(cell, CELL, here, self.faults, "", "a cell")
            base = PartSpec("number", "", self.faults.lines.of(here), skill=spec.skill)
            cells[name] = self.answers.number(base, values, here)
        return replace(spec, cells=cells)

    def levels(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """Levels from the best down, and what a good answer holds."""
        levels: list[tuple[int, str]] = []
        for index, raw in enumerate(clean["level"] or []):
            here = (*where, "level", index)
            level = checked(raw, LEVEL, here, self.faults, "", "a level")
            marks = level["marks"] or 0
            if levels and marks >= levels[-1][0]:
                message = f"a level of {marks} marks below one of {levels[-1][0]}."
                self.faults.add(here, message, "Put the best level first.")
            levels.append((marks, self.names.text(level["says"] or "", (*here, "says"))))
        points = self.points.points(clean["point"], (*where, "point"), "levels")
        best = levels[0][0] if levels else 0
        for index, point in enumerate(points):
            if levels and point.cap is not None and point.cap >= best:
                message = f"cap is {point.cap} of {best}: it takes nothing away."
                self.faults.add((*where, "point", index, "cap"), message)
        return replace(spec, levels=tuple(levels), points=points)


KINDS: Mapping[str, Callable[[Parts, PartSpec, Clean, KeyPath], PartSpec]] = {
    "number": Parts.number,
    "reading": Parts.number,
    "choice": Parts.choice,
    "name": Parts.name,
    "order": Parts.order,
    "written": Parts.written,
    "table": Parts.table,
    "levels": Parts.levels,
}


_ALSO_CALLED = {
    "calculation": "number",
    "calculate": "number",
    "numeric": "number",
    "numerical": "number",
    "multiple choice": "choice",
    "multiple-choice": "choice",
    "mcq": "choice",
    "text": "written",
    "explain": "written",
    "describe": "written",
    "short": "written",
    "open": "written",
    "extended": "levels",
    "sequence": "order",
    "scale": "reading",
    "term": "name",
}


def _nearest_kind(kind: object, known: tuple[str, ...]) -> str:
    if not isinstance(kind, str):
        return ""
    meant = _ALSO_CALLED.get(kind.strip().lower())
    return f'Write kind = "{meant}".' if meant else nearest(kind, known)


def marks_of(part: PartSpec) -> int:
    """The maximum mark of a part, as far as the file says."""
    if part.kind == "table":
        return sum(marks_of(cell) for cell in part.cells.values())
    if part.kind == "written":
        return part.max or 0
    if part.kind == "levels":
        return max((marks for marks, _ in part.levels), default=0)
    if part.kind == "choice" and part.several:
        return sum(option.right for option in part.options) or number_asked(part.ask) or 1
    return sum(part.award.values()) or 1
