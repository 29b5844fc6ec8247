"""Whether papers balance over many seeds, how long one takes, and what it has in it.

    python tests/bench/papers.py [DECK …] --seeds 50 --marks 40

For each deck: papers that missed their marks; the largest share of one skill; the lowest and the
highest difficulty (the share of marks to expect of a learner who has answered nothing); papers in
which a question prints what another asks for; how often a thing is asked about twice; marks by
letters and by command word; processor seconds a paper.
"""

from __future__ import annotations

import argparse
from collections import Counter
from datetime import UTC, datetime
from time import process_time

from drill.app.context import find_deck, open_bank
from drill.app.papers.assembly import Assembled, PaperWish, assemble

NOW = datetime(2027, 7, 1, 12, tzinfo=UTC)


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


def report(name: str, seeds: int, marks: int) -> None:
    """One deck's line."""
    deck = find_deck(name)
    bank = open_bank(deck)
    start = process_time()
    papers = [assemble(bank, deck, PaperWish(marks, seed), NOW) for seed in range(1, seeds + 1)]
    seconds = (process_time() - start) / seeds
    objects = {entry.id: entry.object for entry in bank.entries()}
    twice = sum(
        times - 1
        for paper in papers
        for thing, times in Counter(objects[q.template] for q in paper.questions).items()
        if thing
    )
    words: Counter[str] = sum(map(command_words, papers), Counter())
    hard = [paper.plan.difficulty for paper in papers]
    print(f"{name}: {seeds} papers of {marks} marks, {seconds:.2f} s each")
    print(f"  marks missed: {sum(paper.plan.marks != marks for paper in papers)} papers")
    print(f"  largest skill: {max(max(skill_marks(p).values()) / marks for p in papers):.0%}")
    print(f"  difficulty: {min(hard):.3f} to {max(hard):.3f}")
    print(f"  with a clue: {sum(bool(paper.plan.clues) for paper in papers)}; twice: {twice}")
    print(f"  questions: {sum(len(p.questions) for p in papers) / seeds:.1f}")
    shares = ", ".join(f"{word} {n / seeds / marks:.0%}" for word, n in words.most_common())
    print(f"  command words: {shares}")


if __name__ == "__main__":
    read = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    read.add_argument("decks", nargs="*", default=["first-steps", "spring-practicals", "catch-up"])
    read.add_argument("--seeds", type=int, default=50)
    read.add_argument("--marks", type=int, default=40)
    wanted = read.parse_args()
    for deck_name in wanted.decks:
        report(deck_name, wanted.seeds, wanted.marks)
