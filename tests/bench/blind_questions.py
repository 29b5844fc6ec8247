"""Faults drawn blind, in questions: draws, texts, keys, slips, options, pictures."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from drill.frozen import replace
from drill.generate.draws import draw_kinds, stream
from drill.generate.keys import number_keys, part_keys, read_off
from drill.generate.pictures import axes, curves, graph_values, scale_values
from drill.generate.text import amounts, fill, pieces
from drill.quantities import PLAIN, Quantity, figures, unit_of
from tests.bench.planted import Engine, Fault, Planter, scaled
from tests.bench.planting import (
    by,
    down,
    wrapped,
)

PER_MILLE = Fraction(1001, 1000)


# ------------------------------------------------------------------ draws


def moved(steps: Any) -> Any:
    """A range's value so many steps further."""

    def work(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
        value = right(draw, env, seed, name)
        step = draw_kinds._number(draw.step, env, unit_of(draw.unit) or PLAIN)
        if not isinstance(value, Quantity) or not isinstance(step, Fraction):
            return value
        return replace(value, value=value.value + steps * step)

    return work


def without_start(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    value = right(draw, env, seed, name)
    start = draw_kinds._number(draw.start, env, unit_of(draw.unit) or PLAIN)
    if not isinstance(value, Quantity) or not isinstance(start, Fraction):
        return value
    return replace(value, value=value.value - start)


def drawn_places(more: int) -> Any:
    def work(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
        value = right(draw, env, seed, name)
        if not isinstance(value, Quantity) or value.decimals is None:
            return value
        return replace(value, decimals=max(value.decimals + more, 0))

    return work


def drawn_unit_lost(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    value = right(draw, env, seed, name)
    return replace(value, unit=PLAIN) if isinstance(value, Quantity) else value


def spread_twice(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    """Readings twice as far from the first of them as they should be."""
    several = right(draw, env, seed, name)
    if not isinstance(several, tuple):
        return several
    start = several[0].value
    return tuple(replace(one, value=2 * one.value - start) for one in several)


def no_anomaly(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    return right(replace(draw, anomaly=False), env, seed, name)


# ------------------------------------------------------------------ what is printed


def printed(change: Callable[[Quantity], Quantity]) -> Any:
    """A number in the text of a question."""

    def work(right: Any, name: str, value: Any, unit: bool) -> Any:
        return right(name, change(value) if isinstance(value, Quantity) else value, unit)

    return work


def a_place_cut(one: Quantity) -> Quantity:
    return replace(one, decimals=one.decimals - 1) if one.decimals else one


def text_of_list(right: Any, values: Any, unit: bool) -> Any:
    return right(values[:-1], unit) if len(values) > 2 else right(values, unit)


def cut_short(right: Any, value: Fraction, decimals: int) -> str:
    return right(down(value, decimals), decimals)


def added_without_last(right: Any, quantities: Any) -> str:
    return right(quantities[:-1] if len(quantities) > 1 else quantities)


# ------------------------------------------------------------------ keys, slips, options


def key_as(change: Callable[[Any], Any]) -> Any:
    return lambda right, spec, context: change(right(spec, context))


def key_rounded(key: Any) -> Any:
    return replace(key, value=figures.to_figures(key.value, 2))


def unit_of_key(key: Any) -> Any:
    return replace(key, unit={"g": "kg", "cm3": "dm3", "°C": "K", "s": "min"}.get(key.unit, ""))


def last_slip_is_first(key: Any) -> Any:
    if len(key.slips) < 2:
        return key
    first, *rest = key.slips
    taken = replace(rest[-1], value=first.value, text=first.text)
    return replace(key, slips=(first, *rest[:-1], taken))


def slip_by(change: Callable[[Quantity], Quantity]) -> Any:
    return lambda right, slip, gives, context: change(right(slip, gives, context))


def slip_text_a_place_short(right: Any, value: Fraction, spec: Any, context: Any) -> str:
    text = right(value, spec, context)
    return text[:-1].rstrip(".") if "." in text and "×" not in text else text


def bounds_lean(right: Any, spec: Any, values: Any, unit: str) -> Any:
    low, high = right(spec, values, unit)
    return (low, high) if low is None else (low, low + (high - low) / 2)


def ends_inwards(right: Any, value: Fraction, others: Any) -> Any:
    low, high = right(value, others)
    return (low + value) / 2, (high + value) / 2


def figures_one_fewer(right: Any, value: Fraction, spec: Any, context: Any) -> str:
    less = spec.figures - 1 if spec.figures and spec.figures > 1 else spec.figures
    return right(value, replace(spec, figures=less), context)


def when_ignored(right: Any, option: Any, condition: Any, otherwise: bool, context: Any) -> bool:
    return True if condition is option.when else right(option, condition, otherwise, context)


def when_denied(right: Any, option: Any, condition: Any, otherwise: bool, context: Any) -> bool:
    held = right(option, condition, otherwise, context)
    return not held if condition is not None and condition is option.when else held


def right_moved(right: Any, spec: Any, context: Any) -> Any:
    """The option after the right one counts as right, and the other way round."""
    options = right(spec, context)
    turned = [one.right for one in (*options[-1:], *options[:-1])]
    return tuple(one._replace(right=is_) for one, is_ in zip(options, turned, strict=True))


def right_is_as_written(
    right: Any, option: Any, condition: Any, otherwise: bool, context: Any
) -> bool:
    held = right(option, condition, otherwise, context)
    return not held if condition is not None and condition is option.right_when else held


def order_backwards(right: Any, spec: Any, context: Any) -> Any:
    made = right(spec, context)
    return replace(made, key=made.key._replace(right=made.key.right[::-1]))


# ------------------------------------------------------------------ pictures


def reading_of_scale(small: bool) -> Any:
    def work(right: Any, template: Any, values: Any) -> Any:
        made = right(template, values)
        if made is None:
            return None
        one = made.division / made.spaces if small else made.division
        return replace(made, reading=made.reading + one)

    return work


def points_lowered(right: Any, maker: Any, spec: Any) -> Any:
    return tuple((at, height * PER_MILLE) for at, height in right(maker, spec))


def heights_shifted(right: Any, maker: Any, spec: Any) -> Any:
    """Every point has the height of the one before it."""
    points = right(maker, spec)
    heights = [height for _, height in (*points[-1:], *points[:-1])]
    return tuple((at, height) for (at, _), height in zip(points, heights, strict=True))


def on_maker(work: Any) -> Planter:
    def plant(engine: Engine) -> None:
        old = graph_values._Maker.points
        engine.attribute(graph_values._Maker, "points", lambda me, spec: work(old, me, spec))

    return plant


def more_spaces(right: Any, least: Fraction, most: Fraction, room: Any) -> Any:
    numbers = right(least, most, room)
    return numbers._replace(low=numbers.low + numbers.step)


def curve_raised(right: Any, points: Any, count: int) -> Any:
    return tuple((at, height * Fraction(102, 100)) for at, height in right(points, count))


QUESTIONS = (
    Fault("a range goes on a step too far", "draws", "draw range",
          wrapped(draw_kinds._range, moved(1))),
    Fault("a range begins a step too low", "draws", "draw range",
          wrapped(draw_kinds._range, moved(-1))),
    Fault("a range is half a step off", "draws", "draw range",
          wrapped(draw_kinds._range, moved(Fraction(1, 2)))),
    Fault("a range forgets its start", "draws", "draw range",
          wrapped(draw_kinds._range, without_start)),
    Fault("a range shows a place fewer", "draws", "draw range",
          wrapped(draw_kinds._range, drawn_places(-1))),
    Fault("a range shows a place more", "draws", "draw range",
          wrapped(draw_kinds._range, drawn_places(1))),
    Fault("a range loses its unit", "draws", "draw range",
          wrapped(draw_kinds._range, drawn_unit_lost)),
    Fault("readings spread twice as far", "draws", "draw readings",
          wrapped(draw_kinds._readings, spread_twice)),
    Fault("readings have no anomaly", "draws", "draw readings",
          wrapped(draw_kinds._readings, no_anomaly)),
    Fault("a pick repeats its first", "draws", "draw pick",
          wrapped(stream.shuffled, lambda right, seed, name, items: (items[0],) * len(items))),
    Fault("texts leave the unit out", "texts", "number",
          wrapped(fill._plain, lambda right, name, value, unit: right(name, value, False))),
    Fault("texts cut a place", "texts", "number", wrapped(fill._plain, printed(a_place_cut))),
    Fault("texts are a thousandth off", "texts", "number",
          wrapped(fill._plain, printed(by(PER_MILLE)))),
    Fault("texts leave out a list's last", "texts", "draw readings",
          wrapped(fill._several, text_of_list)),
    Fault("places shown are cut, not rounded", "texts", "decimals",
          wrapped(figures.show_decimals, cut_short)),
    Fault("a worked sum leaves out its last", "worked", "mean",
          wrapped(pieces.added, added_without_last)),
    Fault("a worked value is a thousandth off", "worked", "work",
          wrapped(amounts.number_text, lambda right, one: right(scaled(one, PER_MILLE)))),
    Fault("a key is rounded to two figures", "keys", "number",
          wrapped(number_keys.number_key, key_as(key_rounded))),
    Fault("a key has another unit", "keys", "number",
          wrapped(number_keys.number_key, key_as(unit_of_key))),
    Fault("a model answer has a figure fewer", "keys", "figures",
          wrapped(number_keys._number_text, figures_one_fewer)),
    Fault("bounds end half way", "keys", "between", wrapped(number_keys._bounds, bounds_lean)),
    Fault("half a division is a whole one", "keys", "read off",
          wrapped(read_off._half, lambda right, *a: 2 * right(*a))),
    Fault("read off bounds are too narrow", "keys", "read off",
          wrapped(read_off.bounds, ends_inwards)),
    Fault("an order is backwards", "keys", "kind order",
          wrapped(part_keys._order, order_backwards)),
    Fault("a slip is a hundredth off", "slips", "slip",
          wrapped(number_keys._given, slip_by(by(Fraction(101, 100))))),
    Fault("a slip has lost its sign", "slips", "slip",
          wrapped(number_keys._given, slip_by(lambda one: replace(one, value=abs(one.value))))),
    Fault("the last slip gives what the first does", "slips", "slip",
          wrapped(number_keys.number_key, key_as(last_slip_is_first))),
    Fault("a slip's text is a place short", "slips", "slip",
          wrapped(number_keys._slip_text, slip_text_a_place_short)),
    Fault("a slip's when is ignored", "slips", "slip when",
          wrapped(number_keys._applies, lambda right, slip, context: True)),
    Fault("a slip's when is denied", "slips", "slip when",
          wrapped(number_keys._applies, lambda right, slip, context:
                  slip.when is None or not right(slip, context))),
    Fault("an option's when is ignored", "options", "option when",
          wrapped(part_keys._true, when_ignored)),
    Fault("an option's when is denied", "options", "option when",
          wrapped(part_keys._true, when_denied)),
    Fault("right_when is denied", "options", "right when",
          wrapped(part_keys._true, right_is_as_written)),
    Fault("the option after the right one is right", "options", "kind choice",
          wrapped(part_keys._options, right_moved)),
    Fault("a scale reads a division high", "pictures", "scale",
          wrapped(scale_values.scale_of, reading_of_scale(small=False))),
    Fault("a scale reads a small division high", "pictures", "scale",
          wrapped(scale_values.scale_of, reading_of_scale(small=True))),
    Fault("points a thousandth too high", "pictures", "graph", on_maker(points_lowered)),
    Fault("points have their neighbour's height", "pictures", "graph", on_maker(heights_shifted)),
    Fault("an axis begins a number late", "pictures", "graph",
          wrapped(axes.numbers_for, more_spaces)),
    Fault("a curve runs too high", "pictures", "graph", wrapped(curves.smooth, curve_raised)),
)  # fmt: skip
