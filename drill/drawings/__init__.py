"""Drawings: scales with a reading on them, and apparatus in section, as terminal cells or words.

Nothing here is loaded before a question with a picture is shown. Names others use:

    scale_drawing(scale) -> Drawing            an instrument, drawn on whole dots so it is sharp
    SHAPES                                     the shapes of scale that are drawn
    scale_in_words(scale) -> str               the same for a screen reader
    picture_of(question) -> Picture            its own drawing: shapes and words
    load_picture(name, *folders) -> Picture    the same by the name of its file
    read_svg(text, path) -> Picture | Problem  the closed part of SVG that we draw
    graph_grid(graph, columns, rows) -> tuple[str, ...]           its grid alone
    graph_rows(graph, columns, rows) -> tuple[str, ...] | None    a graph, where it can be read
    graph_in_words(graph) -> str               the same, each value read to half a small division
    graph_as_svg(graph) -> str                 the same as vectors, for a page
    cells(drawing, columns, rows) -> tuple[str, ...]     braille rows
    picture_as_svg(picture), scale_as_svg(scale) -> str  apparatus and scales as vectors, for a page

drill has its own code to draw in dots. Libraries that turn SVG into pixels cost 3 to 17 times as
much (resvg-py with pillow 77 ms, skia-python 200 ms, CairoSVG 370 ms, ours 22 ms, processor time
of a fresh process on the drawing of distillation; `python -m tests.bench.first_drawing`), and on
a grid of 160 by 68 dots they lose what the eye needs: a vertical line falls between two dots, a
thin tube closes up, letters become dots. plotille sets the dots of graphs (plotille 32 ms,
plotext 158 ms, uniplot 180 ms with its imports); its canvas is used, not its axes, since it
divides a range evenly and puts a mark at 8.57. drawsvg writes vectors (leather 59 ms, drawsvg 65
ms, pygal 101 ms, svg.py 106 ms, matplotlib 900 ms); it imposes no style.

A graph in words lists what one can see in it: title, axes, plotted points, each line
read at the numbered lines to half a small division (order after UK Association for Accessible
Formats, G014, 2012). Gradient, intercept, anomalies and where a curve levels off are left to the
listener. Hazard symbols are drawn for this project; the frame is black, and the words call it red.
"""

from drill.drawings.cells import cells
from drill.drawings.graph_svg import graph_as_svg
from drill.drawings.graph_words import graph_in_words
from drill.drawings.graphs import graph_grid, graph_rows
from drill.drawings.page import picture_as_svg, scale_as_svg
from drill.drawings.pictures import load_picture, picture_of
from drill.drawings.scales import SHAPES, scale_drawing
from drill.drawings.shapes import Drawing, Picture
from drill.drawings.svg import read_svg
from drill.drawings.words import scale_in_words

__all__ = [
    "SHAPES",
    "Drawing",
    "Picture",
    "cells",
    "graph_as_svg",
    "graph_grid",
    "graph_in_words",
    "graph_rows",
    "load_picture",
    "picture_as_svg",
    "picture_of",
    "read_svg",
    "scale_as_svg",
    "scale_drawing",
    "scale_in_words",
]
