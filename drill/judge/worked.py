"""Checks the lines of a worked answer: each = holds, and each named value is the judge's."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from drill.judge.amounts import Amount, Value, turned
from drill.judge.author import Raw, formula
from drill.judge.cannot import Cannot
from drill.judge.doubts import Doubt, differs
from drill.judge.filling import shown
from drill.judge.grammar import Called, read
from drill.judge.lines import uneven
from drill.judge.rounding import cut_off, first_digit, places_of
from drill.judge.units import means, unit_of
from drill.judge.working import value_of
from drill.judge.world import Env

_ROUNDED = re.compile(r"(?P<called>.*), to (?P<how>[^:]*): (?P<value>.*)")
_PLACES = re.compile(r"to (?P<n>\d+) (?:decimal place|significant figure)s?")
_ROUNDS = re.compile(r"To |Rounded: ")
_CUT_TO = 6  # figures of a number that is cut off
_NUMBER = re.compile(r"(-?\d+(?:\.\d+)?)(…?)")
_STANDARD = re.compile(r"(\d+(?:\.\d+)?) × 10\^(-?\d+)")


def line_doubts(
    lines: list[str],
    env: Env,
    steps: Mapping[str, Raw],
    asked: tuple[str, str],
    line: int,
) -> Iterator[Doubt]:
    """What is wrong with the lines of a generated worked answer.

    Args:
        asked: the correct answer in the form required, in which the last line may end, and the
            required places or figures in words.
    """
    answer, how = asked
    called: dict[str, list[Value]] = {}
    for name, raw in steps.items():
        several = called.setdefault(raw.get("called") or name.replace("_", " "), [])
        several += [env[name], *_unrounded(formula(raw["is"]), env, env[name])]
    for text in lines:
        if sides := uneven(text):
            says = f'"{sides[0]} = {sides[1]}" does not hold to the second judge.'
            yield Doubt(f"line {text}", line, says)
        head, value = _ends(text)
        if text.endswith(f": {answer}") and _ROUNDS.match(text) and how != _lowered(text):
            yield differs(f'"{text}"', line, _lowered(text), how)
        wanted = called.get(head)
        if wanted and value not in (answer, answer.replace("-", "−", 1)):
            if not any(reads(value, one) for one in wanted):
                yield differs(f'"{head}" in the worked answer', line, value, shown(wanted[0]))
            yield from _rounding(text, wanted, line)


def reads(text: str, value: Value) -> bool:
    """Whether a text is that value with its unit, exactly or truncated with …."""
    if not isinstance(value, Amount | tuple):
        return text == shown(value)
    if isinstance(value, Amount):
        return _number_reads(text, value)
    numbers, items = re.split(r", | and ", text), list(value)
    if len(numbers) != len(items) or not items:
        return False
    if any(isinstance(item, str) for item in items):
        return numbers == items
    *before, last = zip(numbers, items, strict=True)
    plain = all(
        isinstance(item, Amount) and _number_reads(number, Amount(item.number))
        for number, item in before
    )
    return plain and isinstance(last[1], Amount) and _number_reads(last[0], last[1])


def _number_reads(text: str, amount: Amount) -> bool:
    """Whether it is the same amount, in its own unit or converted to another."""
    flat = text.replace("−", "-")
    found = _STANDARD.match(flat) or _NUMBER.match(flat)
    if found is None:
        return False
    unit = flat[found.end() :].strip()
    if not means(unit, amount.unit):
        if amount.unit.plain:
            return False
        try:
            amount = turned(amount, unit_of(unit))
        except Cannot:
            return False
    if found.re is _STANDARD:
        return Fraction(found[1]) * Fraction(10) ** int(found[2]) == amount.number
    if not found[2]:
        return Fraction(found[1]) == amount.number
    places = max(_CUT_TO - 1 - first_digit(amount.number), 0)
    shown_ = places_of(found[1]) == places
    return shown_ and Fraction(found[1]) == cut_off(amount.number, places)


def _lowered(line: str) -> str:
    """How a last line says that it rounds: "to 3 significant figures"."""
    return (line[0].lower() + line[1:]).partition(": ")[0]


def _ends(line: str) -> tuple[str, str]:
    """The name of what a line works out, and the value it ends in."""
    if rounded := _ROUNDED.fullmatch(line):
        return rounded["called"], rounded["value"]
    head, _, rest = line.partition(" = ")
    return head, rest.rpartition(" = ")[2]


def _unrounded(text: str, env: Env, value: Value) -> Iterator[Amount]:
    """The value of a step before its formula rounds it; a separate line may show this."""
    tree = read(text)
    node = tree.tree
    if isinstance(value, Amount) and isinstance(node, ast.Call):
        called = tree.leaf(node.func)
        rounds = isinstance(called, Called) and called.name in ("round", "sig")
        inner = value_of(tree, node.args[0], env) if rounds else None
        if isinstance(inner, Amount):
            yield Amount(inner.number, value.unit)


def _rounding(text: str, wanted: list[Value], line: int) -> Iterator[Doubt]:
    """Checks that a line which says how it rounds gives the value rounded that way."""
    rounded = _ROUNDED.fullmatch(text)
    told = _PLACES.search(f"to {rounded['how']}") if rounded else None
    if told is None:
        return
    amounts = [one for one in wanted if isinstance(one, Amount)]
    if not any(int(told["n"]) in (one.places, one.figures) for one in amounts):
        yield Doubt(f"rounding {text}", line, f'"{text}" rounds otherwise than its formula.')


def table_lines(lines: list[str], names: list[str]) -> Mapping[str, list[str]]:
    """The lines of each cell, as "name: …" or "name = …"; the last of all sums them up."""
    return {
        name: [
            one.removeprefix(f"{name}: ")
            for one in lines[:-1]
            if one.startswith((f"{name}: ", f"{name} = "))
        ]
        for name in names
    }
