"""What somebody is shown who has never seen the drawings: pieces to name, scales to read.

Same number, same trial. Drawings come one by one, without names; the list to name them from also
holds twenty names of apparatus that is not drawn.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from drill.bank import read_facts
from drill.drawings import cells, load_picture, scale_drawing
from drill.frozen import replace
from drill.model import Scale
from drill.places import bank_dir
from drill.quantities import FactsRow
from tests.drawings.making import rows, scale_from

FOLDER = bank_dir() / "drawings"
PIECES, SCALES, NOT_DRAWN = 45, 40, 20

# none of them is drawn; each could be taken for something that is
DECOYS = (
    "air condenser", "capillary tube", "combustion tube", "dropping funnel", "drying oven",
    "drying tube", "glass rod", "graduated pipette", "heat-resistant mat",
    "joulemeter", "measuring jug", "micrometer screw gauge", "newton meter", "reagent bottle",
    "rheostat", "side-arm flask", "signal generator", "splash screen", "syringe",
    "three-necked flask", "U-tube", "vernier calipers", "weighing bottle", "white tile", "Y-tube",
)  # fmt: skip


class Trial(NamedTuple):
    """Rows of a screen, what is asked about them, and what they show."""

    shown: tuple[str, ...]
    asked: str
    answer: str


def piece_names() -> tuple[str, ...]:
    """Every piece of apparatus that has a drawing."""
    tables = ("kit", "drawn_kit")
    facts = (row for table in tables for row in read_facts(bank_dir() / "facts" / f"{table}.csv"))
    names = {str(row.cells["name"]) for row in facts if isinstance(row, FactsRow)}
    return tuple(sorted((name for name in names if _file(name).exists()), key=str.lower))


def pieces(seed: int, columns: int = 80, lines: int = 16) -> tuple[tuple[Trial, ...], list[str]]:
    """45 pieces in an order of their own, and the names to choose from."""
    draw = random.Random(seed)
    chosen = draw.sample(piece_names(), PIECES)
    listed = sorted([*chosen, *draw.sample(DECOYS, NOT_DRAWN)], key=str.lower)
    return tuple(_piece(name, columns, lines) for name in chosen), listed


def _piece(name: str, columns: int, lines: int) -> Trial:
    drawing = load_picture(name, FOLDER).drawing
    return Trial(cells(drawing, columns, lines), "name it", name)


def scales(seed: int, columns: int = 80, lines: int = 16) -> tuple[Trial, ...]:
    """40 scales at a level of their own, a whole or a half division; displays are left out."""
    draw = random.Random(seed)
    kinds = [row for row in rows() if row.cells["shape"] != "display"]
    return tuple(
        Trial(cells(scale_drawing(scale), columns, lines), _asked(scale), _reading(scale))
        for scale in _levels([kinds[i % len(kinds)] for i in range(SCALES)], draw)
    )


def _levels(kinds: list[FactsRow], draw: random.Random) -> Iterator[Scale]:
    draw.shuffle(kinds)
    for kind in kinds:
        scale = scale_from(kind)
        halves = int((scale.high - scale.low) / scale.division) * 2
        level = scale.low + draw.randrange(2, halves - 1) * scale.division / 2
        yield replace(scale, reading=level)


def _asked(scale: Scale) -> str:
    return f"part of the scale of: {scale.name}; read it in {scale.unit} to half a small division"


def _reading(scale: Scale) -> str:
    half = f"{float(scale.division / 2):g}"
    return f"{float(scale.reading):.6g} {scale.unit} (half a division: {half}), {scale.name}"


def _file(name: str) -> Path:
    return FOLDER / f"{name.lower().replace(' ', '-')}.svg"
