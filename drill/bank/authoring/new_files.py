"""Starters with comments: a question of each kind that passes as it stands."""

from __future__ import annotations

from drill.bank.files.faults import nearest
from drill.errors import DrillError
from drill.subjects import known, subject


def new_template(kind: str) -> str:
    """A starter for a question with a part of that kind; "calculation": three parts, one chain.

    Raises:
        DrillError: there is no such starter.
    """
    starters = all_starters()
    if kind not in starters:
        hint = nearest(kind, starters) or f"There are: {', '.join(starters)}."
        raise DrillError(f'no starter "{kind}". {hint}')
    return starters[kind]


def all_starters() -> dict[str, str]:
    """The starter of each kind of part; of a kind that several subjects have, the first one's."""
    found: dict[str, str] = {}
    for name in known():
        for kind, text in subject(name).starters().items():
            found.setdefault(kind, text)
    return found
