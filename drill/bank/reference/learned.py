"""The fitted file: what marking learned from sample answers when an author stamped the bank.

It has one JSON value per line, so that only the lines of one question need to be parsed. A line
that cannot be read is ignored.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path
from typing import Any

from drill.model import Leaning, Learned, Way, WordPairs

FITTED = "fitted.jsonl"


class LearnedFile:
    """One folder's fitted file as it was when it was opened."""

    def __init__(self, path: Path) -> None:
        try:
            text = path.read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            text = ""
        self._lines = text.splitlines()
        self.digest = blake2b("\n".join(self._lines).encode(), digest_size=8).hexdigest()

    @lru_cache(maxsize=8)  # noqa: B019  (files live as long as the program)
    def pairs(self) -> WordPairs | None:
        """The word pairs, or None where the file has none."""
        for line in self._lines:
            if line.startswith('{"word_pairs"'):
                return _pairs(_read(line).get("word_pairs"), line)
        return None

    def part(self, question: str, letter: str, pairs: WordPairs | None) -> Learned:
        """What was learned for a part; only the word pairs if it has no samples."""
        name = json.dumps(question)
        for line in self._lines:
            if name in line:
                row = _read(line)
                if (row.get("question"), row.get("part")) == (question, letter):
                    return _learned(row, pairs)
        return Learned(pairs)


def _read(line: str) -> Mapping[str, Any]:
    try:
        row = json.loads(line)
    except (ValueError, RecursionError):
        return {}
    return row if isinstance(row, dict) else {}


def _pairs(raw: Any, line: str) -> WordPairs | None:
    if not isinstance(raw, dict):
        return None
    words, pairs = _counts(raw.get("words")), _counts(raw.get("pairs"))
    if not words or not pairs:
        return None
    return WordPairs(blake2b(line.encode(), digest_size=8).hexdigest(), words, pairs)


def _counts(raw: Any) -> Mapping[str, int]:
    good = isinstance(raw, dict) and all(type(value) is int for value in raw.values())
    return raw if good else {}


def _learned(row: Mapping[str, Any], pairs: WordPairs | None) -> Learned:
    samples, leanings = row.get("samples"), row.get("leanings")
    if type(samples) is not int or not isinstance(leanings, dict):
        return Learned(pairs)
    read = {point: _leaning(one) for point, one in leanings.items()}
    known = {point: one for point, one in read.items() if one is not None}
    ways = row.get("ways")
    read_ways = [_way(one) for one in ways] if isinstance(ways, list) else []
    kept = tuple(one for one in read_ways if one is not None)
    return Learned(pairs, samples, known, _roles(row.get("roles")), kept)


def _way(raw: Any) -> Way | None:
    points = raw.get("points") if isinstance(raw, dict) else None
    if not isinstance(points, list) or not all(isinstance(one, str) for one in points):
        return None
    return Way(frozenset(points), _roles(raw.get("roles")))


def _roles(raw: Any) -> Mapping[str, Mapping[str, float]]:
    if not isinstance(raw, dict):
        return {}
    return {
        word: {name: float(by) for name, by in seen.items() if _is_count(by)}
        for word, seen in raw.items()
        if isinstance(seen, dict)
    }


def _is_count(value: Any) -> bool:
    return isinstance(value, int | float) and value >= 0


def _leaning(raw: Any) -> Leaning | None:
    if not isinstance(raw, list) or len(raw) != 2:
        return None
    start, adds = raw
    if not isinstance(start, int | float) or not isinstance(adds, dict):
        return None
    numbers = {name: float(by) for name, by in adds.items() if isinstance(by, int | float)}
    return Leaning(float(start), numbers)
