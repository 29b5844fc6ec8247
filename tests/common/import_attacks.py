"""Crafted files imported into a store: what comes of it."""

from __future__ import annotations

from pathlib import Path

from drill.store import Store
from tests.common.attacks import everyday, fresh, rows_of, two_learners
from tests.common.crafted import Records
from tests.common.ends import ends


def records_of(home: Path, code: str) -> Records:
    """A learner's history as an export would tell it."""
    with Store.open(home / "drill.db") as store:
        who = next(one for one in store.learners() if one.code == code)
        return list(store.history(who).records)


def attack_by_import(home: Path, lines: list[bytes], other: str) -> list[str]:
    """What a crafted file does to `other`, and to everyday commands of all who are here then."""
    before = rows_of(home, other)
    file = home / "crafted.jsonl"
    file.write_bytes(b"\n".join(lines))
    end = ends("data", "import", str(file))
    wrong = [] if end.is_clean and len(end.lines) <= 40 else [f"import: {end.code} {end.err[:300]}"]
    if rows_of(home, other) != before:
        wrong.append("rows of somebody else changed")
    if any(ord(character) < 32 for line in end.lines for character in line):
        wrong.append("a control character on the screen")
    verified = ends("data", "verify")
    if verified.code:
        wrong.append(f"verify: {verified.out[:300]}")
    with Store.open(home / "drill.db") as store:
        codes = [one.code for one in store.learners()]
    return [*wrong, *(line for code in codes[:3] for line in everyday(code))]


def bases(folder: Path) -> tuple[Path, Path]:
    """Two data folders: one with K7 and Q9, and one with Q9 alone."""
    both, alone = folder / "both", folder / "alone"
    two_learners(both)
    fresh(both, alone)
    with Store.open(alone / "drill.db") as store:
        store.erase(next(one for one in store.learners() if one.code == "K7"))
    return both, alone
