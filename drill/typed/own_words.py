"""Words by which each of several texts is told from all others, as X in "powder X"."""

from __future__ import annotations

import re
from collections.abc import Sequence


def own_words(texts: Sequence[str]) -> tuple[str, ...]:
    """The one word, in small letters, that only each text has; () where any has none or several."""
    words = [re.findall(r"\w+", text.lower()) for text in texts]
    own = [
        [word for word in here if not any(word in there for there in words if there is not here)]
        for here in words
    ]
    return tuple(one for (one,) in own) if all(len(names) == 1 for names in own) else ()
