"""How a part becomes a key: one function per kind of part, and the dictionary that lists them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from drill.generate.draws.stream import choose, shuffled
from drill.generate.keys.number_keys import as_asked, number_key, points_of
from drill.generate.setting import Miss, Setting, must
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


def _number(spec: PartSpec, setting: Setting) -> MadeKey:
    key = number_key(spec, setting)
    model = as_asked(key.value, key, spec, setting)
    return MadeKey.of(key, points_of(key, model), model, "" if spec.unit_asked else key.unit)


def _choice(spec: PartSpec, setting: Setting) -> MadeKey:
    key = ChoiceKey(_options(spec, setting), spec.several)
    right = [option for option in key.options if option.right]
    model = ", ".join(option.letter for option in right)
    if spec.several and not spec.award:
        points = tuple(Point(one.letter, f"{one.letter}: {one.text}", 1) for one in right)
        return MadeKey.of(key, points, model)
    says = "; ".join(f"{option.letter}: {option.text}" for option in right)
    return MadeKey.whole(spec, key, says, model)


def _options(spec: PartSpec, setting: Setting) -> tuple[Option, ...]:
    offered = [option for option in spec.options if _true(option, option.when, True, setting)]
    if not spec.keep_order:
        offered = list(shuffled(setting.seed, f"{setting.stream} options", offered))
    options = tuple(
        Option(
            LETTERS[index],
            setting.fill(option.text, option.line),
            _true(option, option.right_when, option.right, setting),
            setting.fill(option.says, option.line),
        )
        for index, option in enumerate(offered)
    )
    _options_make_sense(spec, options)
    return options


def _true(
    option: OptionSpec, condition: Expression | None, otherwise: bool, setting: Setting
) -> bool:
    what = f'the option "{option.text}"'
    return _holds(condition, otherwise, what, option.line, setting)


def _holds(
    condition: Expression | None, otherwise: bool, what: str, line: int, setting: Setting
) -> bool:
    if condition is None:
        return otherwise
    return must(evaluate(condition, setting.values), line, what) is True


def _options_make_sense(spec: PartSpec, options: tuple[Option, ...]) -> None:
    right = sum(option.right for option in options)
    texts = {option.text.lower() for option in options}
    if len(options) < 2 or len(texts) < len(options):
        raise Miss("a choice needs two or more options with different texts", spec.line)
    if right == 0 or (right > 1 and not spec.several):
        hint = "Look at right and right_when, or write several = true."
        raise Miss(f"{right} options are right here", spec.line, hint)


def _name(spec: PartSpec, setting: Setting) -> MadeKey:
    ways = [setting.both(name, spec.line) for name in spec.accept]
    # a school's own word is right, and so is the bank's
    accept = list(dict.fromkeys([way[0] for way in ways] + [way[-1] for way in ways]))
    right = {name.casefold() for name in accept}
    alike = {
        name: setting.fill(why, spec.line)
        for look_alike, why in spec.look_alikes.items()
        for name in setting.both(look_alike, spec.line)
        if name.casefold() not in right
    }
    key = NameKey(tuple(accept), alike)
    return MadeKey.whole(spec, key, " or ".join(accept[:3]), _first(accept, spec))


def _order(spec: PartSpec, setting: Setting) -> MadeKey:
    right = [setting.fill(step, spec.line) for step in spec.steps]
    if len(set(right)) < len(right) or len(right) < 2:
        raise Miss("an order needs two or more steps with different texts", spec.line)
    shown = _out_of_order(right, setting)
    letters = {text: LETTERS[index] for index, text in enumerate(shown)}
    answer = "".join(letters[text] for text in right)
    why = {
        setting.fill(step, spec.line): setting.fill(reason, spec.line)
        for step, reason in spec.why.items()
    }
    key = OrderKey(tuple((letters[text], text) for text in shown), answer, why)
    less = ", one less for every step to be moved" if sum(spec.award.values()) > 1 else ""
    return MadeKey.whole(spec, key, f"the order {answer}{less}", answer)


def _out_of_order(right: list[str], setting: Setting) -> tuple[str, ...]:
    """The steps shuffled; an order that happens to be right is turned by one or more places."""
    name = f"{setting.stream} steps"
    shown = shuffled(setting.seed, name, right)
    if list(shown) != right:
        return shown
    turn = 1 + choose(setting.seed, f"{name} turned", len(right) - 1)
    return shown[turn:] + shown[:turn]


def _written(spec: PartSpec, setting: Setting) -> MadeKey:
    specs = _schemes(spec, setting)
    points = tuple(Point(point.id, point.says, point.marks) for point in specs)
    total = sum(point.marks for point in points)
    if total < (spec.max or 1):
        raise Miss(f"the points asked for here add up to {total} of {spec.max} marks", spec.line)
    most = min(spec.max or total, total)
    key = WrittenKey(specs, most, spec.asked, _concepts(setting))
    model = setting.fill(spec.model_answer, spec.line)
    return MadeKey(key, points, model, most)


def _schemes(spec: PartSpec, setting: Setting) -> tuple[PointSpec, ...]:
    """The points asked for with these draws; what they say of the others is taken out."""
    points = [point for point in spec.points if _asked_for(point, setting)]
    ids = {point.id for point in points}
    return tuple(
        replace(
            point,
            says=setting.fill(point.says, point.line),
            accept=_patterns(point.accept, point.line, setting),
            reject=_patterns(point.reject, point.line, setting),
            ignore=_patterns(point.ignore, point.line, setting),
            needs=tuple(need for need in point.needs if need in ids),
            after=point.after if point.after in ids else "",
            when=None,
        )
        for point in points
    )


def _asked_for(point: PointSpec, setting: Setting) -> bool:
    return _holds(point.when, True, f'the point "{point.id}"', point.line, setting)


def _patterns(patterns: tuple[Pattern, ...], line: int, setting: Setting) -> tuple[Pattern, ...]:
    """Each filled; where a school has its own word for a thing, once with it and once without."""
    named = setting.shown.words or any("{" in word for one in patterns for word in one.concepts)
    if not named:
        return patterns
    out: dict[Pattern, None] = {}
    for pattern in patterns:
        ways = [_both_ways(one, line, setting) for one in pattern.concepts]
        for which in (0, -1):
            out[replace(pattern, concepts=tuple(way[which] for way in ways))] = None
    return tuple(out)


def _both_ways(phrase: str, line: int, setting: Setting) -> tuple[str, ...]:
    """As `Setting.both`; among single words, as low|small, no name of several words is put."""
    ways = setting.both(phrase, line)
    single = any(sign in phrase for sign in "|=*")
    longer = any(" " in name for name in setting.shown.words.values())
    return ways[-1:] if single and longer else ways


def _concepts(setting: Setting) -> Mapping[str, tuple[str, ...]]:
    """The lexicon's sets, with a school's own words beside the bank's."""
    concepts, words = setting.template.concepts, setting.shown.words
    if not words:
        return concepts
    return {
        name: tuple(dict.fromkeys([*phrases, *_renamed(phrases, words)]))
        for name, phrases in concepts.items()
    }


