"""All drawings and scales on one page of text, to be looked at.

python -m tests.bench.drawings_page > drawings.txt
python -m tests.bench.drawings_page --blind 7 > blind.txt     # shuffled, numbered, no names
python -m tests.bench.drawings_page --key 7                   # what the numbers were
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from drill.drawings import cells, load_picture, scale_drawing, scale_in_words
from drill.places import bank_dir
from tests.drawings.making import rows, scale_from

Page = tuple[str, tuple[str, ...], str]
FOLDER = bank_dir() / "drawings"


def scales() -> Iterator[Page]:
    """Each instrument on a line and half-way between two."""
    for row in rows():
        scale = scale_from(row)
        for halves in (46, 73):
            at = scale.low + halves * scale.division / 2
            made = replace(scale, reading=min(at, scale.high))
            title = f"{made.name} at {float(made.reading):g} {made.unit}"
            yield title, cells(scale_drawing(made), 80, 17), scale_in_words(made)


def drawings(paths: list[Path]) -> Iterator[Page]:
    for path in paths:
        picture = load_picture(path.stem, FOLDER)
        yield path.stem, cells(picture.drawing, 80, 17), picture.words


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--blind", type=int)
    parser.add_argument("--key", type=int)
    asked = parser.parse_args()
    paths = sorted(FOLDER.glob("*.svg"))
    seed = asked.blind if asked.blind is not None else asked.key
    if seed is not None:
        random.Random(seed).shuffle(paths)
    if asked.key is not None:
        print("\n".join(f"{number} {path.stem}" for number, path in enumerate(paths, 1)))
        return
    pages = drawings(paths) if seed is not None else (*scales(), *drawings(paths))
    for number, (title, picture, words) in enumerate(pages, 1):
        print(f"== {number if seed is not None else title}")
        print("\n".join(picture))
        print("" if seed is not None else f"{words}\n")


if __name__ == "__main__":
    main()
