"""Words that stand round a name: an opening before it, an explanation behind it.

"you could use a burette"           ->  an opening, then the name
"burette, it has a tap"             ->  the name, then an explanation
"burette because a pipette is ..."  ->  the same: the pipette is part of the reason
"burette or pipette"                ->  two names
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from drill.typed.names import word_set

_REASONS = word_set(
    "because cause cos coz cuz bc bcos since as when if unless unlike whereas while than"
)
_RELATIVES = word_set("that which who where what whose whats what's thats that's")
_PLACES = word_set(
    "in on under over above below inside outside from at to into onto between through near "
    "beside behind against by next opposite across around along of off for during after "
    "before until towards via without within upon per about like"
)
_PRONOUNS = word_set(
    "it it's its they they're theyre you you'd we i i'm im he she this these those there"
)
_VERBS = word_set(
    "is are was were has have had does do did can could will would should may might must "
    "didn't didnt doesn't doesnt don't dont isn't hasn't hasnt wasn't won't wont can't cant "
    "goes go holds used using keeps lets helps stops makes gives stays shows left made not "
    "rather instead"
)
_REST = word_set("with so but then e.g eg i.e ie = full plus where's more less better")
STARTERS = _REASONS | _RELATIVES | _PLACES | _PRONOUNS | _VERBS | _REST
JOINS = word_set("or and so then actually mean meant maybe perhaps possibly wait aka")
_COPULAS = word_set("is are was be it's its that's thats called named = being")
_POINTERS = word_set("it it's its that's thats this that which they these what i")
_PASSED = word_set("a an the some just really also a kind type sort of probably")

# a speaker's own words before a name: who, what may be, what one does with it
OPENING = word_set(
    "i'd i'm im i'll it'll that'd you'd we'd id you they we he she one one's ones this's "
    "should can may might will shall has have need needs needed want choose chose chosen pick "
    "turn turns turned turning become becomes became "
    "go going went for say said guess guessing reckon believe suppose suggest take takes get "
    "gets call calls we'd only sure pretty fairly quite very really definitely obviously "
    "clearly certainly probably possibly perhaps actually basically im honestly correct right "
    "full hmm um umm er erm oh ok okay well yeah yes like easy ans answer's it's its that's "
    "thats there's heres here's he'd she'd student students person someone people wanted "
    "asked shown drawn pictured labelled labeled marked here there given lol tho though idk "
    "haha bro pls please thanks ? ! too anyway am"
)
_CARRIERS = word_set("use using used called say need is are was be =")
_BY = frozenset(["with", "in", "into", "through", "by", "on"])  # "measure it with", "you put it in"
_TELL_MORE = word_set("with that which where for used")  # "a long tube with a tap"
_DENIALS = word_set("not isn't isnt aren't never wasn't instead rather than except")


def starts_explanation(words: Sequence[str], things: Collection[str]) -> bool:
    """Whether these words behind a name go on about it: a clause, a place, what it does."""
    if not words:
        return False
    first = words[0]
    if first in STARTERS:
        return True
    if first in things or single(first) in things or not first.isalpha():
        return False
    if len(first) > 4 and re.search(r"(?:ing|ed)$", first):
        return True
    return len(words) > 1 and len(first) > 3 and bool(re.search(r"[^s]s$", first))


def is_explanation(words: Sequence[str], things: Collection[str]) -> bool:
    """Whether a piece without a known name only says more: it names no thing, or is a clause."""
    if starts_explanation(words, things):
        return True
    places = [at for at, word in enumerate(words) if single(word) in things]
    rest = words[places[0] + 1 :] if places else ()
    if not rest:
        return not places
    does = rest[0] not in STARTERS and starts_explanation(rest, things)  # "a beaker sits on it"
    return does or rest[0] in _TELL_MORE


def is_opening(words: Sequence[str], neutral: Collection[int], things: Collection[str]) -> bool:
    """Whether what stands before a name leads up to it; `neutral` are places that change nothing.

    It does when all of it is a speaker's own words, or a verb stands last and no other thing is
    named or denied before it: a thing in a place, as in "what is in the jar is ...", is not.
    """
    spoken = [word for at, word in enumerate(words) if at not in neutral or word in _CARRIERS]
    if any(word in _DENIALS for word in words):
        return False
    if all(word in OPENING or word in STARTERS for word in spoken):
        return True
    first = next((at for at, word in enumerate(words) if single(word) in things), len(words))
    placed = any(word in _PLACES and word not in ("of", "like") for word in words[:first])
    if spoken[-1] in _BY and any(word in _PRONOUNS | _VERBS for word in words):
        return first == len(words)
    return spoken[-1] in _CARRIERS and (first == len(words) or placed)


def explains(words: Sequence[str]) -> bool:
    """Whether a reason, a place or what was done is spoken of: more than "it is" or "called"."""
    own = STARTERS - _PRONOUNS - _COPULAS - _POINTERS - {"plus", "but"}
    return any(word in own for word in words)


def is_meant(words: Sequence[str], at: int, name: str, ask: str) -> bool:
    """Whether a name at `at` of an explanation could be an answer of its own.

    Not where it stands in a reason, in a place or as what something is done to; it is one behind
    "or", "and", "so", behind "it is", and where nothing stands before it.
    """
    back = at - 1
    while back >= 0 and words[back] in _PASSED:
        back -= 1
    if back < 0 or words[back] in JOINS or (back == 0 and words[back] == "with"):
        return True
    if words[back] not in _COPULAS:
        return False
    own = words[back] in _POINTERS or back == 0 or words[back - 1] in _POINTERS
    reason = any(word in _REASONS for word in words[:back])
    return own and not (reason and _repeats(name, ask))


def _repeats(name: str, ask: str) -> bool:
    """Whether the question itself has these words."""
    given = re.findall(r"[a-z]+", ask.lower())
    return all(word in given for word in re.findall(r"[a-z]+", name))


def single(word: str) -> str:
    """A word without the s of its plural."""
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word
