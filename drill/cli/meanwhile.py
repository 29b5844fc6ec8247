"""What the first mark needs, loaded while the learner reads the first question.

The rules of marking, the words of English and their stems take 0.3 s of processor time to load. A
start does not wait for them, and neither does the first answer.
"""

from __future__ import annotations

import time
from contextlib import suppress
from functools import cache
from threading import Thread

_PROMPT_FIRST = 0.05
"""Seconds: the prompt is drawn before anything is loaded."""


@cache
def load_marker() -> Thread:
    """Begin to load it, once; an answer that comes sooner waits for what it needs of it.

    A fault here is met again, and told, where the answer is marked.
    """
    loading = Thread(target=_load, name="loads the marker")
    loading.start()
    return loading


def _load() -> None:
    time.sleep(_PROMPT_FIRST)
    with suppress(Exception):
        from drill.sitting.answering import load

        load()
