"""Ways to spoil a question: slips of the hand and hostile values, for tests and the bench."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

ODD = ("\u202e", "\u0000", "\ufeff", "\u200b", "🧪", "é", "\\", '"', "{", "}", "\r", "１２", "−")

Mutation = Callable[[list[str], random.Random], list[str]]


def drop_a_line(rows: list[str], rng: random.Random) -> list[str]:
    at = rng.randrange(len(rows))
    return rows[:at] + rows[at + 1 :]


def repeat_a_line(rows: list[str], rng: random.Random) -> list[str]:
    at = rng.randrange(len(rows))
    return rows[:at] + [rows[at]] * rng.choice((2, 50)) + rows[at + 1 :]


def swap_two_lines(rows: list[str], rng: random.Random) -> list[str]:
    rows = list(rows)
    one, other = rng.randrange(len(rows)), rng.randrange(len(rows))
    rows[one], rows[other] = rows[other], rows[one]
    return rows


def cut_the_end(rows: list[str], rng: random.Random) -> list[str]:
    text = "\n".join(rows)
    return text[: rng.randrange(len(text))].split("\n")


def cut_a_value(rows: list[str], rng: random.Random) -> list[str]:
    at = a_value(rows, rng)
    return [*rows[:at], rows[at][: rng.randrange(len(rows[at]))], *rows[at + 1 :]]


def another_value(value: str) -> Mutation:
    def change(rows: list[str], rng: random.Random) -> list[str]:
        at = a_value(rows, rng)
        return [*rows[:at], f"{rows[at].split('=')[0]}= {value}", *rows[at + 1 :]]

    return change


def odd_letters(rows: list[str], rng: random.Random) -> list[str]:
    at = rng.randrange(len(rows))
    place = rng.randrange(len(rows[at]) + 1)
    row = rows[at][:place] + rng.choice(ODD) + rows[at][place:]
    return [*rows[:at], row, *rows[at + 1 :]]


def rename_a_key(rows: list[str], rng: random.Random) -> list[str]:
    at = a_value(rows, rng)
    return [*rows[:at], rng.choice("xq_2") + rows[at], *rows[at + 1 :]]


def another_sign(rows: list[str], rng: random.Random) -> list[str]:
    return _inside(rows, rng, r"[-+*/<>=^(),.]", "+-*/^<=>(),.")


def another_digit(rows: list[str], rng: random.Random) -> list[str]:
    return _inside(rows, rng, r"\d", "0123456789")


def another_letter(rows: list[str], rng: random.Random) -> list[str]:
    return _inside(rows, rng, r"[a-z]", "abcdefghijklmnopqrstuvwxyz_")


def no_quotes(rows: list[str], rng: random.Random) -> list[str]:
    return _inside(rows, rng, '"', [""])


def _inside(
    rows: list[str], rng: random.Random, pattern: str, instead: str | list[str]
) -> list[str]:
    """One character of one line, among those that fit, by another one."""
    places = [(at, found) for at, row in enumerate(rows) for found in re.finditer(pattern, row)]
    if not places:
        return drop_a_line(rows, rng)
    at, found = rng.choice(places)
    row = rows[at][: found.start()] + rng.choice(instead) + rows[at][found.end() :]
    return [*rows[:at], row, *rows[at + 1 :]]


def a_value(rows: list[str], rng: random.Random) -> int:
    return rng.choice([at for at, row in enumerate(rows) if "=" in row])


MUTATIONS: dict[str, Mutation] = {
    "drop": drop_a_line,
    "repeat": repeat_a_line,
    "swap": swap_two_lines,
    "cut the end": cut_the_end,
    "cut a value": cut_a_value,
    "odd letters": odd_letters,
    "another sign": another_sign,
    "another digit": another_digit,
    "another letter": another_letter,
    "no quotes": no_quotes,
    "rename": rename_a_key,
    "to whole": another_value("7"),
    "to minus": another_value("-1"),
    "to text": another_value('"text"'),
    "to empty text": another_value('""'),
    "to truth": another_value("true"),
    "to list": another_value('[1, "two", [3], {}]'),
    "to empty list": another_value("[]"),
    "to table": another_value('{ a = 1, b = "x" }'),
    "to empty table": another_value("{}"),
    "to date": another_value("2027-05-18"),
    "to moment": another_value("2027-05-18T09:00:00Z"),
    "to infinity": another_value("inf"),
    "to nan": another_value("nan"),
    "to huge": another_value("1e400000000"),
    "to long whole": another_value("9" * 5000),
    "to hexadecimal": another_value("0x" + "f" * 5000),
    "to deep list": another_value("[" * 2000 + "]" * 2000),
    "to deep formula": another_value('"' + "(" * 1500 + '"'),
    "to power": another_value('"9^9^9^9^9"'),
    "to long formula": another_value('"' + "1+" * 100_000 + '1"'),
    "to long text": another_value('"' + "long " * 150_000 + '"'),
    "to braces": another_value('"' + "{" * 3000 + '"'),
    "to names": another_value('"{a.b.c.d.e} {} {:} {::} {a:} {{}"'),
    "to python": another_value("\"__import__('os').system('true')\""),
}
