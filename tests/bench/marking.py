"""How far the marker of written answers agrees with answers marked by hand.

    python tests/bench/marking.py ANSWERS.jsonl [--kept]

A line holds {"question": template id, "answer": text, "points": {id: 0 or 1}}. Where the marker is
not sure its own guess is taken. A third of the lines is kept back, so that nobody looks at it while
patterns are written: those whose SHA-256 of question, newline and answer is divisible by 3. Without
`--kept` that third is not even marked; with it only its totals are told.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
import time
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.bank import Bank
from drill.generate import generate
from drill.marking import mark
from drill.model import Part, Question, Template
from drill.places import bank_dir


@dataclass
class Tally:
    """Pairs of (by hand, by the marker) for points and for whole answers."""

    points: list[tuple[int, int]] = field(default_factory=list)
    marks: list[tuple[int, int]] = field(default_factory=list)
    unsure: int = 0
    seconds: list[float] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        self.points += other.points
        self.marks += other.marks
        self.unsure += other.unsure
        self.seconds += other.seconds


def is_kept(row: dict[str, object]) -> bool:
    """Whether a line belongs to the third that is only ever reported."""
    text = f"{row['question']}\n{row['answer']}".encode()
    return int(hashlib.sha256(text).hexdigest(), 16) % 3 == 0


def written_part(bank: Bank, question: str) -> Part:
    """The written part of a template at seed 0."""
    template = bank.template(question)
    assert isinstance(template, Template), template
    asked = generate(template, 0)
    assert isinstance(asked, Question), asked
    return next(part for part in asked.parts if part.kind == "written")


def judge(part: Part, row: dict[str, object]) -> Tally:
    """One answer marked, beside what it was given by hand."""
    by_hand = row["points"]
    assert isinstance(by_hand, dict)
    start = time.perf_counter()
    verdict = mark(part, str(row["answer"]))
    seconds = time.perf_counter() - start
    known = [point for point in verdict.points if point.id in by_hand]  # a point may be newer
    pairs = [(int(by_hand[point.id]), point.marks) for point in known]
    total = min(part.marks, sum(hand for hand, _ in pairs))
    return Tally(pairs, [(total, verdict.marks)], sum(point.unsure for point in known), [seconds])


def kappa(pairs: list[tuple[int, int]], weighted: bool = False) -> float:
    """Cohen's kappa; weighted by the squared distance of the two marks for `weighted`."""
    values = sorted({value for pair in pairs for value in pair})
    seen = chance = 0.0
    for one in values:
        for other in values:
            cost = float((one - other) ** 2) if weighted else float(one != other)
            seen += cost * sum(pair == (one, other) for pair in pairs) / len(pairs)
            left = sum(hand == one for hand, _ in pairs) / len(pairs)
            chance += cost * left * sum(ours == other for _, ours in pairs) / len(pairs)
    return 1 - seen / chance if chance else 1.0


def share(pairs: Iterable[tuple[int, int]], of: int, given: int) -> float:
    """Of the points marked `of` by hand, the share the marker made `given`."""
    of_these = [ours for hand, ours in pairs if hand == of]
    return sum(ours == given for ours in of_these) / len(of_these) if of_these else 0.0


def line(name: str, tally: Tally) -> str:
    points = tally.points
    agreed = sum(hand == ours for hand, ours in points) / len(points)
    return (
        f"{name:34} {len(tally.marks):5} {len(points):6} {agreed:7.3f} {kappa(points):7.3f}"
        f" {kappa(tally.marks, weighted=True):7.3f} {share(points, 0, 1):8.3f}"
        f" {share(points, 1, 0):8.3f} {tally.unsure / len(points):8.3f}"
    )


def report(
    title: str, rows: list[dict[str, object]], parts: dict[str, Part], totals_only: bool = False
) -> None:
    """All figures of some lines, question by question and together."""
    by_question: dict[str, Tally] = defaultdict(Tally)
    for row in rows:
        by_question[str(row["question"])].add(judge(parts[str(row["question"])], row))
    every = Tally()
    print(f"\n{title}")
    print(f"{'':34} {'n':>5} {'points':>6}  agreed   kappa     QWK  awarded   denied not sure")
    for question, tally in by_question.items():
        if not totals_only:
            print(line(question, tally))
        every.add(tally)
    print(line("together", every))
    middle = sorted(every.seconds)[len(every.seconds) // 2]
    print(f"{1000 * middle:.2f} ms an answer (median), {1000 * max(every.seconds):.1f} ms at most")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("path", type=Path)
    parser.add_argument("--kept", action="store_true")
    chosen = parser.parse_args()
    rows = [json.loads(text) for text in chosen.path.read_text("utf-8").splitlines() if text]
    bank = Bank.open(bank_dir())
    parts = {name: written_part(bank, name) for name in {str(row["question"]) for row in rows}}
    for part in parts.values():  # load the stemmer and the word list before anything is timed
        mark(part, "warming up misspeled wrods")
    report("tuned on", [row for row in rows if not is_kept(row)], parts)
    if chosen.kept:
        report("kept", [row for row in rows if is_kept(row)], parts, totals_only=True)


if __name__ == "__main__":
    main()
