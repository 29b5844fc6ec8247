"""What marking learns from samples and prose, worked out when an author stamps the bank.

Word pairs are counted in all questions and their samples; for each written part a ridge regression
on stems and pairs of stems tells which answers lean to a point. Both are written to a file that is
shipped, so marks are the same on every machine.
"""

from __future__ import annotations

import json
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence, Set
from itertools import pairwise
from math import sqrt
from pathlib import Path
from typing import Any

from drill.bank import FITTED, answers_path, read_template
from drill.bank.files.author_files import write_atomically
from drill.checking.samples import Sample, read_samples
from drill.checking.twins import things_of
from drill.generate import generate
from drill.marking.written.exchanged import DENIED, THING, bare, contexts
from drill.marking.written.leaning import features
from drill.marking.written.opposites import OPPOSITES, groups
from drill.marking.written.sentences import stem, words_of
from drill.marking.written.word_order import END, START, class_of
from drill.model import ChoiceKey, OrderKey, PartSpec, Question, Template, WrittenKey

OFTEN = 8  # times a word must be seen to be a class of its own
_SEEDS = (0, 1)  # of each question, for its prose
_RIDGE = 0.5  # how much the regression is held back
_FEWEST = 10  # samples of a part before anything is learned from them
_ELSEWHERE = 0.05  # what being seen in another text counts beside a sample of the part
_TWICE = 2  # a stem in fewer samples teaches nothing

Pair = tuple[str, str]
Rows = list[dict[str, Any]]


def fit(files: Sequence[Path], bank: Path) -> None:
    """Write the fitted file of every folder of questions that these files lie in.

    Args:
        files: `<practical>/<question>.toml` of the bank, or of a school's own folder. In its file
            stand only the parts: the word pairs are the bank's.

    Raises:
        OSError: a folder cannot be written to.
    """
    for top in dict.fromkeys(path.resolve().parent.parent for path in files):
        shipped = top == bank.resolve()
        read = [read_template(path, bank) for path in sorted(top.glob("*/*.toml"))]
        templates = [one for one in read if isinstance(one, Template)]
        texts = texts_of(templates)
        about = context_counts(texts)
        rows = [row for template in templates for row in fitted_parts(template, about)]
        if shipped:
            rows.insert(0, {"word_pairs": word_pairs(texts)})
        if rows:
            lines = (json.dumps(row, ensure_ascii=False, sort_keys=True) for row in rows)
            write_atomically(top / FITTED, "".join(f"{line}\n" for line in lines))


# ---------------------------------------------------------------- word pairs


def texts_of(templates: Iterable[Template]) -> list[str]:
    """The texts of questions and their sample answers."""
    return [text for template in templates for text in (*_prose(template), *_answers(template))]


def _answers(template: Template) -> Iterator[str]:
    kinds = {chr(97 + index): part.kind for index, part in enumerate(template.parts)}
    for sample in read_samples(answers_path(Path(template.path)))[0]:
        if kinds.get(sample.part) in ("written", "levels"):
            yield sample.answer


def _prose(template: Template) -> Iterator[str]:
    """Each text once, though it may be printed for several seeds."""
    seen: dict[str, None] = {}
    for seed in _SEEDS:
        question = generate(template, seed)
        if isinstance(question, Question):
            seen |= dict.fromkeys(_printed(question))
    yield from (text for text in seen if text)


def _printed(question: Question) -> Iterator[str]:
    yield from (question.text, question.safety, question.picture)
    for part in question.parts:
        yield from (part.ask, part.hint)
        yield from (point.says for point in part.points if part.kind in ("written", "levels"))
        if part.kind in ("written", "levels"):
            yield part.model_answer
        if isinstance(part.key, ChoiceKey):
            yield from (text for option in part.key.options for text in (option.text, option.says))
        if isinstance(part.key, OrderKey):
            yield from (*(text for _, text in part.key.steps), *part.key.why.values())


def word_pairs(texts: Iterable[str]) -> dict[str, dict[str, int]]:
    """How often each word or ending was seen, and each two of them side by side."""
    sentences = [words for text in texts for words in _sentences(text)]
    seen = Counter(word for words in sentences for word in words)
    known = {word for word, times in seen.items() if times >= OFTEN and word.isalpha()}
    classes = [[START, *(class_of(word, known) for word in words), END] for words in sentences]
    words_ = Counter(one for several in classes for one in several)
    pairs = Counter(" ".join(pair) for several in classes for pair in pairwise(several))
    return {"words": dict(words_), "pairs": dict(pairs)}


def _sentences(text: str) -> Iterator[list[str]]:
    found: dict[int, list[str]] = {}
    for word in words_of(text):
        found.setdefault(word.sentence, []).append(word.text)
    yield from (words for words in found.values() if len(words) > 1)


# ---------------------------------------------------------------- what samples lean to


def fitted_parts(template: Template, about: Counter[Pair] | None = None) -> Rows:
    """A row for each written part with samples enough.

    Args:
        about: what stands about each word in other texts, which count less than the samples.
    """
    samples = read_samples(answers_path(Path(template.path)))[0]
    name = "/".join(template.id.split("/")[-2:])
    rows: Rows = []
    for index, spec in enumerate(template.parts):
        letter = chr(97 + index)
        ours = [one for one in samples if one.part == letter and one.points is not None]
        if spec.kind != "written" or len(ours) < _FEWEST:
            continue
        leanings = _leanings(template, letter, ours)
        row: dict[str, Any] = {
            "question": name,
            "part": letter,
            "samples": len(ours),
            "leanings": leanings,
        }
        elsewhere = about or Counter()
        row["roles"], row["ways"] = (which(spec, ours, elsewhere) for which in (_roles, _ways))
        rows.append(row)
    return rows


