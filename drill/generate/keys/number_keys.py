"""The key of a number: its exact value, the form required, and the result of each slip."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from drill.frozen import replace
from drill.generate.part_context import PartContext, Rejected, must
from drill.generate.text.amounts import places_before, with_unit
from drill.model import NumberKey, PartSpec, Point, Slip, SlipSpec
from drill.plaintext import counted
from drill.quantities import (
    PLAIN,
    Expression,
    Quantity,
    Value,
    convert,
    decimals_of,
    evaluate,
    figures_between,
    half_even,
    half_up,
    same_dimension,
    show,
    show_decimals,
    show_figures,
    to_figures,
    to_plain,
    unit_of,
)
from drill.subjects import subject

_TOLD_APART = 3  # figures by which slips are told apart when no precision is asked for
_ROUNDINGS = (half_up, half_even)  # both are right on an exact tie
_AWARDS = ("method", "value", "unit", "figures")


def number_key(spec: PartSpec, context: PartContext) -> NumberKey:
    """The key of a number, a reading or a cell of a table.

    Raises:
        Rejected: the answer cannot be worked out, or two slips cannot be told apart here.
    """
    answer = _answer_of(spec)
    value = quantity(answer, context.values, spec.line, "the answer")
    unit = spec.unit or value.unit.symbol
    exact = _number_in(value, unit, spec.line)
    low, high = _bounds(spec, context.values, unit)
    key = NumberKey(
        value=exact,
        unit=unit,
        unit_printed=not spec.unit_asked,
        decimals=spec.decimals,
        figures=spec.figures,
        award=dict(spec.award) or {"value": 1},
        answer=answer,
        chain=context.chain,
        slips=_slips(spec, context, unit),
        low=low,
        high=high,
        positive=_is_amount(unit, context),
    )
    if spec.read_off:
        key = _read_off(key, spec, context)
    _tell_apart(key, as_asked(exact, key, spec, context), spec)
    return key


def _is_amount(unit: str, context: PartContext) -> bool:
    """Whether quantities in this unit can never be negative, according to the subject."""
    mine = unit_of(unit)
    amounts = map(unit_of, subject(context.template.subject).amounts)
    return mine is not None and any(one and same_dimension(mine, one) for one in amounts)


def as_asked(value: Fraction, key: NumberKey, spec: PartSpec, context: PartContext) -> str:
    """A value in the form the part asks for, with its unit: "66.0 %"."""
    return with_unit(_number_text(value, spec, context), key.unit)


def points_of(key: NumberKey, model: str) -> tuple[Point, ...]:
    """The lines of a number's mark scheme, method first."""
    says = {
        "method": _method(key),
        "value": f"{model}{_accepted(key, model)}",
        "unit": f"the unit, {key.unit}",
        "figures": precision(key.decimals, key.figures),
    }
    return tuple(Point(name, says[name], key.award[name]) for name in _AWARDS if name in key.award)


def _method(key: NumberKey) -> str:
    """The names of the steps leading to the answer, except those an earlier part asked for."""
    wanted = set(key.answer.names)
    for step in reversed(key.chain.steps):
        if step.name in wanted:
            wanted |= step.is_.names
    wanted -= set(key.chain.answers.values())
    called = [s.called for s in key.chain.steps if s.called and s.name in wanted]
    steps = [name for name in called if name != called[-1]]
    return f"method: {'; then '.join(steps)}" if steps else "correct method"


def precision(decimals: int | None, figures: int | None) -> str:
    """ "to 3 significant figures", or "" when none is asked for."""
    if decimals is not None:
        places = "the nearest whole number" if decimals == 0 else f"{decimals} decimal place"
        return f"to {places}{'s' if decimals > 1 else ''}"
    if figures is not None:
        return f"to {counted(figures, 'significant figure')}"
    return ""


def quantity(expression: Expression, values: Mapping[str, Value], line: int, what: str) -> Quantity:
    """The value of an expression, which must be a number.

    Raises:
        Rejected: it cannot be worked out, or is not a number.
    """
    value = must(evaluate(expression, values), line, f'{what} "{expression.text}"')
    if not isinstance(value, Quantity):
        raise Rejected(f'{what} "{expression.text}" is not a number', line)
    return value


def _answer_of(spec: PartSpec) -> Expression:
    if spec.answer is None:
        raise Rejected("the part has no answer", spec.line, 'Write answer = "name".')
    return spec.answer


def _number_in(value: Quantity, unit: str, line: int) -> Fraction:
    """The number of a quantity in a unit; a value without a unit is taken to be in that unit."""
    to = must(unit_of(unit) or PLAIN, line, "the unit")
    if value.unit in (PLAIN, to):
        return value.value
    return must(convert(value, to), line, f"the answer in {unit}").value


def _bounds(
    spec: PartSpec, values: Mapping[str, Value], unit: str
) -> tuple[Fraction | None, Fraction | None]:
    if spec.between is None:
        return None, None
    ends = (quantity(end, values, spec.line, "between") for end in spec.between)
    low, high = sorted(_number_in(end, unit, spec.line) for end in ends)
    return low, high


def _read_off(key: NumberKey, spec: PartSpec, context: PartContext) -> NumberKey:
    """The key, and its slips, with the bounds that come from reading a graph."""
    from drill.generate.keys.read_off import bounds, off_by_half  # only where a graph is read

    worlds = off_by_half(spec, context)
    plain = [{name: to_plain(value) for name, value in world.items()} for world in worlds]

    def answers() -> Iterator[Fraction]:
        for world in worlds:
            yield _number_in(quantity(key.answer, world, spec.line, "the answer"), key.unit, 0)

    def ends(slip: Slip) -> Slip:
        what = f'the slip "{slip.id}"'
        given = [quantity(slip.gives, world, spec.line, what).value for world in plain]
        low, high = bounds(slip.value, given)
        return replace(slip, low=low, high=high)

    low, high = bounds(key.value, answers())
    if low == high:
        raise Rejected("the answer does not hang on what is read off", spec.line)
    return replace(key, low=low, high=high, slips=tuple(ends(slip) for slip in key.slips))


