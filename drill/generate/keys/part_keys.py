"""How a part becomes a key: one function per kind of part, and the dictionary that lists them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from drill.frozen import replace
from drill.generate.draws.stream import choose, shuffled
from drill.generate.keys.number_keys import as_asked, number_key, points_of
from drill.generate.part_context import PartContext, Rejected, must
from drill.generate.text.articles import renamed
from drill.model import (
    ChoiceKey,
    LevelsKey,
    MadeKey,
    NameKey,
    NumberKey,
    Option,
    OptionSpec,
    OrderKey,
    PartSpec,
    Pattern,
    Point,
    PointSpec,
    TableKey,
    WrittenKey,
)
from drill.quantities import Expression, evaluate
from drill.subjects import subject

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def _number(spec: PartSpec, context: PartContext) -> MadeKey:
    key = number_key(spec, context)
    model = as_asked(key.value, key, spec, context)
    return MadeKey.of(key, points_of(key, model), model, "" if spec.unit_asked else key.unit)


def _choice(spec: PartSpec, context: PartContext) -> MadeKey:
    key = ChoiceKey(_options(spec, context), spec.several)
    right = [option for option in key.options if option.right]
    model = ", ".join(option.letter for option in right)
    if spec.several and not spec.award:
        points = tuple(Point(one.letter, f"{one.letter}: {one.text}", 1) for one in right)
        return MadeKey.of(key, points, model)
    says = "; ".join(f"{option.letter}: {option.text}" for option in right)
    return MadeKey.whole(spec, key, says, model)


def _options(spec: PartSpec, context: PartContext) -> tuple[Option, ...]:
    offered = [option for option in spec.options if _true(option, option.when, True, context)]
    if not spec.keep_order:
        offered = list(shuffled(context.seed, f"{context.stream} options", offered))
    options = tuple(
        Option(
            LETTERS[index],
            context.fill(option.text, option.line),
            _true(option, option.right_when, option.right, context),
            context.fill(option.says, option.line),
        )
        for index, option in enumerate(offered)
    )
    _options_make_sense(spec, options)
    return options


def _true(
    option: OptionSpec, condition: Expression | None, otherwise: bool, context: PartContext
) -> bool:
    what = f'the option "{option.text}"'
    return _holds(condition, otherwise, what, option.line, context)


def _holds(
    condition: Expression | None, otherwise: bool, what: str, line: int, context: PartContext
) -> bool:
    if condition is None:
        return otherwise
    return must(evaluate(condition, context.values), line, what) is True


def _options_make_sense(spec: PartSpec, options: tuple[Option, ...]) -> None:
    right = sum(option.right for option in options)
    texts = {option.text.lower() for option in options}
    if len(options) < 2 or len(texts) < len(options):
        raise Rejected("a choice needs two or more options with different texts", spec.line)
    if right == 0 or (right > 1 and not spec.several):
        hint = "Look at right and right_when, or write several = true."
        raise Rejected(f"{right} options are right here", spec.line, hint)


def _name(spec: PartSpec, context: PartContext) -> MadeKey:
    ways = [context.both(name, spec.line) for name in spec.accept]
    # a school's own word is right, and so is the bank's
    accept = list(dict.fromkeys([way[0] for way in ways] + [way[-1] for way in ways]))
    right = {name.casefold() for name in accept}
    alike = {
        name: context.fill(why, spec.line)
        for look_alike, why in spec.look_alikes.items()
        for name in context.both(look_alike, spec.line)
        if name.casefold() not in right
    }
    key = NameKey(tuple(accept), alike, _also_called(accept, alike, context))
    return MadeKey.whole(spec, key, " or ".join(accept[:3]), _first(accept, spec))


def _also_called(
    accept: list[str], alike: Mapping[str, str], context: PartContext
) -> tuple[str, ...]:
    """Other names of what is accepted, from the bank's table of names; never a look-alike."""
    taken = {name.casefold() for name in (*accept, *alike)}
    table = context.template.also_called
    others = (other for name in accept for other in table.get(name.casefold(), ()))
    return tuple(dict.fromkeys(other for other in others if other.casefold() not in taken))


def _order(spec: PartSpec, context: PartContext) -> MadeKey:
    right = [context.fill(step, spec.line) for step in spec.steps]
    if len(set(right)) < len(right) or len(right) < 2:
        raise Rejected("an order needs two or more steps with different texts", spec.line)
    shown = _out_of_order(right, context)
    letters = {text: LETTERS[index] for index, text in enumerate(shown)}
    answer = "".join(letters[text] for text in right)
    why = {
        context.fill(step, spec.line): context.fill(reason, spec.line)
        for step, reason in spec.why.items()
    }
    key = OrderKey(tuple((letters[text], text) for text in shown), answer, why)
    less = ", one less for every step to be moved" if sum(spec.award.values()) > 1 else ""
    return MadeKey.whole(spec, key, f"the order {answer}{less}", answer)


def _out_of_order(right: list[str], context: PartContext) -> tuple[str, ...]:
    """The steps shuffled; if they happen to be in the right order, they are rotated."""
    name = f"{context.stream} steps"
    shown = shuffled(context.seed, name, right)
    if list(shown) != right:
        return shown
    turn = 1 + choose(context.seed, f"{name} turned", len(right) - 1)
    return shown[turn:] + shown[:turn]


