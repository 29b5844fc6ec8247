"""Drawings with larger letters: for large print, and for a board seen from the back of a room."""

from __future__ import annotations

import re

from drill.documents.values import Block, Figure, Kept
from drill.frozen import replace

_SIZE = re.compile(r'font-size="(\d+(?:\.\d+)?)"')


def with_larger_words(block: Block, times: float) -> Block:
    """The block with the letters of its drawings so many times as large, their lines as before."""
    if isinstance(block, Kept):
        return Kept(tuple(with_larger_words(one, times) for one in block.blocks))
    if isinstance(block, Figure):
        return replace(block, vectors=_SIZE.sub(lambda found: _larger(found, times), block.vectors))
    return block


def _larger(found: re.Match[str], times: float) -> str:
    return f'font-size="{float(found[1]) * times:.2f}"'
