"""Whether papers balance over many seeds, how long one takes, and what it has in it.

    python tests/bench/papers.py [DECK …] --seeds 50 --marks 40
    python tests/bench/papers.py --time

For each deck: seeds that make no paper, or one with other marks than asked for; the largest share
of one skill, beside what it may be (a fifth; twice its even share where the deck has fewer than
eight skills), and papers with more; the lowest and the highest difficulty (the share of marks to
expect of a learner who has answered nothing); papers in which a question prints what another asks
for; how often a thing is asked about twice; marks by command word; processor seconds a paper.
With `--time`: the whole command, from its start to a PDF of paper and scheme.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections import Counter
from datetime import UTC, datetime
from statistics import median
from tempfile import TemporaryDirectory
from time import process_time

from drill.app.context import find_deck, open_bank
from drill.app.papers.assembly import Assembled, PaperWish, assemble
from drill.app.papers.balance import FEW_SKILLS
from drill.errors import DrillError
from drill.model import Deck
from drill.sitting import topic_of

NOW = datetime(2027, 7, 1, 12, tzinfo=UTC)
RUNS = 5


def skill_marks(paper: Assembled) -> Counter[str]:
    """Marks by skill."""
    marks: Counter[str] = Counter()
    for question in paper.questions:
        for part in question.parts:
            marks[part.skill] += part.marks
    return marks


def command_words(paper: Assembled) -> Counter[str]:
    """Marks by command word."""
    marks: Counter[str] = Counter()
    for question in paper.questions:
        marks[question.command_word] += question.marks
    return marks


def most_of_a_skill(deck: Deck) -> float:
    """The share of the marks that one skill may have, counted here from the bank's index."""
    entries = [entry for entry in open_bank(deck).entries() if topic_of(deck, entry)]
    skills = {name for entry in entries for name, marks in entry.skill_marks.items() if marks}
    return 0.2 if len(skills) >= FEW_SKILLS else 2 / len(skills)


def made(deck: Deck, seeds: int, marks: int) -> list[Assembled]:
    """The papers of the first seeds, without those that cannot be made."""
    bank, papers = open_bank(deck), []
    for seed in range(1, seeds + 1):
        try:
            papers.append(assemble(bank, deck, PaperWish(marks, seed), NOW))
        except DrillError as error:
            print(f"  seed {seed}: {error}")
    return papers


def report(name: str, seeds: int, marks: int) -> None:
    """One deck's lines."""
    deck = find_deck(name)
    print(f"{deck.id}: {seeds} papers of {marks} marks")
    start = process_time()
    papers = made(deck, seeds, marks)
    seconds = (process_time() - start) / seeds
    if not papers:
        return
    objects = {entry.id: entry.object for entry in open_bank(deck).entries()}
    twice = sum(
        times - 1
        for paper in papers
        for thing, times in Counter(objects[q.template] for q in paper.questions).items()
        if thing
    )
    words: Counter[str] = sum(map(command_words, papers), Counter())
    hard = [paper.plan.difficulty for paper in papers]
    largest, most = (
        [max(skill_marks(p).values()) / p.plan.marks for p in papers],
        most_of_a_skill(deck),
    )
    other = sum(paper.plan.marks != marks for paper in papers)
    print(f"  not made {seeds - len(papers)}, with other marks {other}; {seconds:.2f} s each")
    over = sum(share > most + 1e-9 for share in largest)
    print(f"  largest skill {max(largest):.0%} (may be {most:.0%}), in {over} papers more")
    print(f"  difficulty {min(hard):.3f} to {max(hard):.3f}, {max(hard) - min(hard):.3f} apart")
    print(f"  with a clue: {sum(bool(paper.plan.clues) for paper in papers)}; twice: {twice}")
    print(f"  questions: {sum(len(p.questions) for p in papers) / len(papers):.1f}")
    shares = (f"{word} {n / words.total():.0%}" for word, n in words.most_common())
    print(f"  command words: {', '.join(shares)}")


def time_command() -> None:
    """Processor and clock seconds of `drill paper make`, as a process of its own."""
    cpu = []
    with TemporaryDirectory() as folder:
        command = (sys.executable, "-m", "drill", "paper", "make", "first-steps", "--marks", "40")
        for seed in range(1, RUNS + 2):
            before = os.times()
            subprocess.run(
                [*command, "--seed", str(seed), "--out", folder],
                env={**os.environ, "DRILL_HOME": f"{folder}/home"}, check=True, capture_output=True,
            )  # fmt: skip
            after = os.times()
            user, system = (after[n] - before[n] for n in (2, 3))
            cpu.append(user + system)
    told = ", ".join(f"{one:.2f}" for one in cpu[1:])
    print(f"paper and scheme of 40 marks as PDF: {median(cpu[1:]):.2f} s of processor ({told});")
    print(f"the very first, which reads the bank: {cpu[0]:.2f} s")


if __name__ == "__main__":
    read = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    read.add_argument("decks", nargs="*", default=["first-steps", "spring-practicals", "catch-up"])
    read.add_argument("--seeds", type=int, default=50)
    read.add_argument("--marks", type=int, default=40)
    read.add_argument("--time", action="store_true")
    wanted = read.parse_args()
    if wanted.time:
        time_command()
    else:
        for deck_name in wanted.decks:
            report(deck_name, wanted.seeds, wanted.marks)
