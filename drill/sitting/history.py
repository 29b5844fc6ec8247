"""From what is stored back to what is remembered: the one road from marks to memory.

A single asking just finished and a whole history rebuilt go through the same function, so that a
state rebuilt from the store equals the one that grew answer by answer.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from drill.memory import Memory
from drill.store import Observation, PartInfo, observations

if TYPE_CHECKING:
    from collections.abc import Mapping

    from drill.model import Part, Question
    from drill.store import Learner, Store


def part_info(question: Question) -> dict[str, PartInfo]:
    """What observing needs to know of each part: `{letter: PartInfo}`."""
    return {
        part.id: PartInfo(part.skill, part.kind, part.marks, guessing_floor(part))
        for part in question.parts
    }


def guessing_floor(part: Part) -> float:
    """The share of marks that guessing earns: 1 / number of options of a single choice, else 0."""
    from drill.model import ChoiceKey

    if isinstance(part.key, ChoiceKey) and not part.key.several:
        return 1 / len(part.key.options)
    return 0.0


def info_from_text(text: str) -> dict[str, PartInfo]:
    """The same from a stored template's text, for questions whose template is gone or changed."""
    import tomllib

    raw = tomllib.loads(text)
    skills = raw.get("skills") or [""]
    return {
        chr(ord("a") + place): _info(part, skills[0])
        for place, part in enumerate(raw.get("part", []))
    }


def _info(part: Mapping[str, object], first_skill: str) -> PartInfo:
    options = part.get("option")
    single = isinstance(options, list) and options and not part.get("several")
    floor = 1 / len(options) if single and isinstance(options, list) else 0.0
    return PartInfo(str(part.get("skill") or first_skill), str(part.get("kind")), 0, floor)


def observe(memory: Memory, seen: tuple[Observation, ...]) -> None:
    """Tell a memory what one asking showed."""
    for row in seen:
        if row.score is None:
            memory.expose(row.skill, row.template, row.when)
        else:
            memory.observe(row.skill, row.template, row.when, row.score, row.floor)


def remembered(store: Store, learner: Learner) -> Memory:
    """The learner's memory: the cached one if it fits the store, else rebuilt from all answers."""
    cached = store.load_memory(learner)
    fresh = Memory()
    if cached and cached.weights == weights_id() and cached.last == store.last_verdict(learner):
        return Memory.from_state(json.loads(cached.state))
    texts: dict[str, dict[str, PartInfo]] = {}
    for asking in store.askings(learner):
        if asking.version not in texts:
            texts[asking.version] = info_from_text(store.template_text(asking.version))
        observe(fresh, observations(asking, texts[asking.version]))
    return fresh


def keep(store: Store, learner: Learner, memory: Memory) -> None:
    """Cache the memory beside the last verdict it knows of."""
    last = store.last_verdict(learner)
    store.save_memory(learner, weights_id(), last, json.dumps(memory.to_state()))


def weights_id() -> str:
    """Which fitted weights, and which form of the state, the cached state belongs to."""
    from drill.memory import STATE_FORM, WEIGHTS_ID

    return f"{WEIGHTS_ID}.{STATE_FORM}"