def context_counts(texts: Iterable[str]) -> Counter[Pair]:
    """How often each word was seen with each context."""
    return Counter(pair for text in texts for pair in contexts(words_of(text)))


def _roles(
    spec: PartSpec, samples: Sequence[Sample], about: Counter[Pair]
) -> dict[str, dict[str, float]]:
    """The contexts of the things that a part speaks of.

    Counted in right samples and, much less, in all texts, for contexts whose word the part knows.
    """
    own, right = _own(spec), _right(samples)
    counts = context_counts([*own, *right])
    things = {stem(one) for one in things_of([spec.ask, *own], right).heads} - OPPOSITES.keys()
    found = _kept(counts, about, [things])
    for thing in sorted(things & found.keys()):
        found[thing][THING] = 1.0
    return found


def _ways(spec: PartSpec, samples: Sequence[Sample], about: Counter[Pair]) -> list[dict[str, Any]]:
    """For each reading of a part, by its points, the contexts of its direction words.

    "They collide more often" is right of a warmer mixture and "less often" of a cooler one.
    """
    points = {frozenset(one.points or ()) for one in samples}
    readings = [one for one in points if not any(one < other for other in points)]
    found = []
    for reading in sorted(readings, key=sorted):
        theirs = [one for one in samples if reading.issuperset(one.points or ())]
        counts = context_counts([*_own(spec), *_right(theirs)])
        roles = _kept(counts, about, dict.fromkeys(groups().values()))
        found.append({"points": sorted(reading), "roles": roles})
    return found


def _own(spec: PartSpec) -> list[str]:
    return [spec.model_answer, *(point.says for point in spec.points)]


def _right(samples: Sequence[Sample]) -> list[str]:
    return [one.answer for one in samples if one.points and any(one.points.values())]


def _kept(
    counts: Counter[Pair], about: Counter[Pair], groups: Iterable[Set[str]]
) -> dict[str, dict[str, float]]:
    """How often each of these words was seen with each context that the part has for its group."""
    by_word: dict[str, set[str]] = defaultdict(set)
    for word, context in counts:
        by_word[bare(word)].add(context)
    found: dict[str, dict[str, float]] = {}
    for group in groups:
        told = sorted(set().union(*(by_word[word] for word in group)))
        for word in (sign + word for word in group for sign in ("", DENIED)):
            times = ((name, _times(counts, about, (word, name))) for name in told)
            kept = {name: by for name, by in times if by > _ELSEWHERE}
            if kept:
                found[word] = kept
    return found


def _times(counts: Counter[Pair], about: Counter[Pair], pair: Pair) -> float:
    return round(counts[pair] + _ELSEWHERE * about[pair], 1)


def _leanings(template: Template, letter: str, samples: Sequence[Sample]) -> dict[str, Any]:
    question = generate(template, samples[0].seed)
    parts = question.parts if isinstance(question, Question) else ()
    part = next((one for one in parts if one.id == letter), None)
    if part is None or not isinstance(part.key, WrittenKey):
        return {}
    seen = [features(words_of(sample.answer)) for sample in samples]
    return {
        point.id: _leaning(seen, [float((one.points or {}).get(point.id, 0)) for one in samples])
        for point in part.key.points
    }


def _leaning(seen: Sequence[frozenset[str]], given: Sequence[float]) -> list[Any]:
    """`[start, {feature: what it adds}]` of a ridge regression in its dual form."""
    times = Counter(one for several in seen for one in several)
    kept = [frozenset(one for one in several if times[one] >= _TWICE) for several in seen]
    sizes = [sqrt(len(several)) or 1.0 for several in seen]
    start = sum(given) / len(given)
    alike = [
        [len(one & other) / (a * b) for other, b in zip(kept, sizes, strict=True)]
        for one, a in zip(kept, sizes, strict=True)
    ]
    for place, row in enumerate(alike):
        row[place] += _RIDGE
    pulls = solved(alike, [value - start for value in given])
    adds: dict[str, float] = {}
    for several, size, pull in zip(kept, sizes, pulls, strict=True):
        for one in several:
            adds[one] = adds.get(one, 0.0) + pull / size
    return [
        round(start, 3),
        {one: round(by, 3) for one, by in sorted(adds.items()) if abs(by) >= 0.02},
    ]


def solved(matrix: Sequence[Sequence[float]], right: Sequence[float]) -> list[float]:
    """The solution of a set of linear equations, symmetric and positive, by elimination."""
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for at in range(size):
        for below in range(at + 1, size):
            times = rows[below][at] / rows[at][at]
            if times:
                rows[below] = [b - times * a for a, b in zip(rows[at], rows[below], strict=True)]
    found = [0.0] * size
    for at in reversed(range(size)):
        known = sum(rows[at][other] * found[other] for other in range(at + 1, size))
        found[at] = (rows[at][size] - known) / rows[at][at]
    return found
