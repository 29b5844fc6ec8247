"""Reads an author's [work] and [require] into steps and requirements; calculates nothing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drill.bank.files.faults import Faults
from drill.bank.files.toml_lines import KeyPath
from drill.bank.files.validation import checked
from drill.bank.reading.name_checks import KnownName, NameScope
from drill.bank.schema.fields import seen
from drill.bank.schema.template_schema import WORK
from drill.model import Requirement
from drill.plaintext import one_line
from drill.quantities import Step, unit_of

MOST_STEPS = 80
MOST_REQUIREMENTS = 40


class Work:
    """Reads steps and requirements, once the draws are known."""

    def __init__(self, names: NameScope) -> None:
        self.names = names
        self.faults: Faults = names.faults

    def steps(self, raw: Mapping[str, Any]) -> tuple[Step, ...]:
        """The steps of [work]; each knows the draws and the steps before it."""
        if not few(raw, "work", MOST_STEPS, self.faults):
            return ()
        found = [self._step(name, value, ("work", name)) for name, value in raw.items()]
        return tuple(step for step in found if step is not None)

    def _step(self, name: str, raw: Any, where: KeyPath) -> Step | None:
        if not isinstance(raw, dict):
            shown = one_line(name, 40)
            hint = f'Write for example: {shown} = {{ is = "2 * 3" }}'
            self.faults.add(where, f'the step "{shown}" must be a table, got {seen(raw)}.', hint)
            self.names.add(name, KnownName(unclear=True), where)
            return None
        clean = checked(raw, WORK, where, self.faults, "", "a step")
        check_unit(clean["unit"] or "", (*where, "unit"), self.faults)
        if clean["decimals"] is not None and clean["figures"] is not None:
            self.faults.add(where, f'"{name}" has both decimals and figures.', "Keep one of them.")
        expression = self.names.formula(clean["is"], (*where, "is"))
        self.names.add(name, KnownName(unclear=expression is None), where)
        if expression is None:
            return None
        return Step(
            name,
            expression,
            unit=clean["unit"],
            called=clean["called"],
            decimals=clean["decimals"],
            figures=clean["figures"],
            line=self.faults.lines.of(where),
        )

    def requirements(self, raw: Mapping[str, Any]) -> tuple[Requirement, ...]:
        """What must hold, each named in the author's words."""
        if not few(raw, "require", MOST_REQUIREMENTS, self.faults):
            return ()
        found: list[Requirement] = []
        for says, formula in raw.items():
            where: KeyPath = ("require", says)
            expression = self.names.formula(formula, where)
            if self.names.printable(says, where) and expression is not None:
                found.append(Requirement(says, expression, self.faults.lines.of(where)))
        return tuple(found)


def check_unit(unit: str, where: KeyPath, faults: Faults) -> None:
    """A unit of our table, or a fault."""
    if unit_of(unit) is None:
        hint = "Write for example g, cm3, mol/dm3, °C, s, cm3/s, %."
        faults.add(where, f'unknown unit "{one_line(unit, 40)}".', hint)


def few(raw: Mapping[str, Any], name: str, most: int, faults: Faults) -> bool:
    """Whether a table has no more entries than allowed; if not, a fault is added."""
    if len(raw) <= most:
        return True
    faults.add((name,), f"[{name}] has {len(raw)} entries, at most {most} are read.")
    return False
