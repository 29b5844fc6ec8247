"""Names of substances and apparatus: misspelt is right, another real name is wrong."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.marking.awarding import whole
from drill.marking.short.set_aside import without_neutral
from drill.marking.text.spelling import is_word, nearest
from drill.marking.text.typed_text import flat
from drill.marking.text.variants import one_spelling
from drill.model import Mark, NameKey, Part
from drill.quantities import readings

LONGEST = 500  # characters of an answer that are read for names
_LEAD = re.compile(
    r"^(?:(?:i think|it is|it's|its|this is|that is|the answer is|answer|called|maybe|probably|use)"
    r"\b[\s:]*)+"
)
_SEVERAL = re.compile(r"[,;/\n]|\bor\b", re.IGNORECASE)
_NUMERAL = re.compile(r" \([ivx]+\)")
_BARE_NUMERAL = re.compile(r"(?<=[a-z]{3}) (i{1,3}|iv|vi{0,2})(?= [a-z]{4})")  # copper II oxide
_AND = re.compile(r"\s*&\s*|\s+\+\s+|\s+'?n'\s+")
_SHORT = re.compile(r"\bsol'?n\b|\(aq\)")
_ASIDE = re.compile(r"\((?!\s*[ivx]+\s*\))[^)]*\)")
_REASON = re.compile(r"\s(?:because|since|so that|as it)\b.*", re.DOTALL)
_DOUBLED = re.compile(r"([a-z])\1")  # one letter for two changes no name: coper, burrette
_ARTICLE = re.compile(r"^(?:a|an|the|some)\s+")
# oxid, nitrat, sulfait, oxyde: written as heard, these can be no other term
_HEARD = ((re.compile("ph"), "f"), (re.compile("y|ie|ei"), "i"), (re.compile("a[iy]|ei?gh"), "a"))
_FINAL_E = re.compile(r"(?<=id|at|it)e(?=s?$)")
# endings that make another substance of it, or another state of the metal
_DECIDING = re.compile(r"(?:ide|ate|ite|ane|ene|ine|ous|ic)s?$|^\(?[ivx]+\)?$")


@dataclass(frozen=True)
class Names:
    """A key's names in plain spelling, each with how the author wrote it."""

    accepted: Mapping[str, str]
    alike: Mapping[str, str]

    @property
    def numbered(self) -> bool:
        """Whether (II) or (III) is part of what is asked for."""
        return any(_NUMERAL.search(name) for name in self.accepted)


def mark_name(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right in any case and with a slip of spelling, unless that makes it something else.

    Of several names given every one must be right.
    """
    key = part.key
    assert isinstance(key, NameKey)
    names = Names(_plainly(key.accept), _plainly(key.look_alikes))
    said = [plain_name(one) for one in _SEVERAL.split(typed[:LONGEST])]
    meant = [_meant(one, names) for one in said if one]
    wanted = f"The name wanted is {key.accept[0]}."
    wrong = next((one for one, _ in meant if one in names.alike), None)
    if wrong is not None:
        name = names.alike[wrong]
        return whole(part, False, f"Not {name}: {key.look_alikes[name]} {wanted}", slip=name)
    if meant and all(one for one, _ in meant):
        word = "Right:" if all(exact for _, exact in meant) else "Right, spelt"
        return whole(part, True, f"{word} {names.accepted[str(meant[0][0])]}.")
    if _is_formula(typed):
        wanted = f"That is a formula; the name is asked for. {wanted}"
    return whole(part, False, wanted)


def _is_formula(typed: str) -> bool:
    """Whether it is written in symbols of more than one atom."""
    return any(sum(one.atoms.values()) > 1 for one in readings(typed.strip().rstrip(".")))


def _plainly(names: Iterable[str]) -> dict[str, str]:
    return {plain_name(name): name for name in names}


def _meant(said: str, names: Names) -> tuple[str | None, bool]:
    """The known name that was said, and whether to the letter; None when none or two are near."""
    for text in (said, *without_neutral(said, names.accepted, names.alike)):
        found = _known(text, names)
        if found is not None:
            return found, found == text
    return None, False


def _known(said: str, names: Names) -> str | None:
    known = (*names.accepted, *names.alike)
    if said in known:
        return said
    if not names.numbered and _NUMERAL.search(said):
        said = _NUMERAL.sub("", said)
    found = {name for name in known if misspells(said, name)}
    if found and found <= set(names.accepted):
        return min(found)
    return found.pop() if len(found) == 1 else None


def plain_name(text: str) -> str:
    """Lower case, no article, no lead-in, one space between words, no dots or brackets alone."""
    line = _SHORT.sub(" solution", flat(text).lower()).strip().strip(".!?,;: \"'")
    line = _AND.sub(" and ", line)
    line = _ARTICLE.sub("", _LEAD.sub("", line))
    line = _REASON.sub("", _ASIDE.sub(" ", line))
    line = re.sub(r"\s*\(\s*([ivx]+)\s*\)", r" (\1)", line)
    line = " ".join(re.split(r"[\s\-_]+", line)).strip()
    return one_spelling(_BARE_NUMERAL.sub(r" (\1)", line))


def misspells(said: str, name: str) -> bool:
    """Whether `said` is `name`, or no words of its own and near it, word by word."""
    typed, meant = said.split(), name.split()
    if len(typed) != len(meant):
        return "".join(typed) == "".join(meant)
    return all(map(_same_word, typed, meant))


def _same_word(typed: str, meant: str) -> bool:
    if typed == meant or _DOUBLED.sub(r"\1", typed) == _DOUBLED.sub(r"\1", meant):
        return True
    if is_word(typed):
        return False
    ending = _DECIDING.search(meant)
    if ending is None or typed.endswith(ending[0]):
        return bool(nearest(typed, (meant,)))
    return _sounds_like(typed, meant)


def _sounds_like(typed: str, meant: str) -> bool:
    """Whether a non-word is a name in -ide, -ate or -ite written as it is heard."""
    heard, name = _heard(typed), _heard(meant)
    if heard[-2:] != name[-2:] or not _FINAL_E.search(meant):
        return False
    return heard == name or bool(nearest(heard, (name,)))


def _heard(word: str) -> str:
    """A word by its sound: doubled letters once, ph as f, y as i, no silent e at the end."""
    word = _DOUBLED.sub(r"\1", word)
    for pattern, to in _HEARD:
        word = pattern.sub(to, word)
    return _FINAL_E.sub("", word)
