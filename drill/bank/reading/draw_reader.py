"""Reads and checks an author's [draw] tables. No random values are drawn here."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import Any

from drill.bank.files.faults import Faults, nearest
from drill.bank.files.toml_lines import KeyPath
from drill.bank.files.validation import checked
from drill.bank.reading.name_checks import KnownName, NameScope, written
from drill.bank.reading.work_reader import check_unit, few
from drill.bank.reference.row_filters import eligible
from drill.bank.reference.sources import Sources
from drill.bank.schema.fields import is_number, seen
from drill.bank.schema.template_schema import DRAW, DRAW_TOLD_BY
from drill.model import Draw
from drill.plaintext import one_line
from drill.quantities import PLAIN, Expression, FactsRow, Quantity, Value, unit_of

MOST_DRAWS = 40


class Draws:
    """Reads the draws of a question in file order."""

    def __init__(self, names: NameScope, sources: Sources, path: Path) -> None:
        self.names, self.sources, self.path = names, sources, path
        self.faults: Faults = names.faults

    # ---------------------------------------------------------------- draws

    def draws(self, raw: Mapping[str, Any]) -> tuple[Draw, ...]:
        """Every draw; each knows only the names before it."""
        if not few(raw, "draw", MOST_DRAWS, self.faults):
            return ()
        found = [self._draw(name, value, ("draw", name)) for name, value in raw.items()]
        return tuple(draw for draw in found if draw is not None)

    def _draw(self, name: str, raw: Any, where: KeyPath) -> Draw | None:
        before = len(self.faults.found)
        draw = self._read_draw(name, raw, where)
        if draw is None or len(self.faults.found) > before:
            self.names.add(name, KnownName(unclear=True), where)
            return None
        several = draw.kind in ("shuffle", "pick", "readings")
        self.names.add(name, KnownName(draw.rows, several), where)
        return draw

    def _read_draw(self, name: str, raw: Any, where: KeyPath) -> Draw | None:
        shown = one_line(name, 40)
        if not isinstance(raw, dict):
            hint = f"Write for example: {shown} = {{ from = 20, to = 40, step = 5 }}"
            self.faults.add(where, f'the draw "{shown}" must be a table, got {seen(raw)}.', hint)
            return None
        kinds = [kind for key, kind in DRAW_TOLD_BY.items() if key in raw]
        if len(kinds) != 1:
            hint = "Give it one of " + ", ".join(DRAW_TOLD_BY) + "."
            what = "does not say what is drawn" if not kinds else "says more than one thing"
            self.faults.add(where, f'the draw "{shown}" {what}.', hint)
            return None
        if raw.get("person") is False:
            self.faults.add((*where, "person"), "person is false.", "Write person = true.")
        clean = checked(raw, DRAW, where, self.faults, kinds[0], f"the draw {shown}")
        return self._made(name, kinds[0], clean, where)

    def _made(self, name: str, kind: str, clean: Mapping[str, Any], where: KeyPath) -> Draw:
        """The draw of a kind, from its checked keys."""
        check_unit(clean.get("unit") or "", (*where, "unit"), self.faults)
        rows = eligible(clean, where, self.sources, self.path, self.faults) if kind == "row" else ()
        listed = {"choice": "one_of", "shuffle": "shuffle", "pick": "of"}.get(kind, "")
        choices = self._choices(clean.get(listed) or [], clean, (*where, listed)) if listed else ()
        return Draw(
            name,
            kind,
            self.faults.lines.of(where),
            start=self._formula(clean, "from", where),
            stop=self._formula(clean, "to", where),
            step=self._formula(clean, "step", where),
            unit=clean.get("unit") or "",
            decimals=_decimals(clean),
            choices=choices,
            rows=rows,
            table=clean.get("row_of") or "",
            count=self._count(kind, clean, where),
            centre=self._formula(clean, "centre", where),
            spread=self._formula(clean, "spread", where),
            anomaly=bool(clean.get("anomaly")),
            first=self._first(kind, clean, choices, rows, where),
        )

    def _formula(self, clean: Mapping[str, Any], key: str, where: KeyPath) -> Expression | None:
        return self.names.formula(clean.get(key), (*where, key))

    def _count(self, kind: str, clean: Mapping[str, Any], where: KeyPath) -> int:
        count = clean.get("pick") or clean.get("readings") or 0
        if kind == "pick" and clean.get("of") is not None and count > len(clean["of"]):
            message = f"cannot pick {count} of {len(clean['of'])}."
            self.faults.add((*where, "pick"), message, "Add to `of`, or pick fewer.")
        return int(count)

    def _choices(
        self, raw: list[Any], clean: Mapping[str, Any], where: KeyPath
    ) -> tuple[Value, ...]:
        """The values of a list: all numbers (in the draw's unit) or all text."""
        words = [value for value in raw if isinstance(value, str)]
        numbers = [value for value in raw if is_number(value)]
        if len(words) == len(raw):
            if clean.get("unit"):
                self.faults.add(where, "text has no unit.", "Take unit out, or the quotes.")
            return self.names.texts(words, where)
        if len(numbers) != len(raw):
            hint = "Write all of them as numbers, or all of them in quotes."
            self.faults.add(where, "the list must be numbers only or text only.", hint)
            return ()
        return tuple(_quantity(value, clean) for value in numbers)

    # ---------------------------------------------------------------- seed 0

    def _first(
        self,
        kind: str,
        clean: Mapping[str, Any],
        choices: tuple[Value, ...],
        rows: tuple[FactsRow, ...],
        where: KeyPath,
    ) -> Value | None:
        """The value for seed 0, checked against what can be drawn."""
        raw = clean.get("first")
        if raw is None:
            return None
        value: Value = _quantity(raw, clean) if is_number(raw) else raw
        where = (*where, "first")
        if kind == "row" and raw not in {row.id for row in rows}:
            message = f"first must be the id of a row that can be drawn, got {seen(raw)}."
            self.faults.add(where, message, nearest(str(raw), (row.id for row in rows)))
        elif kind == "choice" and not _among(value, choices):
            hint = nearest(str(raw), (c for c in choices if isinstance(c, str)))
            self.faults.add(where, f"first must be one of the list, got {seen(raw)}.", hint)
        elif kind == "range":
            self._check_within(raw, clean, where)
        elif kind == "names" and not isinstance(value, str):
            self.faults.add(where, f"first must be a name in quotes, got {seen(raw)}.")
        return value

    def _check_within(self, first: Any, clean: Mapping[str, Any], where: KeyPath) -> None:
        """Checks that a number is within the range of the draw, as far as the range is known."""
        low, high = clean.get("from"), clean.get("to")
        if not is_number(first):
            self.faults.add(where, f"first must be a number, got {seen(first)}.")
        elif (is_number(low) and first < low) or (is_number(high) and first > high):
            message = f"first must be from {seen(low)} to {seen(high)}, got {seen(first)}."
            self.faults.add(where, message)


def _quantity(value: int | Decimal, clean: Mapping[str, Any]) -> Quantity:
    """A number of a list, shown as it is written unless the draw says otherwise."""
    decimals = clean.get("decimals")
    unit = unit_of(clean.get("unit") or "") or PLAIN
    return Quantity(Fraction(value), unit, _places(value) if decimals is None else decimals)


def _among(value: Value, choices: tuple[Value, ...]) -> bool:
    """Whether it is one of the choices; 1.5 is 1.50, though they are shown differently."""
    if not isinstance(value, Quantity):
        return value in choices
    return value.value in [one.value for one in choices if isinstance(one, Quantity)]


def _decimals(clean: Mapping[str, Any]) -> int | None:
    """Decimal places shown: as the author says, else the most that from, to or step has."""
    if clean.get("decimals") is not None:
        return int(clean["decimals"])
    given = [clean[key] for key in ("from", "to", "step") if is_number(clean.get(key))]
    return max(map(_places, given)) if is_number(clean.get("step")) else None


def _places(value: int | Decimal) -> int:
    if isinstance(value, int):
        return 0
    digits = written(value).partition(".")[2]
    return min(len(digits), 8)