def _slips(spec: PartSpec, context: PartContext, unit: str) -> tuple[Slip, ...]:
    out: list[Slip] = []
    for slip in spec.slips:
        if slip.gives is None or not _applies(slip, context):
            continue
        gives = _given(slip, slip.gives, context)
        says = slip.says or context.template.shared_slips.get(slip.id, "")
        text = with_unit(_slip_text(gives.value, spec, context), unit)
        said = context.fill(says, slip.line)
        out.append(Slip(slip.id, gives.value, text, slip.earns, said, slip.gives))
    return tuple(out)


def _given(slip: SlipSpec, gives: Expression, context: PartContext) -> Quantity:
    """The result of a slip; if a unit makes it fail, the message says that slips have no units."""
    try:
        return quantity(gives, context.chain.printed, slip.line, f'the slip "{slip.id}"')
    except Rejected as rejected:
        if " in " not in gives.text:
            raise
        hint = "In a slip the names are plain numbers: to have dm3, write / 1000."
        says, line, _ = rejected.reason
        raise Rejected(says, line, hint) from None


def _slip_text(value: Fraction, spec: PartSpec, context: PartContext) -> str:
    """A slip's value rounded as the part asks, but never to fewer than two figures."""
    text = _number_text(value, spec, context)
    figures = figures_between(text) or (0, 0)
    few = figures[1] < 2 and "×" not in text
    return show_figures(value, 2) if few and Fraction(text) != value else text


def _applies(slip: SlipSpec, context: PartContext) -> bool:
    if slip.when is None:
        return True
    held = must(evaluate(slip.when, context.values), slip.line, f'the slip "{slip.id}"')
    return held is True


def _tell_apart(key: NumberKey, model: str, spec: PartSpec) -> None:
    """Checks that each slip differs from the answer and the other slips once rounded."""
    seen: list[tuple[str, Fraction, str]] = [("the answer", key.value, model)]
    lines = {slip.id: slip.line for slip in spec.slips}
    for slip in key.slips:
        if spec.read_off and key.low is not None and key.high is not None:
            _outside(slip, key.low, key.high, lines[slip.id])
        for name, value, text in seen:
            if looks_like((slip.value, slip.text), (value, text), key):
                says = f'the slip "{slip.id}" cannot be told from {name}: {slip.text} and {text}'
                hint = "Add a requirement or a when, or drop the slip."
                raise Rejected(says, lines[slip.id], hint)
        seen.append((f'"{slip.id}"', slip.value, slip.text))


def _outside(slip: Slip, low: Fraction, high: Fraction, line: int) -> None:
    typed = slip.text.split(" ")[0]
    if low <= slip.value <= high or ("×" not in slip.text and low <= Fraction(typed) <= high):
        says = f'the slip "{slip.id}" gives {slip.text}, which reading a graph may give too'
        raise Rejected(says, line, "Add a requirement or a when, or drop the slip.")


def looks_like(one: tuple[Fraction, str], other: tuple[Fraction, str], key: NumberKey) -> bool:
    """Whether two values, each with its text, are equal at the precision the part asks for.

    0.97 looks like 1.03 to two figures: written 1.0, the second is a rounding of both.
    """
    (a, _), (b, _) = one, other
    # cheap, and safe: values further apart than their last place, or than a tenth, which is the
    # last place of two figures, never round to the same; both over one denominator
    below = a.denominator * b.denominator
    left, right = a.numerator * b.denominator, b.numerator * a.denominator
    gap = abs(left - right)
    if key.decimals is not None:
        near = gap * 10**key.decimals <= below
    else:
        near = key.figures == 1 or gap * 10 <= max(abs(left), abs(right))
    if not gap or not near:
        return not gap
    places = {place for value, text in (one, other) for place in _places(value, text, key)}
    return any(rule(a, place) == rule(b, place) for place in places for rule in _ROUNDINGS)


def _places(value: Fraction, text: str, key: NumberKey) -> tuple[int, ...]:
    """The decimal places a value is rounded at: as asked, and as its text stands."""
    if key.decimals is not None:
        asked = key.decimals
    else:
        figures = key.figures or _TOLD_APART
        asked = figures - places_before(to_figures(value, figures))
    return (asked,) if "×" in text else (asked, decimals_of(text.split(" ")[0]))


def _number_text(value: Fraction, spec: PartSpec, context: PartContext) -> str:
    decimals, figures = spec.decimals, spec.figures
    if decimals is None and figures is None:
        decimals, figures = _shown_as(spec, context)
    if decimals is not None:
        return show_decimals(value, decimals)
    if figures is not None:
        return show_figures(value, figures) if value else "0"
    return show(Quantity(value), unit=False)


def _shown_as(spec: PartSpec, context: PartContext) -> tuple[int | None, int | None]:
    """How the value is shown in texts, when the answer is just a name."""
    value = context.values.get(spec.answer.text.strip()) if spec.answer else None
    if not isinstance(value, Quantity):
        return None, None
    return value.decimals, value.figures


def _accepted(key: NumberKey, model: str) -> str:
    if key.low is None or key.high is None:
        return ""
    low, high = (show(Quantity(end), unit=False) for end in (key.low, key.high))
    return f" ({low} to {high} accepted)"
