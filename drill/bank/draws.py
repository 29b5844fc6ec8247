"""An author's [draw], [work] and [require] become draws, steps and requirements."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from drill.bank.faults import Faults, nearest, nearest_or_all
from drill.bank.keys import checked, is_number, seen
from drill.bank.names import Known, Names, written
from drill.bank.schema import DRAW, DRAW_TOLD_BY, WORK
from drill.bank.sources import Sources, cell_is, columns_of, rows_where
from drill.bank.toml_lines import Path
from drill.model import Draw, Requirement
from drill.plaintext import one_line
from drill.quantities import PLAIN, Expression, Quantity, Row, Step, Value, unit_of

MOST_DRAWS = 40
MOST_STEPS = 80
MOST_REQUIREMENTS = 40


class Numbers:
    """Reads the tables that give a question its numbers, in the order they stand in the file."""

    def __init__(self, names: Names, sources: Sources) -> None:
        self.names, self.sources = names, sources
        self.faults: Faults = names.faults

    # ---------------------------------------------------------------- draws

    def draws(self, raw: Mapping[str, Any]) -> tuple[Draw, ...]:
        """Every draw; each knows only the names before it."""
        if not _few(raw, "draw", MOST_DRAWS, self.faults):
            return ()
        found = [self._draw(name, value, ("draw", name)) for name, value in raw.items()]
        return tuple(draw for draw in found if draw is not None)

    def _draw(self, name: str, raw: Any, where: Path) -> Draw | None:
        before = len(self.faults.found)
        draw = self._read_draw(name, raw, where)
        if draw is None or len(self.faults.found) > before:
            self.names.add(name, Known(unclear=True), where)
            return None
        several = draw.kind in ("shuffle", "pick", "readings")
        self.names.add(name, Known(draw.rows, several), where)
        return draw

    def _read_draw(self, name: str, raw: Any, where: Path) -> Draw | None:
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
        clean = checked(raw, DRAW, where, self.faults, kinds[0], f"the draw {shown}")
        return self._made(name, kinds[0], clean, where)

    def _made(self, name: str, kind: str, clean: Mapping[str, Any], where: Path) -> Draw:
        """The draw of a kind, from its checked keys."""
        self._check_unit(clean.get("unit") or "", (*where, "unit"))
        rows = self._rows(clean, where) if kind == "row" else ()
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

    def _formula(self, clean: Mapping[str, Any], key: str, where: Path) -> Expression | None:
        return self.names.formula(clean.get(key), (*where, key))

    def _count(self, kind: str, clean: Mapping[str, Any], where: Path) -> int:
        count = clean.get("pick") or clean.get("readings") or 0
        if kind == "pick" and clean.get("of") is not None and count > len(clean["of"]):
            message = f"cannot pick {count} of {len(clean['of'])}."
            self.faults.add((*where, "pick"), message, "Add to `of`, or pick fewer.")
        return int(count)

    def _check_unit(self, unit: str, where: Path) -> None:
        check_unit(unit, where, self.faults)

    def _choices(self, raw: list[Any], clean: Mapping[str, Any], where: Path) -> tuple[Value, ...]:
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

    # ---------------------------------------------------------------- rows of facts

    def _rows(self, clean: Mapping[str, Any], where: Path) -> tuple[Row, ...]:
        """The rows of the table that meet `where`."""
        table = clean.get("row_of")
        if table is None:
            return ()
        loaded = self.sources.facts(table)
        if loaded is None:
            hint = nearest_or_all(table, self.sources.tables())
            message = f'there is no table of facts "{one_line(table, 40)}".'
            self.faults.add((*where, "row_of"), message, hint)
            return ()
        rows, problems = loaded
        self.faults.found.extend(problems)
        if problems:
            return ()
        before = len(self.faults.found)
        wanted = self._wanted(rows, clean.get("where") or {}, (*where, "where"))
        kept = rows_where(rows, wanted)
        if not kept and len(self.faults.found) == before:
            message = f"no row of {table}.csv meets all of where."
            self.faults.add((*where, "where"), message, "Take a condition out.")
        return kept

    def _wanted(
        self, rows: tuple[Row, ...], raw: Mapping[str, Any], where: Path
    ) -> dict[str, tuple[object, ...]]:
        columns = ["id", *columns_of(rows)]
        wanted: dict[str, tuple[object, ...]] = {}
        for column, value in raw.items():
            table = rows[0].table if rows else "the table"
            if column not in columns:
                message = f'{table}.csv has no column "{one_line(column, 40)}".'
                self.faults.add((*where, column), message, nearest_or_all(column, columns))
                continue
            values = tuple(value) if isinstance(value, list) else (value,)
            for one in values:
                self._check_wanted(rows, column, one, (*where, column))
            wanted[column] = values
        return wanted

    def _check_wanted(self, rows: tuple[Row, ...], column: str, value: Any, where: Path) -> None:
        if any(cell_is(row, column, value) for row in rows):
            return
        cells = [row.id if column == "id" else row.cells.get(column) for row in rows]
        words = [cell for cell in cells if isinstance(cell, str)]
        message = f"no row of {rows[0].table}.csv has {column} {seen(value)}."
        self.faults.add(where, message, nearest_or_all(str(value), words))

    # ---------------------------------------------------------------- seed 0

    def _first(
        self,
        kind: str,
        clean: Mapping[str, Any],
        choices: tuple[Value, ...],
        rows: tuple[Row, ...],
        where: Path,
    ) -> Value | None:
        """What seed 0 takes, held against what can be drawn."""
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
        elif kind == "range" and not isinstance(value, Quantity):
            self.faults.add(where, f"first must be a number, got {seen(raw)}.")
        elif kind == "names" and not isinstance(value, str):
            self.faults.add(where, f"first must be a name in quotes, got {seen(raw)}.")
        return value

    # ---------------------------------------------------------------- work and requirements

    def steps(self, raw: Mapping[str, Any]) -> tuple[Step, ...]:
        """The steps of [work]; each knows the draws and the steps before it."""
        if not _few(raw, "work", MOST_STEPS, self.faults):
            return ()
        found = [self._step(name, value, ("work", name)) for name, value in raw.items()]
        return tuple(step for step in found if step is not None)

    def _step(self, name: str, raw: Any, where: Path) -> Step | None:
        if not isinstance(raw, dict):
            shown = one_line(name, 40)
            hint = f'Write for example: {shown} = {{ is = "2 * 3" }}'
            self.faults.add(where, f'the step "{shown}" must be a table, got {seen(raw)}.', hint)
            self.names.add(name, Known(unclear=True), where)
            return None
        clean = checked(raw, WORK, where, self.faults, "", "a step")
        self._check_unit(clean["unit"] or "", (*where, "unit"))
        if clean["decimals"] is not None and clean["figures"] is not None:
            self.faults.add(where, f'"{name}" has both decimals and figures.', "Keep one of them.")
        expression = self.names.formula(clean["is"], (*where, "is"))
        self.names.add(name, Known(unclear=expression is None), where)
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
        if not _few(raw, "require", MOST_REQUIREMENTS, self.faults):
            return ()
        found: list[Requirement] = []
        for says, formula in raw.items():
            where: Path = ("require", says)
            expression = self.names.formula(formula, where)
            if self.names.printable(says, where) and expression is not None:
                found.append(Requirement(says, expression, self.faults.lines.of(where)))
        return tuple(found)


def check_unit(unit: str, where: Path, faults: Faults) -> None:
    """A unit of our table, or a fault."""
    if unit_of(unit) is None:
        hint = "Write for example g, cm3, mol/dm3, °C, s, cm3/s, %."
        faults.add(where, f'unknown unit "{one_line(unit, 40)}".', hint)


def _few(raw: Mapping[str, Any], name: str, most: int, faults: Faults) -> bool:
    if len(raw) <= most:
        return True
    faults.add((name,), f"[{name}] has {len(raw)} entries, at most {most} are read.")
    return False


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
    """Places shown: as the author says, else the most that from, to and step are written with."""
    if clean.get("decimals") is not None:
        return int(clean["decimals"])
    given = [clean[key] for key in ("from", "to", "step") if is_number(clean.get(key))]
    return max(map(_places, given)) if is_number(clean.get("step")) else None


def _places(value: int | Decimal) -> int:
    if isinstance(value, int):
        return 0
    digits = written(value).partition(".")[2]
    return min(len(digits), 8)
