"""The general rooms speak of no science: its words are in its own package, or here with a reason.

Read are the names and texts of the code. Comments and docstrings are not: an example may be of the
bank that is shipped. `drill.judge` is left out: it reads every question by itself, whatever of.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]

# units are no science's own: mol and its spellings are not among them
WORDS = re.compile(
    r"(?i)(?<![a-z])("
    r"acids?|alkalis?|salts?|molar\w*|titrat\w*|titres?|copper|magnesium|sodium|zinc|iron|chlor\w+"
    r"|sul[fp]\w+|nitr\w+|\w*oxides?|carbonates?|crystal\w*|reagents?|indicators?|burettes?"
    r"|pipettes?|ions?|ionic|isotopes?|electroly\w+|chemi\w+|atomic|molecul\w+|hydrogen|oxygen"
    r"|evaporat\w*|dilut\w+|solub\w+|aqueous|aq|\w*ide\b(?<!side)(?<!wide)(?<!divide)(?<!decide)"
    r"(?<!hide)(?<!guide)(?<!slide)|formula.?mass\w*|masses|equations?|species|stoich\w+"
    r"|[A-Z][a-z]?SO4\S*|NaCl|H2O|HCl|CuO|MgO"
    r")(?![a-z])"
)

_EXAMPLE = "an example that authors copy, of the bank that is shipped"
_APPARATUS = "an instrument that can be drawn; laboratories of every science have it"
_UNIT = "a unit's name"
_SPELLING = "British and American spelling of one English word"
ALLOWED: dict[str, tuple[str, str]] = {
    "app/papers/reading_height.py": ("burette", _APPARATUS),
    "bank/authoring/new_decks.py": ("salts", _EXAMPLE),
    "marking/written/word_order.py": ("ide", "an ending among others of English words"),
    "marking/written/feedback.py": ("crystallis crystalliz sulph", _SPELLING),
    "bank/reading/deck_reader.py": ("salts", _EXAMPLE),
    "bank/reading/point_reader.py": ("acid", _EXAMPLE),
    "bank/reading/template_reader.py": ("salts", _EXAMPLE),
    "bank/reference/reference_files.py": ("chemistry salt soluble titration", _EXAMPLE),
    "bank/schema/deck_schema.py": ("evaporating salts", _EXAMPLE),
    "bank/schema/graph_schema.py": ("acid magnesium", _EXAMPLE),
    "bank/schema/part_schema.py": ("acid copper crystals evaporate evaporating oxide", _EXAMPLE),
    "bank/schema/schema_docs.py": ("salts", _EXAMPLE),
    "bank/schema/template_schema.py": (
        "acid burette copper crystal crystals cuo evaporating oxide salts sulfate",
        _EXAMPLE,
    ),
    "cli/appeals.py": ("acid", _EXAMPLE),
    "cli/deck.py": ("salts", _EXAMPLE),
    "cli/start.py": ("titration", _EXAMPLE),
    "cli/deck_new.py": ("salts", _EXAMPLE),
    "drawings/scales.py": ("burette", _APPARATUS),
    "drawings/words.py": ("burette", _APPARATUS),
    "marking/numeric/cells.py": ("titre", _SPELLING),
    "quantities/units/unit_table.py": ("molar", _UNIT),
    "typed/variants.py": ("sulph", _SPELLING),
}


@cache
def code_of(path: Path) -> tuple[tuple[int, str], ...]:
    """The names and texts of a module with their lines, docstrings left out."""
    return tuple(_code_of(path))


def _code_of(path: Path) -> Iterator[tuple[int, str]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    said = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in said:
            yield node.lineno, node.value
        name = (
            getattr(node, "id", None) or getattr(node, "attr", None) or getattr(node, "arg", None)
        )
        if name or isinstance(node, ast.FunctionDef | ast.ClassDef):
            yield node.lineno, (name or node.name).replace("_", " ")  # type: ignore[attr-defined]


def said() -> dict[str, set[str]]:
    """File -> the words of a science in it."""
    found: dict[str, set[str]] = {}
    for path in sorted((ROOT / "drill").rglob("*.py")):
        name = path.relative_to(ROOT / "drill").as_posix()
        if name.startswith(("subjects/chemistry/", "judge/")):
            continue
        words = {match[0].lower() for _, text in code_of(path) for match in WORDS.finditer(text)}
        if words:
            found[name] = words
    return found


def _split(words: set[str]) -> set[str]:
    return {one for word in words for one in word.split()}


def test_a_general_room_says_no_word_of_a_science() -> None:
    for name, words in said().items():
        allowed, _ = ALLOWED.get(name, ("", ""))
        assert _split(words) <= set(allowed.split()), f"drill/{name}"


def test_what_is_allowed_is_still_said() -> None:
    found = said()
    for name, (words, reason) in ALLOWED.items():
        assert set(words.split()) == _split(found.get(name, set())), f"drill/{name}: {reason}"


def test_the_words_are_those_of_the_subject() -> None:
    """The list would find chemistry: its package says dozens of them."""
    package = ROOT / "drill" / "subjects" / "chemistry"
    text = " ".join(text for path in package.glob("*.py") for _, text in code_of(path))
    assert len({match[0].lower() for match in WORDS.finditer(text)}) > 30
