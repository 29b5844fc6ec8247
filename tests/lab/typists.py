"""Invented learners who type answers to real questions, with weaknesses that a tutor should find.

water     the formula without its water, wherever that can be seen
hazards   hazards and pictograms are forgotten after three weeks
above     scales are read from above
units     units are never converted
guessing  whatever is not known is guessed, fast
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from math import exp, log1p
from random import Random
from typing import NamedTuple

from drill.model import (
    ChoiceKey,
    NameKey,
    NumberKey,
    OrderKey,
    Part,
    Question,
    Scale,
    Slip,
    TableKey,
)

WEAKNESSES = ("water", "hazards", "above", "units", "guessing")
_SLIPS = {
    "water": ("anhydrous-for-hydrate", "water-counted-once", "of-the-anhydrous"),
    "units": (
        *("cm3-not-changed", "dm3-not-changed", "volume-not-converted"),
        *("joules-for-kilojoules", "in-millimetres"),
    ),
    "above": ("parallax",),
}
_DOES = 0.85
"""How often a weakness shows where it can."""
_HAZARDS = ("safety.hazards", "safety.pictograms", "safety.precautions", "safety.risk")
_FORGOTTEN = timedelta(days=21)
_LIQUIDS = {"cylinder": 1, "burette": -1, "thermometer": 1}
"""Scales looked at from above, and which way their numbers then go off."""


class Said(NamedTuple):
    """What a learner types (None: passes), how long it took, and how sure it was said to be."""

    text: str | None
    seconds: float
    sure: str


@dataclass
class Typist:
    """One learner. Skills differ a little by nature, grow with practice and fade with rest."""

    seed: int
    weaknesses: frozenset[str]
    begun: datetime
    able: float = 0.0
    _met: dict[str, tuple[int, datetime]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.able = Random(f"typist {self.seed}").gauss(1.2, 0.35)

    def answer(
        self, question: Question, part: Part, usual: float, now: datetime, rng: Random
    ) -> Said:
        """What is typed for a part at `now`; `usual` seconds are what it takes a middling one."""
        took = usual * rng.uniform(0.6, 1.3)
        habit = self._habit(question, part, rng)
        if habit is not None:
            return Said(habit, took, rng.choice(("certain", "fairly")))
        share = self._share(part.skill, now)
        self._met[part.skill] = (self._met.get(part.skill, (0, now))[0] + 1, now)
        if rng.random() < share:
            return Said(right(part), took, "certain" if rng.random() < share else "fairly")
        if "guessing" in self.weaknesses:
            sure = "guess" if rng.random() < 0.7 else "fairly"
            return Said(guess(part, rng), rng.uniform(3.0, 9.0), sure)
        if rng.random() < 0.35:
            return Said(None, took, "")
        return Said(wrong(part, rng), took, rng.choice(("fairly", "fairly", "guess")))

    def _habit(self, question: Question, part: Part, rng: Random) -> str | None:
        made = next(self._made(question, part, rng), None)
        return made if made is not None and rng.random() < _DOES else None

    def _made(self, question: Question, part: Part, rng: Random) -> Iterator[str]:
        """What each weakness makes of this part, where it can be seen."""
        for weakness in WEAKNESSES:
            if weakness in self.weaknesses:
                yield from slipped(part, _SLIPS.get(weakness, ()))
        if "water" in self.weaknesses and part.kind == "formula" and "H2O" in part.model_answer:
            yield part.model_answer.partition(".")[0]
        seen = question.scale
        if "above" in self.weaknesses and part.kind == "reading" and seen and _liquid(seen):
            lines = rng.choice((1.0, 1.5, 2.0)) * _LIQUIDS[seen.shape]
            off = float(seen.reading) + lines * float(seen.division)
            yield f"{off:.6g} {seen.unit}"

    def _share(self, skill: str, now: datetime) -> float:
        if "hazards" in self.weaknesses and skill in _HAZARDS and now - self.begun >= _FORGOTTEN:
            return 1.0 - _DOES
        own = Random(f"typist {self.seed} {skill}").gauss(0.0, 0.3)
        times, last = self._met.get(skill, (0, now))
        days = max(0.0, (now - last) / timedelta(days=1))
        return 1.0 / (1.0 + exp(-(self.able + own + 0.5 * log1p(times) - 0.15 * log1p(days))))


def _liquid(scale: Scale) -> bool:
    return scale.shape in _LIQUIDS


def slipped(part: Part, ids: Sequence[str]) -> Iterator[str]:
    """What the part earns by one of these wrong routes."""
    key = part.key
    if isinstance(key, NumberKey):
        yield from (_typed(slip, key) for slip in key.slips if slip.id in ids)
    elif isinstance(key, TableKey):
        for name, cell in key.cells.items():
            for slip in cell.slips:
                if slip.id in ids:
                    yield _cells(key, {name: slip.text})


def _typed(slip: Slip, key: NumberKey) -> str:
    return slip.text if key.unit_printed or key.unit in slip.text else f"{slip.text} {key.unit}"


def _cells(key: TableKey, instead: dict[str, str]) -> str:
    """All cells right but for those."""
    told = {name: f"{float(cell.value):.5g}" for name, cell in key.cells.items()} | instead
    return ", ".join(f"{name} = {text}" for name, text in told.items())


def right(part: Part) -> str:
    """An answer that earns everything."""
    if isinstance(part.key, ChoiceKey):
        return ",".join(option.letter for option in part.key.options if option.right)
    return part.model_answer


_NOTHING_SAID = ("so that it is better", "because it says so", "it makes it work")
"""Written answers of somebody who does not know."""


def wrong(part: Part, rng: Random) -> str:
    """An answer that was thought about, and is wrong: a known wrong route where there is one."""
    key = part.key
    if isinstance(key, NumberKey):
        return _typed(rng.choice(key.slips), key) if key.slips else _off(key, rng)
    if isinstance(key, NameKey) and key.look_alikes:
        return rng.choice(sorted(key.look_alikes))
    return guess(part, rng)


def guess(part: Part, rng: Random) -> str:
    """Any answer of the right form."""
    for kind, guessed in _GUESSES.items():
        if isinstance(part.key, kind):
            return guessed(part.key, rng)
    return "NaCl" if part.kind == "formula" else rng.choice(_NOTHING_SAID)


def _option(key: ChoiceKey, rng: Random) -> str:
    return rng.choice(key.options).letter


def _off(key: NumberKey, rng: Random) -> str:
    return f"{float(key.value) * rng.choice((0.4, 0.7, 1.6, 2.3)):.3g} {key.unit}".strip()


def _any_order(key: OrderKey, rng: Random) -> str:
    return "".join(rng.sample(key.right, len(key.right)))


def _any_cells(key: TableKey, rng: Random) -> str:
    name, cell = rng.choice(list(key.cells.items()))
    return _cells(key, {name: f"{float(cell.value) * rng.choice((0.5, 1.7)):.3g}"})


_GUESSES: dict[type, Callable[..., str]] = {
    ChoiceKey: _option,
    NumberKey: _off,
    OrderKey: _any_order,
    TableKey: _any_cells,
    NameKey: lambda key, rng: rng.choice([*sorted(key.look_alikes), "beaker"]),
}
