"""Rebuilds the learner's memory from stored marks. There is only one way from marks to memory.

A single asking just finished and a whole history rebuilt go through the same function, so that a
state rebuilt from the store equals the one that grew answer by answer.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from drill.memory import Memory
from drill.plaintext import part_letter
from drill.store import MemoryRow, Observation, PartInfo, observations

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from drill.store import Learner, Store

    Lessons = Mapping[str, datetime]


def info_from_text(text: str) -> dict[str, PartInfo]:
    """What observing needs to know of each part, `{letter: PartInfo}`, from a template's text.

    From the stored text alone, for a question just answered as for one whose template is gone or
    has changed since: so both come to the same.
    """
    import tomllib

    raw = tomllib.loads(text)
    skills = raw.get("skills") or [""]
    return {
        part_letter(place): _info(part, skills[0]) for place, part in enumerate(raw.get("part", []))
    }


def _info(part: Mapping[str, object], first_skill: str) -> PartInfo:
    options = part.get("option")
    single = isinstance(options, list) and options and not part.get("several")
    floor = guessing_floor(options) if single and isinstance(options, list) else 0.0
    return PartInfo(str(part.get("skill") or first_skill), str(part.get("kind")), 0, floor)


def guessing_floor(options: Sequence[Mapping[str, object]]) -> float:
    """The share of marks that guessing earns on a single choice: 1 / options offered.

    Of options offered only under a condition, half are taken to be there: they come in pairs.
    """
    return 1.0 / max(1.0, sum(0.5 if "when" in option else 1.0 for option in options))


def observe(memory: Memory, seen: tuple[Observation, ...]) -> None:
    """Tell a memory what one asking showed."""
    for row in seen:
        if row.score is None:
            memory.expose(row.skill, row.template, row.when)
        else:
            memory.observe(
                row.skill, row.template, row.when, row.score, row.floor, row.certain_error
            )


def remembered(store: Store, learner: Learner, lessons: Lessons | None = None) -> Memory:
    """The learner's memory: the cached one if it fits the store, else rebuilt from all answers.

    `lessons`: {skill: when it is taught}, as the deck has it; other dates than those the cached
    one began with, and it is rebuilt.
    """
    cached = store.load_memory(learner)
    fits = cached is not None and cached.weights == weights_id(lessons)
    if cached and fits and store.changed_since(learner, cached.seen) == {}:
        return Memory.from_state(json.loads(cached.state), lessons=lessons)
    return rebuilt(store, learner, lessons)


def rebuilt(store: Store, learner: Learner, lessons: Lessons | None = None) -> Memory:
    """The learner's memory from all answers, whatever is cached."""
    fresh = Memory(lessons=lessons)
    texts: dict[str, dict[str, PartInfo]] = {}
    for asking in store.askings(learner):
        if asking.version not in texts:
            texts[asking.version] = info_from_text(store.template_text(asking.version))
        observe(fresh, observations(asking, texts[asking.version]))
    return fresh


def keep(store: Store, learner: Learner, memory: Memory, seen: str) -> None:
    """Cache the memory; `seen` is how far the store went when it was last read for it."""
    belongs = weights_id(memory.lessons)
    store.save_memory(learner, MemoryRow(belongs, seen, json.dumps(memory.to_state())))


def weights_id(lessons: Lessons | None = None) -> str:
    """Which weights, which form of the state and which lessons a cached state belongs to."""
    from hashlib import blake2b

    from drill.memory import STATE_FORM, WEIGHTS_ID

    told = sorted((skill, when.timestamp()) for skill, when in (lessons or {}).items())
    dates = blake2b(repr(told).encode(), digest_size=6).hexdigest()
    return f"{WEIGHTS_ID}.{STATE_FORM}.{dates}"
