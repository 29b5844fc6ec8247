"""How the strength of one skill comes and goes, in six families of published or plain form.

A process holds its numbers and nothing else; the state of a skill is a value, so that planners
may try practice on it and throw the result away. Times are seconds from any fixed moment, a
state of None is a skill never met. The middle values of the first four are least-squares fits to
the recall table of Cepeda, Vul, Rohrer, Wixted & Pashler (2008), Psychological Science 19(11),
1095-1102; `tests/lab/test_published.py` holds them against that table.
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp, inf, log
from typing import Any, ClassVar, Protocol

from tests.lab.multiscale import Multiscale
from tests.lab.trace_families import Activation, Delta, Predictive
from tests.lab.untimed import HalfLife, Procedure

State = Any
Branch = tuple[float, State]


class Process(Protocol):
    """One family. `outcome_matters`: whether right and wrong answers leave different states."""

    outcome_matters: ClassVar[bool]

    def logit(self, state: State, at: float) -> float:
        """Strength at `at`, as a logit of recall."""
        ...

    def branches(self, state: State, at: float, right: float) -> list[Branch]:
        """What an asking at `at` leaves, when the answer earns the share `right`."""
        ...

    def shown(self, state: State, at: float) -> list[Branch]:
        """What a lesson or a worked answer leaves; a branch has a probability and a state."""
        ...


FAMILIES: dict[str, Callable[..., Process]] = {
    "activation": Activation,
    "multiscale": Multiscale,
    "delta": Delta,
    "predictive": Predictive,
    "half-life": HalfLife,
    "procedure": Procedure,
}


def sigmoid(logit: float) -> float:
    """1 / (1 + e^-logit), safe for any logit."""
    if logit < -40.0:
        return 0.0
    return 1.0 / (1.0 + exp(-logit)) if logit < 40.0 else 1.0


def to_logit(share: float) -> float:
    """ln(p / (1 - p)); infinite at the ends."""
    if share <= 0.0:
        return -inf
    return log(share / (1.0 - share)) if share < 1.0 else inf
