"""Words that tell which way, each with its opposite: more and less, before and after, in and out.

Common English, no source. A science adds words of its own.
"""

from __future__ import annotations

import re
from functools import cache

from drill.subjects import every

_PAIRS = """more less|most least|greater smaller|greatest smallest|higher lower|highest lowest
larger smaller|largest smallest|bigger smaller|biggest smallest|longer shorter|longest shortest
faster slower|fastest slowest|quicker slower|quickly slowly|fast slow|sooner later|earlier later
early late|before after|first last|start end|starts stops|hotter colder|warmer cooler
hottest coldest|hot cold|warm cool|heated cooled|heating cooling|heat cool|above below|over under
top bottom|upper lower|up down|inside outside|into from|left right|with without|always never
often seldom|often rarely|increases decreases|increase decrease|increased decreased|rises falls
rise fall|positive negative|gains loses|gain lose|gained lost|added removed|add remove
filled emptied|full empty|big small|large small|high low|strong weak|strongest weakest|long short
thick thin|wide narrow|wider narrower|heavier lighter|darker lighter|dark light|heavy light
steeper shallower|deeper shallower|open closed|opens closes|wet dry|wetted dried|clear cloudy
clear milky|hard soft|rich poor|closer further|nearer farther|easier harder|easily hardly
appears disappears|gives takes|given taken|attracts repels|minimum maximum|maximise minimise
precise imprecise|accurate inaccurate|reliable unreliable|gently strongly|roughly exactly
underestimate overestimate|forward backward"""


def _opposites() -> dict[str, str]:
    found: dict[str, str] = {}
    pairs = re.split(r"[|\n]", _PAIRS)
    for pair in (*pairs, *(pair for one in every() for pair in one.wording.directions)):
        one, other = pair.split()
        found.setdefault(one, other)
        found.setdefault(other, one)
    return found


OPPOSITES = _opposites()
"""A word of any pair, with the other of the first pair that it stands in."""


@cache
def groups() -> dict[str, frozenset[str]]:
    """A word of any pair, with all that are joined to it by pairs: quicker, slower, faster.

    Nothing that marks needs them.
    """
    found: dict[str, frozenset[str]] = {}
    for pair in OPPOSITES.items():
        both = frozenset().union(*(found.get(word, {word}) for word in pair))
        found |= dict.fromkeys(both, both)
    return found
