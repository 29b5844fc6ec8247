"""Drawings: scales with a reading on them, and apparatus in section, as terminal cells or words.

Nothing here is loaded before a question with a picture is shown. Names others use:

    scale_drawing(scale) -> Drawing            an instrument, sharp at one dot to one dot
    SHAPES                                     the shapes of scale that are drawn
    scale_in_words(scale) -> str               the same for a screen reader
    load_picture(name, folder) -> Picture      a file of drawings/: its Drawing and its words
    read_svg(text, path) -> Picture | Problem  the closed part of SVG that we draw
    graph_rows(graph, columns, rows) -> tuple[str, ...] | None    a graph, where it can be read
    graph_in_words(graph) -> str               the same, each value read to half a small division
    graph_as_svg(graph) -> str                 the same as vectors, for a page
    cells(drawing, columns, rows) -> tuple[str, ...]     braille rows
    picture_as_svg(picture), scale_as_svg(scale) -> str  apparatus and scales as vectors, for a page
"""

from drill.drawings.cells import cells
from drill.drawings.graph_svg import graph_as_svg
from drill.drawings.graph_words import graph_in_words
from drill.drawings.graphs import graph_rows
from drill.drawings.page import picture_as_svg, scale_as_svg
from drill.drawings.pictures import load_picture
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
    "graph_in_words",
    "graph_rows",
    "load_picture",
    "picture_as_svg",
    "read_svg",
    "scale_as_svg",
    "scale_drawing",
    "scale_in_words",
]