def _renamed(phrases: tuple[str, ...], words: Mapping[str, str]) -> list[str]:
    plain = [phrase for phrase in phrases if not any(sign in phrase for sign in "|=*")]
    return [renamed(phrase, words) for phrase in plain]


def _table(spec: PartSpec, setting: Setting) -> MadeKey:
    cells: dict[str, NumberKey] = {}
    models: dict[str, str] = {}
    for name, cell in spec.cells.items():
        cells[name] = number_key(cell, setting)
        models[name] = as_asked(cells[name].value, cells[name], cell, setting)
    points = tuple(
        Point(name, f"{name}: {models[name]}", sum(key.award.values()))
        for name, key in cells.items()
    )
    model = "; ".join(f"{name} = {value}" for name, value in models.items())
    return MadeKey.of(TableKey(cells), points, model)


def _levels(spec: PartSpec, setting: Setting) -> MadeKey:
    levels = tuple((mark, setting.fill(says, spec.line)) for mark, says in spec.levels)
    exemplar = setting.fill(spec.model_answer, spec.line)
    key = LevelsKey(levels, _schemes(spec, setting), _concepts(setting), exemplar)
    most = max((mark for mark, _ in levels), default=spec.max or 0)
    point = Point("level", "the level that describes the answer best", most)
    return MadeKey(key, (point,), exemplar, most)


def _first(accept: tuple[str, ...] | list[str], spec: PartSpec) -> str:
    if not accept:
        raise Miss("nothing is accepted as right", spec.line, 'Write accept = ["…"].')
    return accept[0]


def made_key(spec: PartSpec, setting: Setting) -> MadeKey:
    """The key of a part of any kind, general or of the template's subject.

    Raises:
        Miss: these numbers give none, or there is no such kind.
    """
    general = KINDS.get(spec.kind)
    if general is not None:
        return general(spec, setting)
    own = subject(setting.template.subject).kind(spec.kind)
    if own is None:
        hint = f"Known: {', '.join(KINDS)}."
        raise Miss(f'"{spec.kind}" is not a kind of part', spec.line, hint)
    return must(own.make(spec, setting), spec.line, "the answer")


KINDS: Mapping[str, Callable[[PartSpec, Setting], MadeKey]] = {
    "number": _number,
    "reading": _number,
    "choice": _choice,
    "name": _name,
    "order": _order,
    "written": _written,
    "table": _table,
    "levels": _levels,
}
