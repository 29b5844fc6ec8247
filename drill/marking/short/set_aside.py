"""Words beside a name that neither make it right nor wrong: "some string", "the wire".

Which words these are the subject says (`NeutralWords`). A word is neutral only while the question
does not turn on it: not when a look-alike uses it, and not when it contradicts an accepted name.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from drill.typed.names import NeutralWords

_ARTICLES = frozenset({"some", "the"})


def without_neutral(
    said: str, words: NeutralWords, accepted: Collection[str], alike: Collection[str]
) -> Iterator[str]:
    """`said` with ever more of its neutral words gone: those before the name, then those behind.

    All names in plain spelling; `said` itself is not among what is given.
    """
    bare = said
    while (shorter := _first_off(bare, words)) and _is_neutral(
        bare, shorter, words, accepted, alike
    ):
        bare = shorter
        yield bare
    while (shorter := _last_off(bare, words)) and _is_neutral(
        bare, shorter, words, accepted, alike
    ):
        bare = shorter
        yield bare


def _first_off(text: str, words: NeutralWords) -> str:
    for word in words.before | _ARTICLES:
        if text.startswith(f"{word} "):
            return text[len(word) + 1 :]
    return ""


def _last_off(text: str, words: NeutralWords) -> str:
    for word in words.behind:
        if text.endswith(f" {word}"):
            return text[: -len(word) - 1]
    return ""


def _is_neutral(
    whole: str,
    shorter: str,
    words: NeutralWords,
    accepted: Collection[str],
    alike: Collection[str],
) -> bool:
    word = whole.replace(shorter, "", 1).strip()
    if any(word in name.split() for name in alike):
        return False
    return not any(
        word in own and _use(other, accepted) and not _use(own, accepted)
        for own, other in words.contrary
    )


def _use(words: Collection[str], names: Collection[str]) -> bool:
    return any(word in words for name in names for word in name.split())
