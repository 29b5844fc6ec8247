"""All drawings and scales on one page, to be looked at; and trials for who has never seen them.

python -m tests.bench.drawings_page > drawings.txt              # for a screen of 80 by 24
python -m tests.bench.drawings_page --columns 120 --rows 28     # for one of 120 by 40
python -m tests.bench.drawings_page --html > drawings.html      # as vectors

python -m tests.bench.drawings_page --blind 7 --only 1          # piece 1 of 45, no name
python -m tests.bench.drawings_page --blind 7 --only 0          # the list of names, 20 not drawn
python -m tests.bench.drawings_page --blind 7                   # list and pieces on one page
python -m tests.bench.drawings_page --key 7                     # what they were
python -m tests.bench.drawings_page --scales 7 --only 1         # scale 1 of 40, no reading
python -m tests.bench.drawings_page --scales-key 7              # what they read
python -m tests.bench.drawings_page --graphs 7 --only 1         # graph 1 with what is asked
python -m tests.bench.drawings_page --graphs-key 7              # what the mark scheme accepts
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from html import escape

from drill.drawings import (
    Picture,
    cells,
    graph_as_svg,
    graph_in_words,
    graph_rows,
    load_picture,
    picture_as_svg,
    scale_as_svg,
    scale_drawing,
    scale_in_words,
)  # fmt: skip
from drill.frozen import replace
from drill.model import Graph, Scale
from tests.bench.blind_trial import FOLDER, Trial, pieces, scales
from tests.bench.graph_trial import all_graphs, graphs
from tests.drawings.making import rows, scale_from

Asked = argparse.Namespace


def all_scales() -> Iterator[tuple[str, Scale]]:
    """Each instrument on a line and half-way between two."""
    for row in rows():
        scale = scale_from(row)
        for halves in (46, 73):
            at = scale.low + halves * scale.division / 2
            made = replace(scale, reading=min(at, scale.high))
            yield f"{made.name} at {float(made.reading):g} {made.unit}", made


def all_pictures() -> Iterator[tuple[str, Picture]]:
    for path in sorted(FOLDER.glob("*.svg")):
        yield path.stem, load_picture(path.stem, FOLDER)


def named_graphs() -> Iterator[tuple[str, Graph]]:
    for question in all_graphs():
        assert question.graph is not None
        yield f"{question.template} seed {question.seed}", question.graph


def text_page(asked: Asked) -> Iterator[str]:
    """Drawing and words of each."""
    size = asked.columns, asked.rows
    for title, scale in all_scales():
        yield from (f"== {title}", *cells(scale_drawing(scale), *size), scale_in_words(scale), "")
    for title, picture in all_pictures():
        yield from (f"== {title}", *cells(picture.drawing, *size), picture.words, "")
    for title, graph in named_graphs():
        drawn = graph_rows(graph, *size) or ("too little room",)
        yield from (f"== {title}", *drawn, graph_in_words(graph), "")


def html_page() -> Iterator[str]:
    """All of them as vectors, on white paper."""
    yield "<!DOCTYPE html>"
    yield '<html lang="en"><head><meta charset="utf-8"><title>Drawings</title>'
    yield "<style>figure { display: inline-block; margin: 6mm; }</style></head><body>"
    made = [(title, scale_as_svg(scale)) for title, scale in all_scales()]
    made += [(title, picture_as_svg(picture)) for title, picture in all_pictures()]
    made += [(title, graph_as_svg(graph)) for title, graph in named_graphs()]
    for title, svg in made:
        yield f"<figure><figcaption>{escape(title)}</figcaption>{svg}</figure>"
    yield "</body></html>"


def trial_page(trials: tuple[Trial, ...], only: int | None) -> Iterator[str]:
    for number, trial in enumerate(trials, 1):
        if only in (None, number):
            yield from (f"== {number}: {trial.asked}", *trial.shown, "")


def key(trials: tuple[Trial, ...]) -> Iterator[str]:
    return (f"{number} {trial.answer}" for number, trial in enumerate(trials, 1))


def page(asked: Asked) -> Iterator[str]:
    """The lines asked for."""
    size = asked.columns, asked.rows
    if asked.key is not None:
        yield from key(pieces(asked.key)[0])
    elif asked.scales_key is not None:
        yield from key(scales(asked.scales_key))
    elif asked.graphs_key is not None:
        yield from key(graphs(asked.graphs_key))
    elif asked.graphs is not None:
        yield from trial_page(graphs(asked.graphs, *size), asked.only)
    elif asked.blind is not None:
        trials, names = pieces(asked.blind, *size)
        if not asked.only:
            yield from ("Names to choose from:", *names, "")
        yield from trial_page(trials, asked.only)
    elif asked.scales is not None:
        yield from trial_page(scales(asked.scales, *size), asked.only)
    else:
        yield from html_page() if asked.html else text_page(asked)


def main() -> None:
    parser = argparse.ArgumentParser()
    numbers = ("blind", "key", "scales", "scales-key", "graphs", "graphs-key", "only")
    for name in (f"--{one}" for one in numbers):
        parser.add_argument(name, type=int)
    parser.add_argument("--html", action="store_true")
    parser.add_argument("--columns", type=int, default=80)
    parser.add_argument("--rows", type=int, default=16)
    print("\n".join(page(parser.parse_args())))


if __name__ == "__main__":
    main()
