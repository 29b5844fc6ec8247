"""A question's key worked again: from the learner's own values, and from values rounded early.

The key is a function, `Chain`; this module puts other numbers into it and never judges them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from itertools import product
from types import MappingProxyType

from drill.model import Chain, NumberKey
from drill.quantities import (
    Expression,
    Fault,
    Quantity,
    Value,
    convert,
    evaluate,
    run_steps,
    to_figures,
    to_plain,
    unit_of,
)

Values = Mapping[str, Value]
NONE_FIXED: Values = MappingProxyType({})

_EARLIEST = 3  # figures an intermediate value must keep for what follows from it to be right
_MOST_ROUNDED = 4  # intermediates rounded in every combination; beyond that only all together


def own_values(key: NumberKey, earlier: Mapping[str, Fraction]) -> dict[str, Value]:
    """Name in the chain -> the learner's own earlier value, to stand in for the right one."""
    exact = worked(key.chain)
    fixed: dict[str, Value] = {}
    for part, name in key.chain.answers.items():
        right = exact.get(name) if part in earlier else None
        if isinstance(right, Quantity):
            fixed[name] = Quantity(earlier[part], right.unit, right.decimals)
    return fixed


def worked(chain: Chain, fixed: Values = NONE_FIXED) -> Values:
    """Every value of the chain; empty when it cannot be worked with these values."""
    results = run_steps(chain.steps, chain.givens, fixed)
    return {} if isinstance(results, tuple) else {**chain.givens, **results}


def answer_from(key: NumberKey, env: Values) -> Fraction | None:
    """The key's answer worked from `env`, in the key's unit; None when that cannot be done."""
    return _in_unit(evaluate(key.answer, env), key.unit) if env else None


def is_impossible(key: NumberKey, carried: Fraction) -> bool:
    """Whether `carried` is below zero where what is asked for never is."""
    return key.positive and carried < 0 < key.value


def slip_from(key: NumberKey, gives: Expression, env: Values) -> Fraction | None:
    """A slip's value worked from the numbers as printed, `env` standing over them."""
    plain: dict[str, Value] = dict(key.chain.printed)
    for name in plain:
        if name in env and isinstance(env[name], Quantity):
            plain[name] = to_plain(env[name])
    result = evaluate(gives, plain)
    return result.value if isinstance(result, Quantity) else None


def rounded_early(key: NumberKey, fixed: Values = NONE_FIXED) -> Iterator[Fraction]:
    """Answers that follow when intermediate values are rounded to 3 figures or more.

    Values the author rounded are readings from the bench, and answers of earlier parts are given:
    neither is rounded again, nor is anything only they were made from.
    """
    names = between(key)
    if not names:
        return
    few = names if len(names) <= _MOST_ROUNDED else ()
    choices = list(product((None, _EARLIEST), repeat=len(few))) if few else []
    plans = [dict(zip(few, choice, strict=True)) for choice in choices]
    plans += [dict.fromkeys(names, figures) for figures in (_EARLIEST, 4, 5)]
    exact = worked(key.chain, fixed)
    held = {one.name: exact[one.name] for one in key.chain.steps if is_reading(one.is_) and exact}
    for plan in plans:
        answer = answer_from(key, _run(key.chain, plan, {**held, **fixed}))
        if answer is not None:
            yield answer


def rounded_too_far(
    key: NumberKey, fixed: Values = NONE_FIXED
) -> Iterator[tuple[str, int, Fraction]]:
    """Answers that follow when a value on the way is cut down to one or two figures.

    Gives what the value is called ("every value on the way" for all of them), the figures, and
    the answer.
    """
    called = {step.name: step.called or step.name for step in key.chain.steps}
    names = between(key)
    exact = worked(key.chain, fixed)
    held = {one.name: exact[one.name] for one in key.chain.steps if is_reading(one.is_) and exact}
    for figures in (2, 1):
        plans = [(called[name], {name: figures}) for name in names]
        if len(names) > 1:
            plans.append(("every value on the way", dict.fromkeys(names, figures)))
        for name, plan in plans:
            answer = answer_from(key, _run(key.chain, plan, {**held, **fixed}))
            if answer is not None:
                yield name, figures, answer


def _run(chain: Chain, plan: Mapping[str, int | None] | Mapping[str, int], fixed: Values) -> Values:
    """The chain worked once, the values named in `plan` rounded as they come, as on paper."""
    env: dict[str, Value] = dict(chain.givens)
    for step in chain.steps:
        if step.name in fixed:
            env[step.name] = fixed[step.name]
            continue
        worked_one = run_steps((step,), env)
        if isinstance(worked_one, tuple):
            return {}
        value, figures = worked_one[step.name], plan.get(step.name)
        if figures is not None and isinstance(value, Quantity):
            value = Quantity(to_figures(value.value, figures), value.unit)
        env[step.name] = value
    return env


def between(key: NumberKey) -> tuple[str, ...]:
    """Names worked out on the way to the answer, in order; no reading, no earlier answer."""
    by_name = {step.name: step for step in key.chain.steps}
    given = set(key.chain.answers.values())
    wanted: set[str] = set()
    waiting = _roots(key, by_name)
    while waiting:
        name = waiting.pop()
        step = by_name.get(name)
        if step is None or name in wanted or name in given or is_reading(step.is_):
            continue
        wanted.add(name)
        waiting.extend(_names(step.is_))
    return tuple(step.name for step in key.chain.steps if step.name in wanted)


def _roots(key: NumberKey, by_name: Mapping[str, object]) -> list[str]:
    """What the answer is made from; when it is just a name, what that is made from."""
    names = _names(key.answer)
    only = key.answer.text.strip()
    if only in by_name:
        step = next(step for step in key.chain.steps if step.name == only)
        return [] if is_reading(step.is_) else _names(step.is_)
    return names


def _names(expression: Expression) -> list[str]:
    return [name.split(".")[0] for name in expression.names]


def is_reading(expression: Expression) -> bool:
    """Whether the author rounds here: then it stands for a reading, printed as it is."""
    return any(word in expression.text for word in ("round(", "sig(", "floor(", "ceil("))


def _in_unit(value: Value | Fault, unit: str) -> Fraction | None:
    if not isinstance(value, Quantity):
        return None
    to = unit_of(unit)
    if to is None or value.unit.dimension == (0,) * 6:
        return value.value
    converted = convert(value, to)
    return converted.value if isinstance(converted, Quantity) else None
