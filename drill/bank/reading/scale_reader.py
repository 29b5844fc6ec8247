"""An author's `scale`: which instrument is drawn with a question, and what it shows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from drill.bank.files.faults import nearest_or_all
from drill.bank.files.validation import checked
from drill.bank.reading.name_checks import NameScope
from drill.bank.reference.row_filters import columns_of
from drill.bank.schema.template_schema import SCALE
from drill.model import ScaleSpec
from drill.plaintext import one_line

# what a row must say for its scale to be drawn
COLUMNS = ("shape", "name", "unit", "low", "high", "division", "spaces")


def read_scale(raw: Mapping[str, Any] | None, names: NameScope) -> ScaleSpec | None:
    """The scale, once draws and steps are known; None when there is none, or it has a fault."""
    if raw is None:
        return None
    clean = checked(raw, SCALE, ("scale",), names.faults, "", "scale")
    reads = names.formula(clean["reads"], ("scale", "reads"))
    of = clean["of"]
    if of is None or reads is None:
        return None
    known = names.known.get(of)
    if known is None or not (known.rows or known.unclear):
        rows = [name for name, one in names.known.items() if one.rows]
        message = f'no draw "{one_line(of, 40)}" holds a row of facts.'
        names.faults.add(("scale", "of"), message, nearest_or_all(of, rows))
        return None
    columns = columns_of(known.rows)
    missing = [name for name in COLUMNS if known.rows and name not in columns]
    if missing:
        message = f"{known.rows[0].table}.csv has no {', '.join(missing)}, so it is no scale."
        names.faults.add(("scale", "of"), message, "Draw a row of instruments.csv.")
    return ScaleSpec(of, reads, names.faults.lines.of(("scale",)))
