"""All the values of a seed: drawn, worked out, and checked against the requirements."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from drill.judge.amounts import Amount, Value, bare, shared
from drill.judge.author import Raw, formula, formulas, raw_of
from drill.judge.cannot import Cannot
from drill.judge.drawing import Turn, drawn
from drill.judge.grammar import read
from drill.judge.tables import masses
from drill.judge.units import unit_of
from drill.judge.working import holds, worked

Env = Mapping[str, Value]


@dataclass(frozen=True)
class Case:
    """One question's file: its id, its text, its bank, and the first names that people may have.

    `own`: where its school may have tables of facts; None for a question of the bank itself.
    """

    id: str
    text: str
    folder: Path
    people: Sequence[str]
    own: Path | None = None

    @cached_property
    def raw(self) -> Raw:
        return raw_of(self.text)

    @cached_property
    def steps(self) -> Mapping[str, Raw]:
        steps: Mapping[str, Raw] = self.raw.get("work", {})
        return steps

    @cached_property
    def _start(self) -> Env:
        weighed = any("M" in read(one).functions() for one in formulas(self.raw))
        return {"M": masses(self.folder)} if weighed else {}

    def draws(self, seed: int, tries: int) -> dict[str, Value]:
        """What is drawn, in the author's order.

        Raises:
            Cannot: there is nothing to draw.
        """
        env = dict(self._start)
        folders = (self.folder, *([self.own] if self.own else ()))
        for name, raw in self.raw.get("draw", {}).items():
            stream = retried(name, tries)
            env[name] = drawn(Turn(raw, env, seed, stream, folders, self.people))
        return env

    def unmet(self, env: Env) -> str:
        """The first requirement that these values do not meet; "" when they meet all.

        Raises:
            Cannot: a requirement has no value.
        """
        required = self.raw.get("require", {}).items()
        return next((says for says, text in required if not holds(formula(text), env)), "")


def retried(name: str, tries: int) -> str:
    """A name in the stream on a later try."""
    return f"{name} again {tries}" if tries else name


def worked_out(
    steps: Mapping[str, Raw], givens: Env, fixed: Collection[str] = ()
) -> dict[str, Value]:
    """The givens, and every step worked out from the values before it, in its unit.

    Args:
        fixed: names whose given value is used instead of working the step out.

    Raises:
        Cannot: a step has no value, or comes out in another unit.
    """
    env = dict(givens)
    for name, raw in steps.items():
        if name not in fixed:
            env[name] = _claimed(worked(formula(raw["is"]), env), raw)
    return env


def _claimed(value: Value, raw: Raw) -> Value:
    """A step's value in the unit its author says it comes out in."""
    if isinstance(value, Amount):
        return _fitted(value, raw)
    if isinstance(value, tuple) and (raw.get("unit") or "decimals" in raw):
        return tuple(_fitted(one, raw) for one in value if isinstance(one, Amount))
    return value


def _fitted(amount: Amount, raw: Raw) -> Amount:
    unit = unit_of(raw.get("unit", ""))
    if raw.get("unit"):
        shared(unit, amount.unit)
        amount = replace(amount, unit=unit)
    elif amount.unit.scale != 1 and not amount.unit.base:
        raise Cannot(f"it comes out in {amount.unit.symbol}")
    if "decimals" in raw or "figures" in raw:
        return replace(amount, places=raw.get("decimals"), figures=raw.get("figures"))
    return amount


def printed(env: Env) -> dict[str, Value]:
    """The same names as the plain numbers that a student sees."""
    return {name: bare(value) for name, value in env.items()}
