"""Faults drawn blind, in what stands round the numbers: rows, choices, wording, working, marks."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from drill.frozen import replace
from drill.generate.draws import draw_kinds
from drill.generate.keys import number_keys, part_keys
from drill.generate.pictures import axes
from drill.generate.text import amounts, call_rendering, pieces, rendering
from drill.generate.worked import number_working, worked_answers
from drill.quantities import Quantity, figures, show_decimals
from drill.quantities.evaluation import steps
from tests.bench.planted import Engine, Fault, Planter
from tests.bench.planting import constant, wrapped


def another_row(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    """The row after the drawn one in the list of those that meet the conditions."""
    row = right(draw, env, seed, name)
    places = [at for at, one in enumerate(draw.rows) if one is row]
    return draw.rows[(places[0] + 1) % len(draw.rows)] if places else row


def cells_of_another(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    """A row's numbers are those of the first row."""
    row = right(draw, env, seed, name)
    if not hasattr(row, "cells"):
        return row
    numbers = {n: c for n, c in draw.rows[0].cells.items() if isinstance(c, Quantity)}
    return replace(row, cells={**row.cells, **{n: c for n, c in numbers.items() if n in row.cells}})


def last_choice(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    return draw_kinds._written_out(draw.choices[-1], draw, env)


def choice_times_ten(right: Any, draw: Any, env: Any, seed: int, name: str) -> Any:
    value = right(draw, env, seed, name)
    return replace(value, value=10 * value.value) if isinstance(value, Quantity) else value


def key_with(**changes: Callable[[Any], Any]) -> Planter:
    """Fields of a number's key changed, each by a function of the key."""

    def work(right: Any, spec: Any, context: Any) -> Any:
        key = right(spec, context)
        return replace(key, **{name: change(key) for name, change in changes.items()})

    return wrapped(number_keys.number_key, work)


def slips_with(change: Callable[[Any], Any]) -> Planter:
    return key_with(slips=lambda key: tuple(map(change, key.slips)))


def made_with(change: Callable[[Any], Any]) -> Planter:
    return wrapped(part_keys.made_key, lambda right, spec, context: change(right(spec, context)))


def a_digit_up(text: str) -> str:
    """The first digit that is no 9 grows by one: 24.10 becomes 34.10."""
    at = next((at for at, sign in enumerate(text) if sign in "12345678"), None)
    return text if at is None else text[:at] + str(int(text[at]) + 1) + text[at + 1 :]


def last_digit_up(text: str) -> str:
    return a_digit_up(text[::-1])[::-1]


def in_worked(change: Callable[[str], str]) -> Planter:
    return wrapped(worked_answers.worked_answer, lambda right, *given: change(right(*given)))


def unit_doubled(right: Any, before: str, after: Quantity) -> str:
    return right(before, replace(after, value=after.value * 10))


def brackets_off(engine: Engine) -> None:
    engine.attribute(pieces.FormulaPiece, "inside", lambda piece, least: piece.text)


def nothing_rounded(right: Any, node: Any) -> str:
    """One decimal place or figure more is named than was rounded to."""
    return a_digit_up(right(node))


def claimed_places(right: Any, value: Any, *given: Any) -> Any:
    """A step's value is shown with a place fewer than its author wrote."""
    made = right(value, *given)
    shown = isinstance(made, Quantity) and made.decimals
    return replace(made, decimals=made.decimals - 1) if shown else made


def power_off(right: Any, value: Fraction, count: int) -> str:
    text = right(value, count)
    return text.replace("10^-", "10^") if "10^-" in text else text


def sign_lost(right: Any, value: Fraction, places: int) -> str:
    return right(abs(value), places)


def cut_at_four(right: Any, value: Fraction) -> str:
    places = max(4 - amounts.places_before(value), 0)
    return show_decimals(value, places)


def axis(**changes: Any) -> Planter:
    def work(right: Any, least: Any, most: Any, room: Any) -> Any:
        numbers = right(least, most, room)
        return numbers._replace(**{name: change(numbers) for name, change in changes.items()})

    return wrapped(axes.numbers_for, work)


DETAILS = (
    Fault("the row after the drawn one", "rows", "draw row",
          wrapped(draw_kinds._row, another_row)),
    Fault("a row has the first one's numbers", "rows", "draw row",
          wrapped(draw_kinds._row, cells_of_another)),
    Fault("a choice is always the last", "rows", "draw choice",
          wrapped(draw_kinds._choice, last_choice)),
    Fault("a number chosen is ten times as large", "rows", "draw choice",
          wrapped(draw_kinds._choice, choice_times_ten)),
    Fault("a step is shown with a place fewer", "steps", "work",
          wrapped(steps._as_claimed, claimed_places)),
    Fault("a key asks for a place more", "marks", "decimals",
          key_with(decimals=lambda key: key.decimals and key.decimals + 1)),
    Fault("a key asks for a figure more", "marks", "figures",
          key_with(figures=lambda key: key.figures and key.figures + 1)),
    Fault("a key is below nought", "marks", "number", key_with(value=lambda key: -key.value)),
    Fault("a key's lower bound is its value", "marks", "between",
          key_with(low=lambda key: key.low if key.low is None else key.value)),
    Fault("a key has no bounds", "marks", "read off",
          key_with(low=lambda key: None, high=lambda key: None)),
    Fault("a key's last slip is lost", "marks", "slip",
          key_with(slips=lambda key: key.slips[:-1])),
    Fault("a slip's text has another last digit", "marks", "slip",
          slips_with(lambda slip: replace(slip, text=last_digit_up(slip.text)))),
    Fault("a slip's text has no unit", "marks", "slip",
          slips_with(lambda slip: replace(slip, text=slip.text.split(" ")[0]))),
    Fault("a slip says another number", "marks", "slip",
          slips_with(lambda slip: replace(slip, says=a_digit_up(slip.says)))),
    Fault("a slip's bounds lie a tenth higher", "marks", "read off",
          slips_with(lambda slip: replace(slip, high=slip.high and slip.high * Fraction(11, 10)))),
    Fault("a slip earns a mark more", "marks", "slip",
          slips_with(lambda slip: replace(slip, earns=slip.earns + 1))),
    Fault("a model answer has another last digit", "marks", "number",
          made_with(lambda made: replace(made, model_answer=last_digit_up(made.model_answer)))),
    Fault("a mark scheme has another number", "marks", "number",
          made_with(lambda made: replace(made, points=tuple(
              one._replace(says=a_digit_up(one.says)) for one in made.points)))),
    Fault("the unit beside an answer line is lost", "marks", "number",
          made_with(lambda made: replace(made, unit=""))),
    Fault("a working's first digit is up", "working", "number", in_worked(a_digit_up)),
    Fault("a working's last digit is up", "working", "number", in_worked(last_digit_up)),
    Fault("a working loses its minus signs", "working", "-",
          in_worked(lambda text: text.replace("−", ""))),
    Fault("a working divides where it multiplies", "working", "*",
          constant(rendering, "_SIGNS", {"+": "+", "-": "−", "*": "÷", "/": "÷"})),
    Fault("a working has no brackets", "working", "work", brackets_off),
    Fault("a working converts to ten times as much", "working", "in unit",
          wrapped(amounts.converted_text, unit_doubled)),
    Fault("a working names another precision", "working", "round",
          wrapped(number_working._rounding, nothing_rounded)),
    Fault("an endless number is cut at four figures", "working", "/",
          wrapped(amounts._cut, cut_at_four)),
    Fault("a mean is divided by one more", "working", "mean",
          wrapped(call_rendering.added, lambda right, several: right([*several, several[-1]]))),
    Fault("standard form loses the minus of its power", "working", "figures",
          wrapped(figures.show_figures, power_off)),
    Fault("a minus sign is not shown", "working", "number",
          wrapped(figures.show_decimals, sign_lost)),
    Fault("an axis has twice the divisions", "axes", "graph",
          axis(spaces=lambda one: one.spaces * 2)),
    Fault("an axis ends a number early", "axes", "graph",
          axis(high=lambda one: one.high - one.step)),
    Fault("an axis has steps of twice as much", "axes", "graph",
          axis(step=lambda one: one.step * 2)),
)  # fmt: skip
