"""Names of things: misspelt is right, another real name is wrong."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.marking.short.set_aside import without_neutral
from drill.model import Mark, NameKey, Part
from drill.subjects import subject
from drill.typed.awarding import whole
from drill.typed.names import NameRules, misspells, plain_name

LONGEST = 500  # characters of an answer that are read for names
_SEVERAL = re.compile(r"[,;/\n]|\bor\b", re.IGNORECASE)


@dataclass(frozen=True)
class Names:
    """A key's names in plain spelling, each with how the author wrote it."""

    accepted: Mapping[str, str]
    alike: Mapping[str, str]
    rules: NameRules

    @property
    def numbered(self) -> bool:
        """Whether the number in a name's brackets is part of what is asked for."""
        return any(self.rules.numeral.search(name) for name in self.accepted)


def mark_name(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right in any case and with a slip of spelling, unless that makes it something else.

    Of several names given every one must be right.
    """
    key = part.key
    assert isinstance(key, NameKey)
    rules = subject(part.subject).names
    names = Names(_plainly(key.accept, rules), _plainly(key.look_alikes, rules), rules)
    said = [plain_name(one, rules) for one in _SEVERAL.split(typed[:LONGEST])]
    meant = [_meant(one, names) for one in said if one]
    wanted = f"The name wanted is {key.accept[0]}."
    wrong = next((one for one, _ in meant if one in names.alike), None)
    if wrong is not None:
        name = names.alike[wrong]
        return whole(part, False, f"Not {name}: {key.look_alikes[name]} {wanted}", slip=name)
    if meant and all(one for one, _ in meant):
        word = "Right:" if all(exact for _, exact in meant) else "Right, spelt"
        return whole(part, True, f"{word} {names.accepted[str(meant[0][0])]}.")
    return whole(part, False, f"{rules.note(typed)} {wanted}".strip())


def _plainly(names: Iterable[str], rules: NameRules) -> dict[str, str]:
    return {plain_name(name, rules): name for name in names}


def _meant(said: str, names: Names) -> tuple[str | None, bool]:
    """The known name that was said, and whether to the letter; None when none or two are near."""
    neutral = names.rules.neutral
    for text in (said, *without_neutral(said, neutral, names.accepted, names.alike)):
        found = _known(text, names)
        if found is not None:
            return found, found == text
    return None, False


def _known(said: str, names: Names) -> str | None:
    known = (*names.accepted, *names.alike)
    if said in known:
        return said
    if not names.numbered:
        said = names.rules.numeral.sub("", said)
    found = {name for name in known if misspells(said, name, names.rules)}
    if found and found <= set(names.accepted):
        return min(found)
    return found.pop() if len(found) == 1 else None
