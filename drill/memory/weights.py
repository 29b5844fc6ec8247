"""The numbers memory works with, as frozen values; `shipped.py` holds a fitted set.

Named tuples, since these classes are created at every start and dataclasses take six times as long.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Level(NamedTuple):
    """What counts at one level (skill or template), in logits; all of them 0 or more.

    `practice` multiplies ln(1 + answers), `wins` ln(1 + answers right), `shown` ln(1 + times seen
    without answering); `fresh` multiplies the trace, which runs from 0 (gone) to 1 (just done).
    A part of the marks counts as that part of a right answer.
    """

    practice: float
    wins: float
    shown: float
    fresh: float


class Shape(NamedTuple):
    """How traces come and go.

    A trace fades as (1 + lag / onset)^-decay, lag and onset in seconds. `wrong` and `shown` say
    how much of a trace a wrong answer with its correction, or a worked answer, lays down where a
    right answer lays down 1.
    """

    onset: float
    decay: float
    wrong: float
    shown: float


class Spread(NamedTuple):
    """The prior spread between learners: variances in logits squared.

    `person`: between learners; `skill`: of one learner's skills about that learner; `template`: of
    templates about their skill. `drift`: the share of it that comes back with every answer, so
    that a learner who changes is followed.
    """

    person: float
    skill: float
    template: float
    drift: float


class Mechanism(NamedTuple):
    """The activation model, with a decay of each trace's own (see `activation.py`).

    A trace laid down at the activation A after w right answers decays with the exponent
    (`steep` * A + `least`) / (1 + `firm` * w); a wrong answer lays down `wrong` of one, a lesson
    or a worked answer `shown`. `floor` is the activation of what was never met, `base` the logit
    at the activation `USUAL`, `gain` the logits of each unit of ln(activation), `wins` of
    ln(1 + right answers). `guess` and `careless`: shares of marks earned not knowing, lost knowing.
    """

    onset: float
    steep: float
    least: float
    firm: float
    floor: float
    wrong: float
    shown: float
    base: float
    gain: float
    wins: float
    guess: float
    careless: float


class Ways(NamedTuple):
    """The prior spread between learners in how practice works for them: variances.

    Of the logit itself (`able`), and of what a unit more brings of ln(activation), ln(1 + right),
    ln(1 + wrong) and ln(1 + days since the last answer); `skill`: of one learner's skills.
    """

    able: float
    gain: float
    wins: float
    fails: float
    rest: float
    skill: float


class Weights(NamedTuple):
    """Everything fitted, besides a learner's own history.

    `base`: logit of a first answer; `skills`, `templates`: known easiness in logits.
    """

    base: float
    skill: Level
    template: Level
    shape: Shape
    spread: Spread
    mechanism: Mechanism
    ways: Ways
    skills: Mapping[str, float] = MappingProxyType({})
    templates: Mapping[str, float] = MappingProxyType({})

    def vector(self) -> tuple[float, ...]:
        """The linear weights in the order of `Tracks.features`."""
        one, two = self.skill, self.template
        return (
            self.base,
            *(one.practice, one.wins, one.shown, one.fresh),
            *(two.practice, two.wins, two.shown, two.fresh),
        )
