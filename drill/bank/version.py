"""The fingerprint of a question: which text, facts and shared slips it was made from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from hashlib import blake2b
from typing import Any

from drill.quantities import FactsRow, Quantity

# Raised only when some question or key would come out differently for the same text and seed.
ENGINE = 2


def version_of(
    text: str, rows: Iterable[FactsRow], slips: Mapping[str, str], engine: int = ENGINE
) -> str:
    """Hex of BLAKE2b-128 over the newline-normalised text, facts rows, shared slips and engine.

    The order of rows and slips does not matter, and neither does where a fact's source is named.
    """
    return _hash(text, kept_rows(rows), slips, engine)


def kept_rows(rows: Iterable[FactsRow]) -> list[dict[str, Any]]:
    """Facts rows as they are kept with a text: `{"table", "id", "cells": {name: text}}`."""
    return [
        {
            "table": row.table,
            "id": row.id,
            "cells": {name: _cell_text(cell) for name, cell in row.cells.items()},
        }
        for row in rows
    ]


def is_version(
    version: str, text: str, rows: Iterable[Mapping[str, Any]], slips: Mapping[str, str]
) -> bool:
    """Whether a stored text with its rows and slips has this hash (this engine or an earlier one).

    Raises:
        TypeError, KeyError, AttributeError: the rows or slips are not of the kept form.
    """
    rows = list(rows)
    return any(_hash(text, rows, slips, engine) == version for engine in range(1, ENGINE + 1))


def _hash(
    text: str, rows: Iterable[Mapping[str, Any]], slips: Mapping[str, str], engine: int
) -> str:
    digest = blake2b(digest_size=16)
    pieces = [str(engine), normalised(text)]
    pieces += sorted(_row_text(row) for row in rows)
    pieces += [f"{id_}\t{says}" for id_, says in sorted(slips.items())]
    for piece in pieces:
        raw = piece.encode("utf-8", "surrogatepass")
        digest.update(len(raw).to_bytes(8, "big") + raw)  # lengths keep the pieces apart
    return digest.hexdigest()


def normalised(text: str) -> str:
    """The text with every line ending as a single newline and no byte-order mark."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n")


def _row_text(row: Mapping[str, Any]) -> str:
    cells = [f"{name}={cell}" for name, cell in sorted(row["cells"].items())]
    return "\t".join([row["table"], row["id"], *cells])


def _cell_text(cell: Quantity | str) -> str:
    if isinstance(cell, str):
        return f"text {cell}"
    return f"{cell.value} {cell.unit.symbol} {cell.decimals}"
