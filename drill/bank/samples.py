"""Sample answers beside a question, and whether there are enough to trust its written scheme."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

from drill.frozen import replace
from drill.model import PartSpec
from drill.plaintext import part_letter

# A scheme never held against real wording agrees with a person far less often than one that was;
# the number is our own, no source.
ENOUGH_ANSWERS = 35
MOST_LINES = 5000


def answers_path(path: Path) -> Path:
    """Where a question's sample answers stand: `why-excess.answers.jsonl` beside its file."""
    return path.with_name(f"{path.stem}.answers.jsonl")


def with_proof(parts: tuple[PartSpec, ...], path: Path) -> tuple[PartSpec, ...]:
    """The parts; a part marked by patterns is unproven with fewer than `ENOUGH_ANSWERS` samples."""
    if not any(part.points for part in parts):
        return parts
    counts = _counted(answers_path(path))
    return tuple(
        replace(part, unproven=True)
        if part.points and counts[part_letter(index)] < ENOUGH_ANSWERS
        else part
        for index, part in enumerate(parts)
    )


def _counted(path: Path) -> Counter[str]:
    """Number of answers by part; lines that cannot be read are not counted."""
    found: Counter[str] = Counter()
    try:
        rows = path.read_text(encoding="utf-8", errors="replace").splitlines()[:MOST_LINES]
    except OSError:
        return found
    for row in rows:
        try:
            answer = json.loads(row)
        except (ValueError, RecursionError):
            continue
        if isinstance(answer, dict) and isinstance(answer.get("part"), str):
            found[answer["part"]] += 1
    return found