def _written(spec: PartSpec, context: PartContext) -> MadeKey:
    specs = _schemes(spec, context)
    points = tuple(Point(point.id, point.says, point.marks) for point in specs)
    total = sum(point.marks for point in points)
    if total < (spec.max or 1):
        raise Rejected(
            f"the points asked for here add up to {total} of {spec.max} marks", spec.line
        )
    most = min(spec.max or total, total)
    key = WrittenKey(specs, most, spec.asked, _concepts(context), spec.learned)
    model = context.fill(spec.model_answer, spec.line)
    return MadeKey(key, points, model, most)


def _schemes(spec: PartSpec, context: PartContext) -> tuple[PointSpec, ...]:
    """The points whose `when` holds for these draws; references to the others are removed."""
    points = [point for point in spec.points if _asked_for(point, context)]
    ids = {point.id for point in points}
    return tuple(
        replace(
            point,
            says=context.fill(point.says, point.line),
            accept=_patterns(point.accept, point.line, context),
            reject=_patterns(point.reject, point.line, context),
            ignore=_patterns(point.ignore, point.line, context),
            needs=tuple(need for need in point.needs if need in ids),
            after=point.after if point.after in ids else "",
            when=None,
        )
        for point in points
    )


def _asked_for(point: PointSpec, context: PartContext) -> bool:
    return _holds(point.when, True, f'the point "{point.id}"', point.line, context)


def _patterns(
    patterns: tuple[Pattern, ...], line: int, context: PartContext
) -> tuple[Pattern, ...]:
    """Each text filled in; twice, with both words, if a school has its own word for a thing."""
    named = context.shown.words or any("{" in word for one in patterns for word in one.concepts)
    if not named:
        return patterns
    out: dict[Pattern, None] = {}
    for pattern in patterns:
        ways = [_both_ways(one, line, context) for one in pattern.concepts]
        for which in (0, -1):
            out[replace(pattern, concepts=tuple(way[which] for way in ways))] = None
    return tuple(out)


def _both_ways(phrase: str, line: int, context: PartContext) -> tuple[str, ...]:
    """As `PartContext.both`; among single words, as low|small, no name of several words is put."""
    ways = context.both(phrase, line)
    single = any(sign in phrase for sign in "|=*")
    longer = any(" " in name for name in context.shown.words.values())
    return ways[-1:] if single and longer else ways


def _concepts(context: PartContext) -> Mapping[str, tuple[str, ...]]:
    """The lexicon's sets, with a school's own words added to the bank's."""
    concepts, words = context.template.concepts, context.shown.words
    if not words:
        return concepts
    return {
        name: tuple(dict.fromkeys([*phrases, *_renamed(phrases, words)]))
        for name, phrases in concepts.items()
    }


def _renamed(phrases: tuple[str, ...], words: Mapping[str, str]) -> list[str]:
    plain = [phrase for phrase in phrases if not any(sign in phrase for sign in "|=*")]
    return [renamed(phrase, words) for phrase in plain]


def _table(spec: PartSpec, context: PartContext) -> MadeKey:
    cells: dict[str, NumberKey] = {}
    models: dict[str, str] = {}
    for name, cell in spec.cells.items():
        cells[name] = number_key(cell, context)
        models[name] = as_asked(cells[name].value, cells[name], cell, context)
    points = tuple(
        Point(name, f"{name}: {models[name]}", sum(key.award.values()))
        for name, key in cells.items()
    )
    model = "; ".join(f"{name} = {value}" for name, value in models.items())
    return MadeKey.of(TableKey(cells), points, model)


def _levels(spec: PartSpec, context: PartContext) -> MadeKey:
    levels = tuple((mark, context.fill(says, spec.line)) for mark, says in spec.levels)
    exemplar = context.fill(spec.model_answer, spec.line)
    key = LevelsKey(levels, _schemes(spec, context), _concepts(context), exemplar)
    most = max((mark for mark, _ in levels), default=spec.max or 0)
    point = Point("level", "the level that describes the answer best", most)
    return MadeKey(key, (point,), exemplar, most)


def _first(accept: tuple[str, ...] | list[str], spec: PartSpec) -> str:
    if not accept:
        raise Rejected("nothing is accepted as right", spec.line, 'Write accept = ["…"].')
    return accept[0]


def made_key(spec: PartSpec, context: PartContext) -> MadeKey:
    """The key of a part of any kind, general or of the template's subject.

    Raises:
        Rejected: these numbers give none, or there is no such kind.
    """
    general = KINDS.get(spec.kind)
    if general is not None:
        return general(spec, context)
    own = subject(context.template.subject).kind(spec.kind)
    if own is None:
        hint = f"Known: {', '.join(KINDS)}."
        raise Rejected(f'"{spec.kind}" is not a kind of part', spec.line, hint)
    return must(own.make(spec, context), spec.line, "the answer")


KINDS: Mapping[str, Callable[[PartSpec, PartContext], MadeKey]] = {
    "number": _number,
    "reading": _number,
    "choice": _choice,
    "name": _name,
    "order": _order,
    "written": _written,
    "table": _table,
    "levels": _levels,
}
