"""The golden file: what every template of this folder gives for five seeds, written out in full.

    python -m tests.generate.golden

writes it anew. Do that only together with a higher `ENGINE` in drill/bank/version.py: learners'
stored answers name a template, a version and a seed, and must still show what was asked.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from drill.model import ChoiceKey, Key, NumberKey, OrderKey, Question, TableKey
from tests.generate.making import NAMES, question, template

FILE = Path(__file__).parents[1] / "golden" / "questions.json"
SEEDS = 5


def as_plain(made: Question) -> dict[str, Any]:
    """Everything a student sees and is marked by."""
    return {
        "title": made.title,
        "text": made.text,
        "safety": made.safety,
        "parts": [
            {
                "ask": part.ask,
                "hint": part.hint,
                "marks": part.marks,
                "unit": part.unit,
                "points": [[point.id, point.says, point.marks] for point in part.points],
                "model_answer": part.model_answer,
                "worked": part.worked.splitlines(),
                "key": _key(part.key),
            }
            for part in made.parts
        ],
    }


def _key(key: Key) -> Any:
    if isinstance(key, NumberKey):
        slips = [[slip.id, str(slip.value), slip.text, slip.says] for slip in key.slips]
        return {"value": str(key.value), "unit": key.unit, "slips": slips}
    if isinstance(key, TableKey):
        return {name: _key(cell) for name, cell in key.cells.items()}
    if isinstance(key, ChoiceKey):
        return [[option.letter, option.text, option.right] for option in key.options]
    if isinstance(key, OrderKey):
        return [list(step) for step in key.steps]
    return None


def questions() -> dict[str, list[dict[str, Any]]]:
    """`{template: [question of seed 0, of seed 1, …]}`."""
    return {
        name: [as_plain(question(template(name), seed)) for seed in range(SEEDS)] for name in NAMES
    }


def as_text() -> str:
    """The golden file as it should be."""
    return json.dumps(questions(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(as_text(), "utf-8")
