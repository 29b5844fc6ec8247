"""One model of a document, and a writer a module for each thing it is written to.

    values       headings, paragraphs, parts, answer lines, tables, figures, charts, lists
    terminal     lines of text for a screen of a given width, or for a screen reader
    html         one file for a browser or a printer: inline vectors, no script, nothing fetched

A report is a function from the rows of a use case to a `Document` (`weak_report`). A further writer
is a module with a function `write(document) -> str` and a line in `WRITERS`.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from drill.documents.values import Document

WRITERS = {"terminal": "drill.documents.terminal", "html": "drill.documents.html"}
"""What a document can be written as, and the module that does it."""


def writer(name: str) -> Callable[[Document], str]:
    """The function that writes a document as `name`, loaded now; `KeyError` when there is none."""
    found: Callable[[Document], str] = import_module(WRITERS[name]).write
    return found
