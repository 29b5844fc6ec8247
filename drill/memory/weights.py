"""The numbers the predictor works with, as one frozen value; `shipped.py` holds a fitted one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Level:
    """How much one level (skill or template) counts, in logits.

    `wins`, `fails` multiply ln(1 + count), `shown` multiplies ln(1 + times seen without
    answering), `fresh` multiplies the memory trace, which runs from 0 (gone) to 1 (just done).
    """

    wins: float
    fails: float
    shown: float
    fresh: float


@dataclass(frozen=True)
class Weights:
    """Everything fitted, besides the learner's own history.

    `base`: logit of a first answer. `onset` (seconds) and `decay` shape the trace's forgetting,
    `after_fail` and `after_shown` say how much of a trace a wrong answer with its correction, or
    a worked answer, lays down; a right one lays down 1. `step`, `settle`: the ability moves by
    step / (1 + settle * answers) times the surprise. `skills`, `templates`: known easiness, logits.
    """

    base: float
    skill: Level
    template: Level
    onset: float
    decay: float
    after_fail: float
    after_shown: float
    step: float
    settle: float
    skills: Mapping[str, float] = field(default_factory=dict)
    templates: Mapping[str, float] = field(default_factory=dict)
