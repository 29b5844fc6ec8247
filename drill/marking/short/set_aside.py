"""Words beside a name that neither make it right nor wrong: "excess copper oxide", "the solution".

A word is neutral only while the question does not turn on it: not when a look-alike uses it, and
not when it contradicts the state an accepted name gives.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

_DRY = frozenset({"solid", "powder", "powdered", "crystals", "crystal"})
_WET = frozenset({"solution", "dilute", "aqueous"})
_BEFORE = frozenset(
    {"excess", "unreacted", "leftover", "left over", "remaining", "some", "the"}
    | {"solid", "powdered", "dilute", "aqueous"}
)
_BEHIND = frozenset({"solution", "powder", "crystals", "crystal", "left over", "leftover", "solid"})


def without_neutral(said: str, accepted: Collection[str], alike: Collection[str]) -> Iterator[str]:
    """`said` with ever more of its neutral words gone: those before the name, then those behind.

    All names in plain spelling; `said` itself is not among what is given.
    """
    bare = said
    while (shorter := _first_off(bare)) and _is_neutral(bare, shorter, accepted, alike):
        bare = shorter
        yield bare
    while (shorter := _last_off(bare)) and _is_neutral(bare, shorter, accepted, alike):
        bare = shorter
        yield bare


def _first_off(text: str) -> str:
    for word in _BEFORE:
        if text.startswith(f"{word} "):
            return text[len(word) + 1 :]
    return ""


def _last_off(text: str) -> str:
    for word in _BEHIND:
        if text.endswith(f" {word}"):
            return text[: -len(word) - 1]
    return ""


def _is_neutral(
    whole: str, shorter: str, accepted: Collection[str], alike: Collection[str]
) -> bool:
    word = whole.replace(shorter, "", 1).strip()
    if any(word in name.split() for name in alike):
        return False
    for own, other in ((_DRY, _WET), (_WET, _DRY)):
        if word in own and _use(other, accepted) and not _use(own, accepted):
            return False
    return True


def _use(words: Collection[str], names: Collection[str]) -> bool:
    return any(word in words for name in names for word in name.split())
