"""Chemical equations: species, balance and states judged apart; what is wrong is named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from drill.frozen import replace
from drill.model import Mark, Part, PointMark
from drill.subjects.chemistry.keys import EquationKey
from drill.subjects.chemistry.sides import Side, TypedEquation, equations, is_balanced, totals
from drill.subjects.chemistry.word_equation import mark_word_equation
from drill.typed.awarding import nothing, settled

Amounts = dict[tuple[str, int], Fraction]


@dataclass(frozen=True)
class Held:
    """A reading of what was typed held against one accepted equation."""

    said: TypedEquation
    key: TypedEquation
    species: bool
    balance: bool
    states: bool

    @property
    def worth(self) -> tuple[bool, bool, bool, int]:
        fits = sum(_shared(one, other) for one, other in zip(*self.both, strict=True))
        return self.species and not self.said.recased, self.balance, self.states, fits

    @property
    def both(self) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
        return self.said.sides, self.key.sides


def mark_equation(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Species, balance and states, each for what the part awards it."""
    key = part.key
    assert isinstance(key, EquationKey)
    wanted = [_key_equation(text) for text in key.accept]
    keys = [equation for equation in wanted if equation is not None]
    if not keys:
        return mark_word_equation(part, key, typed)
    said = equations(typed, _formulae(keys))
    if not said:
        says = "Not read as an equation: formulae, + between them, and an arrow ->."
        return nothing(part, says, readable=False)
    best = max((_held(one, wanted) for one in said for wanted in keys), key=lambda held: held.worth)
    return _verdict(part, key, best)


def _key_equation(text: str) -> TypedEquation | None:
    """The reading the author meant: of several, one that is balanced."""
    found = equations(text)
    return next((one for one in found if is_balanced(one)), found[0] if found else None)


def _formulae(keys: list[TypedEquation]) -> tuple[str, ...]:
    shapes = {species.shape for key in keys for side in key.sides for species in side}
    return tuple(sorted(shapes - {"e"}))


def _amounts(side: Side) -> Amounts:
    """Species -> how many, one typed twice added up."""
    found: Amounts = {}
    for species in side:
        found[species.same] = found.get(species.same, Fraction(0)) + species.count
    return found


def _held(said: TypedEquation, key: TypedEquation) -> Held:
    ours = [_amounts(side) for side in said.sides]
    theirs = [_amounts(side) for side in key.sides]
    species = all(set(a) == set(b) for a, b in zip(ours, theirs, strict=True))
    ratios = {
        a[name] / b[name] for a, b in zip(ours, theirs, strict=True) for name in a if name in b
    }
    balance = species and len(ratios) == 1 and is_balanced(said)
    return Held(said, key, species, balance, species and _states(said) == _states(key))


def _states(equation: TypedEquation) -> set[tuple[int, tuple[str, int], str]]:
    """Where each species stands and its state; electrons have none."""
    return {
        (index, species.same, species.state)
        for index, side in enumerate(equation.sides)
        for species in side
        if species.shape != "e"
    }


def _shared(one: Side, other: Side) -> int:
    return len(set(_amounts(one)) & set(_amounts(other)))


def _verdict(part: Part, key: EquationKey, held: Held) -> Mark:
    right = {
        "species": held.species and not held.said.recased,
        "balance": held.balance,
        "states": held.states,
    }
    judged = [name for name in right if name in key.award] or list(right)[:2]
    says, slip = _says(held, [name for name in judged if not right[name]], key.accept[0])
    points = [
        PointMark(
            point.id,
            point.marks if right.get(point.id, all(right[name] for name in judged)) else 0,
            point.marks,
        )
        for point in part.points
    ]
    points = [one if one.marks else replace(one, because=says) for one in points]
    return settled(part, points, says, slip=slip)


def _says(held: Held, wrong: list[str], model: str) -> tuple[str, str | None]:
    if not wrong:
        simplest = _is_simplest(held)
        return f"Right: {model}." + ("" if simplest else " Simplest numbers are nicer."), None
    if "species" in wrong:
        return _about_species(held, model)
    if "balance" in wrong:
        return f"Not balanced: {_unequal(held.said)}.", "not-balanced"
    return f"State symbols: {_unstated(held)}.", "states"


def _unstated(held: Held) -> str:
    """The species whose state is missing or wrong, each with the right one."""
    said = _states(held.said)
    named = dict.fromkeys(
        f"{_named(species.same)} is ({species.state})"
        for index, side in enumerate(held.key.sides)
        for species in side
        if species.state and (index, species.same, species.state) not in said
    )
    return ", ".join(named) or "only where they are asked for"


def _about_species(held: Held, model: str) -> tuple[str, str]:
    if held.said.recased:
        typed, meant = held.said.recased[0]
        return f"Capital letters matter: {meant}, not {typed}.", "capitals"
    ours, theirs = ([set(_amounts(side)) for side in sides] for sides in held.both)
    if ours[0] == theirs[1] and ours[1] == theirs[0]:
        return "The sides are the wrong way round.", "swapped"
    extra = [_named(one) for index in (0, 1) for one in ours[index] - theirs[index]]
    missing = [_named(one) for index in (0, 1) for one in theirs[index] - ours[index]]
    said = [f"{', '.join(sorted(extra))} does not belong here"] if extra else []
    said += [f"{', '.join(sorted(missing))} is missing"] if missing else []
    return f"{'; '.join(said)}: {model}.", "species"


def _named(same: tuple[str, int]) -> str:
    shape, charge = same
    if not charge:
        return shape
    size = str(abs(charge)) if abs(charge) > 1 else ""
    return f"{shape}{'^' if size else ''}{size}{'+' if charge > 0 else '-'}"


def _unequal(equation: TypedEquation) -> str:
    """The first element, or the charge, that differs, with both amounts."""
    left, right = totals(equation.left), totals(equation.right)
    for name in sorted({*left, *right}, key=lambda name: (name == "charge", name)):
        if left.get(name, 0) != right.get(name, 0):
            what = "the charge is" if name == "charge" else f"{name}:"
            return f"{what} {left.get(name, 0)} on the left, {right.get(name, 0)} on the right"
    return "the numbers in front are not those of the reaction"


def _is_simplest(held: Held) -> bool:
    return all(_amounts(a) == _amounts(b) for a, b in zip(*held.both, strict=True))
