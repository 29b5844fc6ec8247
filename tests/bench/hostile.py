"""Random hostile text for every kind of part: a mark, at once, and nothing that a terminal obeys.

    python tests/bench/hostile.py [--each 10000] [--seed 1]

Times are processor time of this thread, so that a busy machine does not count. Then the time that
ordinary answers take, the sample answers of the bank, warm: median, 99th percentile and slowest.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.bank import Bank
from drill.generate import generate
from drill.marking import mark, rule_of
from drill.model import Part, Question, Template
from drill.places import bank_dir
from drill.typed.typed_text import tidy
from tests.marking.test_hostile import PARTS

LIMIT = 0.05  # seconds an answer may take
PIECES = {
    "control characters": [chr(code) for code in (*range(32), *range(127, 160))],
    "marks of direction": list(
        "\u200e\u200f\u202a\u202b\u202d\u202e\u202c\u2066\u2067\u2069\u061c"
    ),
    "terminal escapes": ["\x1b[2J", "\x1b]0;x\x07", "\x1b[31m", "\x9b1A", "\x1bP", "\x1b\\", "\r"],
    "brackets of markup": [*"[](){}<>", "[red]", "[/]", "{0}", "{{", "<b>", "[link=x]"],
    "numbers": [*"0123456789.,-+x*/^=:() eE%", "10^", "1e9", " 000", "½", "²", "∞", "٣", "４"],
    "chemistry": [
        "Cu",
        "SO4",
        "H2O",
        "2+",
        "^",
        "->",
        "+",
        "(aq)",
        "e-",
        "(",
        ")2",
        ".5",
        "₂",
        "⇌",
    ],
    "words": [
        "acid ",
        "not ",
        "used up ",
        "filter ",
        "because ",
        "pure ",
        "burette ",
        "zzzq ",
        ". ",
    ],
    "anything": [chr(code) for code in range(0x20, 0x3000, 7)]
    + ["\U0001f9ea", "\ud800", "\U00100000"],
}


def hostile(chance: random.Random, number: int) -> Iterator[str]:
    """`number` texts: of one sort of piece, of two, or a long one; one in 500 is a megabyte."""
    sorts = list(PIECES.values())
    for index in range(number):
        pieces = [*chance.choice(sorts), *(chance.choice(sorts) if chance.random() < 0.5 else ())]
        if index % 500 == 250:
            yield chance.choice(pieces) * 1_000_000
            continue
        length = chance.randrange(1, 60) if chance.random() < 0.97 else chance.randrange(200, 3000)
        yield "".join(chance.choices(pieces, k=length))


def took(part: Part, typed: str) -> float:
    start = time.thread_time()
    mark(part, typed)
    return time.thread_time() - start


def one(part: Part, typed: str) -> tuple[str, float]:
    """What went wrong ("" when nothing did) and the seconds it took. The rule stands unguarded."""
    text = tidy(typed)
    try:
        verdict = rule_of(part)(part, text, {}) if text else mark(part, typed)
    except Exception as raised:
        return f"raised {type(raised).__name__}: {typed[:60]!r}", 0.0
    said = [verdict.says, *(point.because for point in verdict.points)]
    if any(not (sign.isprintable() or sign == "\n") for text in said for sign in text):
        return f"says what is not printable: {typed[:60]!r}", 0.0
    if not 0 <= verdict.marks <= part.marks:
        return f"{verdict.marks} of {part.marks}: {typed[:60]!r}", 0.0
    return "", took(part, typed)


def parts(bank: Bank) -> dict[str, Part]:
    """A part of every kind; where patterns decide, those of the bank with most of them."""
    found = dict(PARTS)
    for kind, name in (("written", "salts/why-excess"), ("levels", "salts/whole-method")):
        template = bank.template(name)
        assert isinstance(template, Template), template
        asked = generate(template, 0)
        assert isinstance(asked, Question), asked
        found[kind] = next(part for part in asked.parts if part.kind == kind)
    return found


def assault(part: Part, each: int, seed: int) -> int:
    """One line of figures; returns how many texts went wrong."""
    kind = part.kind
    wrong: Counter[str] = Counter()
    times: list[float] = []
    for typed in hostile(random.Random(f"{seed} {kind}"), each):
        says, seconds = one(part, typed)
        if seconds > LIMIT:  # once more, without the luck of the garbage collector
            seconds = min(took(part, typed) for _ in range(3))
        if not says and seconds > LIMIT:
            says = f"{1000 * seconds:.0f} ms: {typed[:60]!r}"
        if says:
            wrong[says] += 1
        times.append(seconds)
    times.sort()
    print(
        f"{kind:9} {each:6} texts, {sum(wrong.values())} wrong, median {1000 * at(times, 0.5):.2f},"
        f" p99 {1000 * at(times, 0.99):.2f}, at most {1000 * times[-1]:.1f} ms"
    )
    for says, _ in wrong.most_common(3):
        print(f"    {says}")
    return sum(wrong.values())


def at(ordered: list[float], share: float) -> float:
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def ordinary(bank: Bank) -> None:
    """The time the bank's own sample answers take, each part being warm."""
    times: list[float] = []
    for path in sorted(bank_dir().glob("*/*.answers.jsonl")):
        template = bank.template(f"{path.parent.name}/{path.name.removesuffix('.answers.jsonl')}")
        assert isinstance(template, Template), template
        asked = generate(template, 0)
        assert isinstance(asked, Question), asked
        by_id = {part.id: part for part in asked.parts}
        rows = [json.loads(line) for line in path.read_text("utf-8").splitlines() if line]
        mark(by_id[rows[0]["part"]], "warming up misspeled wrods")
        times += [took(by_id[row["part"]], row["answer"]) for row in rows]
    times.sort()
    print(
        f"{len(times)} ordinary answers: median {1000 * at(times, 0.5):.2f},"
        f" p99 {1000 * at(times, 0.99):.2f}, at most {1000 * times[-1]:.1f} ms"
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    chosen = parser.parse_args()
    bank = Bank.open(bank_dir())
    made = parts(bank)
    wrong = sum(assault(made[kind], chosen.each, chosen.seed) for kind in made)
    ordinary(bank)
    raise SystemExit(1 if wrong else 0)


if __name__ == "__main__":
    main()
