"""An author's [[part]] becomes a `PartSpec`: a function for each kind, and the table of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from drill.bank.draws import check_unit
from drill.bank.faults import Faults, nearest_or_all
from drill.bank.keys import checked, seen
from drill.bank.names import Names
from drill.bank.points import Points, check_ids
from drill.bank.schema import AWARDS, CELL, LEVEL, OPTION, PART, PART_KINDS, SLIP
from drill.bank.toml_lines import Path
from drill.model import Draw, OptionSpec, PartSpec, SlipSpec
from drill.plaintext import one_line
from drill.quantities import Expression, Fault, Step, parse_formula

Clean = Mapping[str, Any]


class Parts:
    """Reads the parts of one question, once its draws and steps are known."""

    def __init__(
        self,
        names: Names,
        points: Points,
        slips: Mapping[str, str],
        draws: tuple[Draw, ...],
        steps: tuple[Step, ...],
    ) -> None:
        self.names, self.points, self.slips = names, points, slips
        self.faults: Faults = names.faults
        self.shared_slips: dict[str, str] = {}
        self._shown: dict[str, Step | Draw] = {draw.name: draw for draw in draws}
        self._shown |= {step.name: step for step in steps}

    def part(self, raw: Mapping[str, Any], where: Path) -> PartSpec | None:
        """The part, or None when it does not say which kind it is."""
        kind = raw.get("kind")
        if not isinstance(kind, str) or kind not in PART_KINDS:
            self._kind_fault(raw, where)
            return None
        clean = checked(raw, PART, where, self.faults, kind, f"a {kind} part")
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
        return KINDS[kind](self, spec, clean, where)

    def _kind_fault(self, raw: Mapping[str, Any], where: Path) -> None:
        if "kind" not in raw:
            self.faults.add(where, "kind is missing.", f"One of {', '.join(PART_KINDS)}.")
            return
        message = f"kind must be one of {', '.join(PART_KINDS)}; got {seen(raw['kind'])}."
        self.faults.add((*where, "kind"), message, nearest_hint(raw["kind"]))

    # ---------------------------------------------------------------- numbers

    def number(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
        """Answer, unit, marks and slips of a number; unit and places default to the step's own."""
        answer = self.names.formula(clean["answer"], (*where, "answer"))
        check_unit(clean["unit"], (*where, "unit"), self.faults)
        decimals, figures = clean["decimals"], clean["figures"]
        if decimals is not None and figures is not None:
            message = "decimals and figures cannot both be asked for."
            self.faults.add((*where, "figures"), message, "Keep one of them.")
        shown = self._shown.get(answer.text.strip()) if answer else None
        if decimals is None and figures is None and shown is not None:
            decimals, figures = shown.decimals, getattr(shown, "figures", None)
        award = self._award(spec.kind, clean["award"], where) or {"value": 1}
        self._check_award(award, clean, where)
        return replace(
            spec,
            answer=answer,
            unit=clean["unit"] or (shown.unit if shown is not None else ""),
            unit_asked=clean["unit_asked"],
            decimals=decimals,
            figures=figures,
            award=award,
            between=self._between(clean["between"], (*where, "between")),
            slips=self._slips(clean["slip"], (*where, "slip"), sum(award.values())),
        )

    def _between(self, raw: Any, where: Path) -> tuple[Expression, Expression] | None:
        if raw is None:
            return None
        low = self.names.formula(raw[0], (*where, 0))
        high = self.names.formula(raw[1], (*where, 1))
        return (low, high) if low is not None and high is not None else None

    def _award(self, kind: str, raw: Clean | None, where: Path) -> dict[str, int]:
        """`{what: marks}` with the names this kind has."""
        award: dict[str, int] = {}
        known = AWARDS.get(kind, AWARDS["number"])
        for name, marks in (raw or {}).items():
            here = (*where, "award", name)
            if name not in known:
                message = f'no marks are given for "{one_line(name, 40)}".'
                self.faults.add(here, message, nearest_or_all(name, known))
            elif not isinstance(marks, int) or isinstance(marks, bool) or not 0 <= marks <= 10:
                message = f"{name} must be a whole number of marks from 0 to 10, got {seen(marks)}."
                self.faults.add(here, message)
            elif marks:
                award[name] = marks
        if raw is not None and not any(raw.values()):
            hint = f"Write {{ {'species' if kind == 'equation' else 'value'} = 1 }}."
            self.faults.add((*where, "award"), "award gives no marks.", hint)
        return award

    def _check_award(self, award: Mapping[str, int], clean: Clean, where: Path) -> None:
        if "unit" in award and not clean["unit_asked"]:
            message = "a mark for the unit, but the unit is printed."
            self.faults.add((*where, "award"), message, "Write unit_asked = true.")
        if "figures" in award and clean["figures"] is None and clean["decimals"] is None:
            message = "a mark for figures, but none are asked for."
            self.faults.add((*where, "award"), message, "Write figures = 3 or decimals = 2.")

    def _slips(self, raw: list[Clean], where: Path, marks: int) -> tuple[SlipSpec, ...]:
        slips = tuple(self._slip(one, (*where, index), marks) for index, one in enumerate(raw))
        check_ids([slip.id for slip in slips], where, "slip", self.faults)
        return slips

    def _slip(self, raw: Clean, where: Path, marks: int) -> SlipSpec:
        clean = checked(raw, SLIP, where, self.faults, "", "a slip")
        id_ = clean["id"] or ""
        if clean["earns"] >= marks:
            message = f"earns is {clean['earns']} of {marks}: a slip cannot earn full marks."
            self.faults.add((*where, "earns"), message)
        return SlipSpec(
            id_,
            self.names.formula(clean["gives"], (*where, "gives")),
            self._slip_says(id_, clean["says"], where),
            clean["earns"],
            self.faults.lines.of(where),
            self.names.formula(clean["when"], (*where, "when")),
        )

    def _slip_says(self, id_: str, says: str, where: Path) -> str:
        """The author's own words, else those of the shared slip with that id."""
        if says:
            return self.names.text(says, (*where, "says"))
        shared = self.slips.get(id_)
        if shared is None:
            hint = nearest_or_all(id_, self.slips, 0)
            message = (
                f'the slip "{one_line(id_, 40)}" has no says, and slips.toml has no such slip.'
            )
            self.faults.add(where, message, hint or "Write says: what the student is told.")
            return ""
        self.shared_slips[id_] = shared
        return self.names.text(shared, where, f'the slip "{id_}" of slips.toml')

    # ---------------------------------------------------------------- the other kinds

    def choice(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
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

    def _option(self, raw: Clean, where: Path) -> OptionSpec:
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

    def order(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
        """Different steps; each reason belongs to one of them."""
        steps = self.names.texts(clean["steps"] or (), (*where, "steps"))
        for index, step in enumerate(steps):
            if step in steps[:index]:
                self.faults.add((*where, "steps", index), f"the step {seen(step)} is there twice.")
        why = self.names.pairs(clean["why"], (*where, "why"))
        for step in why:
            if steps and step not in steps:
                hint = nearest_or_all(step, steps, 0)
                self.faults.add((*where, "why", step), f"no step reads {seen(step)}.", hint)
        return replace(spec, steps=steps, why=why)

    def name(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
        """Accepted names, and look-alikes that are none of them."""
        accept = self.names.texts(clean["accept"] or (), (*where, "accept"))
        look_alikes = self.names.pairs(clean["look_alikes"], (*where, "look_alikes"))
        for look_alike in look_alikes:
            if look_alike.casefold() in {name.casefold() for name in accept}:
                message = f"{seen(look_alike)} is accepted, so it is no look-alike."
                self.faults.add((*where, "look_alikes", look_alike), message)
        return replace(spec, accept=accept, look_alikes=look_alikes)

    def formula(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
        """Chemical formulae; one without {…} is read here already."""
        accept = self.names.texts(clean["accept"] or (), (*where, "accept"))
        for index, text in enumerate(accept):
            read = parse_formula(text) if "{" not in text else None
            if isinstance(read, Fault):
                message = f"{seen(text)} is no formula: {read.message}."
                self.faults.add((*where, "accept", index), message, read.hint)
        return replace(spec, accept=accept)

    def equation(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
        """Chemical equations; by default a mark for the species and one for the balance."""
        accept = self.names.texts(clean["accept"] or (), (*where, "accept"))
        for index, text in enumerate(accept):
            if text.count("->") != 1 and "{" not in text:
                message = f"{seen(text)} is no equation."
                hint = "Write for example: MgO + 2HCl -> MgCl2 + H2O"
                self.faults.add((*where, "accept", index), message, hint)
        award = self._award("equation", clean["award"], where) or {"species": 1, "balance": 1}
        return replace(spec, accept=accept, award=award)

    def written(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
        """Marking points; never more marks than they add up to."""
        points = self.points.points(clean["point"] or [], (*where, "point"))
        total = sum(point.marks for point in points)
        if clean["max"] is not None and points and clean["max"] > total:
            message = f"max is {clean['max']}, but the points add up to {total}."
            self.faults.add((*where, "max"), message, f"Write max = {total}, or add a point.")
        return replace(spec, points=points, max=clean["max"] or total, asked=clean["asked"])

    def table(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
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
            cells[name] = self.number(base, values, here)
        return replace(spec, cells=cells)

    def levels(self, spec: PartSpec, clean: Clean, where: Path) -> PartSpec:
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
        points = self.points.points(clean["point"], (*where, "point"))
        return replace(spec, levels=tuple(levels), points=points)


KINDS: Mapping[str, Callable[[Parts, PartSpec, Clean, Path], PartSpec]] = {
    "number": Parts.number,
    "reading": Parts.number,
    "choice": Parts.choice,
    "name": Parts.name,
    "order": Parts.order,
    "written": Parts.written,
    "formula": Parts.formula,
    "equation": Parts.equation,
    "table": Parts.table,
    "levels": Parts.levels,
}


def nearest_hint(kind: object) -> str:
    """The nearest kind of part, when text was given."""
    from drill.bank.faults import nearest

    return nearest(kind, PART_KINDS) if isinstance(kind, str) else ""


def marks_of(part: PartSpec) -> int:
    """The most marks a part can earn, as far as the file tells."""
    if part.kind == "table":
        return sum(marks_of(cell) for cell in part.cells.values())
    if part.kind == "written":
        return part.max or 0
    if part.kind == "levels":
        return max((marks for marks, _ in part.levels), default=0)
    if part.kind == "choice" and part.several:
        return sum(option.right for option in part.options) or 1
    return sum(part.award.values()) or 1
