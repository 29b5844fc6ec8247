"""Names of substances and apparatus: misspelt is right, another real name is wrong."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from drill.marking.spelling import is_word, nearest
from drill.marking.text import flat
from drill.marking.verdict import whole
from drill.model import Mark, NameKey, Part

_LEAD = re.compile(
    r"^(?:(?:i think|it is|it's|its|this is|that is|the answer is|answer|called|maybe|probably|use)"
    r"\b[\s:]*)+"
)
_ARTICLE = re.compile(r"^(?:a|an|the|some)\s+")
# endings that make another substance of it, or another state of the metal
_DECIDING = re.compile(r"(?:ide|ate|ite|ane|ene|ine|ous|ic|ium)s?$|^\(?[ivx]+\)?$")


def mark_name(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right in any case and with a slip of spelling, unless that makes it something else."""
    key = part.key
    assert isinstance(key, NameKey)
    said = plain_name(typed)
    accepted = {plain_name(name): name for name in key.accept}
    if said in accepted or _without_numeral(said) in accepted:
        return whole(part, True, f"Right: {key.accept[0]}.")
    alike = {plain_name(name): (name, why) for name, why in key.look_alikes.items()}
    if said in alike:
        name, why = alike[said]
        return whole(part, False, f"Not {name}: {why}", slip=name)
    return _misspelt(part, key, said, accepted, alike)


def _misspelt(
    part: Part,
    key: NameKey,
    said: str,
    accepted: Mapping[str, str],
    alike: Mapping[str, tuple[str, str]],
) -> Mark:
    meant = meant_name(said, [*accepted, *alike])
    if meant is None:
        return whole(part, False, f"Not that: {key.accept[0]}.")
    if meant in accepted:
        return whole(part, True, f"Right, spelt {accepted[meant]}.")
    name, why = alike[meant]
    return whole(part, False, f"Not {name}: {why}", slip=name)


def plain_name(text: str) -> str:
    """Lower case, no article, no lead-in, one space between words, no dots or brackets alone."""
    line = flat(text).lower().strip().strip(".!?,;: \"'")
    line = _ARTICLE.sub("", _LEAD.sub("", line))
    line = re.sub(r"\s*\(\s*([ivx]+)\s*\)", r" (\1)", line)
    return " ".join(re.split(r"[\s\-_/]+", line)).strip()


def _without_numeral(said: str) -> str:
    """ "copper oxide" is told apart from copper(II) oxide only where the key names both."""
    return re.sub(r" \([ivx]+\)", "", said)


def meant_name(said: str, names: list[str]) -> str | None:
    """The one known name this misspells, word by word; None when it is none or several."""
    found = {name for name in names if _misspells(said.split(), name.split())}
    return found.pop() if len(found) == 1 else None


def _misspells(said: list[str], name: list[str]) -> bool:
    if len(said) != len(name):
        return "".join(said) == "".join(name)
    return all(_same_word(typed, meant) for typed, meant in zip(said, name, strict=True))


def _same_word(typed: str, meant: str) -> bool:
    if typed == meant:
        return True
    if is_word(typed) or not nearest(typed, (meant,)):
        return False
    ending = _DECIDING.search(meant)
    return ending is None or typed.endswith(ending[0])
