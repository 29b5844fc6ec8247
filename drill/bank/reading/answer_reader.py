"""Reads a numerical answer: unit, decimal places, marks, common mistakes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drill.bank.files.faults import Faults, nearest_or_all
from drill.bank.files.toml_lines import KeyPath
from drill.bank.files.validation import checked
from drill.bank.reading.name_checks import NameScope
from drill.bank.reading.point_reader import check_ids
from drill.bank.reading.work_reader import check_unit
from drill.bank.schema.fields import seen
from drill.bank.schema.part_schema import AWARDS, SLIP
from drill.frozen import replace
from drill.model import Draw, PartSpec, SlipSpec
from drill.plaintext import one_line
from drill.quantities import Expression, Quantity, Step

Clean = Mapping[str, Any]


class AnswerReader:
    """Reads number parts and table cells; `shared_slips` collects those used from slips.toml."""

    def __init__(
        self,
        names: NameScope,
        slips: Mapping[str, str],
        draws: tuple[Draw, ...],
        steps: tuple[Step, ...],
    ) -> None:
        self.names, self.slips = names, slips
        self.faults: Faults = names.faults
        self.shared_slips: dict[str, str] = {}
        self._shown: dict[str, Step | Draw] = {draw.name: draw for draw in draws}
        self._shown |= {step.name: step for step in steps}

    def number(self, spec: PartSpec, clean: Clean, where: KeyPath) -> PartSpec:
        """Answer, unit, marks and slips of a number; unit and places default to the step's own."""
        answer = self.names.formula(clean["answer"], (*where, "answer"))
        check_unit(clean["unit"], (*where, "unit"), self.faults)
        decimals, figures = clean["decimals"], clean["figures"]
        if decimals is not None and figures is not None:
            message = "decimals and figures cannot both be asked for."
            self.faults.add((*where, "figures"), message, "Keep one of them.")
        name = answer.text.strip() if answer else ""
        shown = self._shown.get(name)
        if decimals is None and figures is None and shown is not None:
            decimals, figures = shown.decimals, getattr(shown, "figures", None)
        award = self.award(AWARDS[spec.kind], clean["award"], where) or {"value": 1}
        self._check_award(award, clean, where)
        return replace(
            spec,
            answer=answer,
            unit=clean["unit"] or (shown.unit if shown is not None else self._cell_unit(name)),
            unit_asked=clean["unit_asked"],
            decimals=decimals,
            figures=figures,
            award=award,
            between=self._between(clean["between"], (*where, "between")),
            read_off=self._read_off(clean, where),
            slips=self._slips(clean["slip"], (*where, "slip"), sum(award.values())),
        )

    def _cell_unit(self, name: str) -> str:
        """The unit of a column, for an answer such as route.M_crystals; "" for anything else."""
        first, _, column = name.partition(".")
        rows = self.names.known[first].rows if first in self.names.known else ()
        cell = rows[0].cells.get(column) if rows else None
        return cell.unit.symbol if isinstance(cell, Quantity) else ""

    def _between(self, raw: Any, where: KeyPath) -> tuple[Expression, Expression] | None:
        if raw is None:
            return None
        low = self.names.formula(raw[0], (*where, 0))
        high = self.names.formula(raw[1], (*where, 1))
        return (low, high) if low is not None and high is not None else None

    def _read_off(self, clean: Clean, where: KeyPath) -> dict[str, str]:
        """Names that the answer depends on, with the axis each is read from."""
        found: dict[str, str] = {}
        for name, axis in (clean["read_off"] or {}).items():
            here = (*where, "read_off", name)
            if name not in self._shown:
                message = f'no draw or step is called "{one_line(name, 40)}".'
                self.faults.add(here, message, nearest_or_all(name, self._shown))
            elif axis not in ("x", "y"):
                self.faults.add(here, f"{name} is read on x or y, got {seen(axis)}.", 'Write "y".')
            else:
                found[name] = axis
        if found and clean["between"] is not None:
            message = "between and read_off both say what is accepted."
            self.faults.add((*where, "read_off"), message, "Keep one of them.")
        return found

    def award(self, known: tuple[str, ...], raw: Clean | None, where: KeyPath) -> dict[str, int]:
        """`{what: marks}` with the names this kind has."""
        award: dict[str, int] = {}
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
            hint = f"Write {{ {'value' if 'value' in known else known[0]} = 1 }}."
            self.faults.add((*where, "award"), "award gives no marks.", hint)
        return award

    def _check_award(self, award: Mapping[str, int], clean: Clean, where: KeyPath) -> None:
        if "unit" in award and not clean["unit_asked"]:
            message = "a mark for the unit, but the unit is printed."
            self.faults.add((*where, "award"), message, "Write unit_asked = true.")
        if "figures" in award and clean["figures"] is None and clean["decimals"] is None:
            message = "a mark for figures, but none are asked for."
            self.faults.add((*where, "award"), message, "Write figures = 3 or decimals = 2.")

    def _slips(self, raw: list[Clean], where: KeyPath, marks: int) -> tuple[SlipSpec, ...]:
        slips = tuple(self._slip(one, (*where, index), marks) for index, one in enumerate(raw))
        check_ids([slip.id for slip in slips], where, "slip", self.faults)
        return slips

    def _slip(self, raw: Clean, where: KeyPath, marks: int) -> SlipSpec:
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

    def _slip_says(self, id_: str, says: str, where: KeyPath) -> str:
        """The author's own wording, or that of the shared slip with that id."""
        if says:
            return self.names.text(says, (*where, "says"))
        shared = self.slips.get(id_)
        if shared is None:
            hint = nearest_or_all(id_, self.slips, 0)
            message = (
                f'the slip "{one_line(id_, 40)}" has no says, and slips.toml has no such slip.'
            )
            self.faults.add(where, message, hint or "Write says: the feedback the student reads.")
            return ""
        self.shared_slips[id_] = shared
        return self.names.text(shared, where, f'the slip "{id_}" of slips.toml')
