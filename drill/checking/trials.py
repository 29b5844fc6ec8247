"""Tries a written scheme on its samples and on answers that deserve nothing."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator, Sequence
from functools import cache
from pathlib import Path

from drill.bank import ENOUGH_ANSWERS, answers_path
from drill.checking.evidence import LineEvidence, PartAt, evidence_of
from drill.checking.samples import Sample, read_samples
from drill.checking.twins import Things, Twin, things_of, twins
from drill.errors import Problem
from drill.generate import generate
from drill.marking import mark
from drill.model import Part, PartSpec, Question, Template

_DONT_KNOW = ("I don't know", "no idea", "not sure, sorry")
_DENIAL = "it is not true that "
_TOO_MANY = 0.4  # share of earned points that may outlive shuffling or a denial
_SEVERAL = 5  # right samples of a line before their order is proposed


def try_schemes(template: Template) -> list[Problem]:
    """Problems and notes on each written part, at the line that decides."""
    samples = read_samples(answers_path(Path(template.path)))[0]
    found: list[Problem] = []
    for index, spec in enumerate(template.parts):
        if spec.kind != "written":
            continue
        letter = chr(97 + index)
        part_at = _parts(template, index)
        ours = [one for one in samples if one.part == letter and one.points is not None]
        trials = (
            *_copied(template, letter, part_at),
            *_spoilt(ours, part_at),
            *_model_denied(part_at),
            *_twins_paid(spec, ours, part_at),
        )
        shown = evidence_of(ours, part_at) if len(ours) >= ENOUGH_ANSWERS else []
        lines = (*_lines(shown), *_thingless(shown, things_spoken_of(spec, ours)))
        found += [
            Problem(template.path, line or spec.line, 0, says, hint, level)
            for line, says, hint, level in (*trials, *lines)
        ]
    return found


Told = tuple[int, str, str, str]


def _parts(template: Template, index: int) -> PartAt:
    @cache
    def at(seed: int) -> Part | None:
        question = generate(template, seed)
        return question.parts[index] if isinstance(question, Question) else None

    return at


def deciding_line(part: Part, typed: str, point: str) -> int:
    """The file's line of the accept line that gives a point; 0 when none does."""
    found = evidence_of([Sample(0, part.id, typed, 0, {point: 1}, None)], lambda _: part)
    return next((one.pattern.line for one in found if one.point == point and one.right), 0)


def _copied(template: Template, letter: str, part_at: PartAt) -> Iterator[Told]:
    """The question's own words, its safety line and "I don't know" earn nothing."""
    part, question = part_at(0), generate(template, 0)
    if part is None or not isinstance(question, Question):
        return
    texts = {"the question": part.ask, "the safety line": question.safety}
    for name, typed in (*texts.items(), *(("this", text) for text in _DONT_KNOW)):
        for point in mark(part, typed).points:
            if point.marks and not point.unsure:
                line = deciding_line(part, typed, point.id)
                says = f'{name}, typed in part {letter}, earns "{point.id}": "{typed[:60]}".'
                yield line, says, "Make the line ask for more.", "error"


def _spoilt(samples: Sequence[Sample], part_at: PartAt) -> Iterator[Told]:
    """Samples with their words shuffled, or negated, should lose nearly all their marks."""
    chance = random.Random(1)
    for name in ("shuffled", "denied"):
        earned = kept = 0
        for sample in samples:
            part = part_at(sample.seed)
            if part is None:
                continue
            words = sample.answer.split()
            text = " ".join(chance.sample(words, len(words)))
            spoilt = _DENIAL + sample.answer if name == "denied" else text
            before = {one.id for one in mark(part, sample.answer).points if one.marks}
            after = {one.id for one in mark(part, spoilt).points if one.marks and not one.unsure}
            earned, kept = earned + len(before), kept + len(before & after)
        if earned and kept > _TOO_MANY * earned:
            says = f"of {earned} points that samples earn, {kept} are still earned when {name}."
            yield 0, says, "Look for lines of one word, and for orders.", "note"


def _model_denied(part_at: PartAt) -> Iterator[Told]:
    """A reject line that matches the model answer, although the point is accepted there."""
    part = part_at(0)
    if part is None:
        return
    given = {point.id: 1 for point in part.points}
    found = evidence_of([Sample(0, part.id, part.model_answer, 0, given, None)], lambda _: part)
    met = [one for one in found if one.right]
    accepted = {one.point for one in met if not one.rejects}
    for one in met:
        if one.rejects and one.point in accepted:
            says = f'the model answer is accepted and rejected for "{one.point}".'
            yield one.pattern.line, says, "Ask for more in the reject line.", "error"


def things_spoken_of(spec: PartSpec, samples: Sequence[Sample]) -> Things:
    """What a part and its right samples speak of."""
    own = [spec.ask, spec.model_answer, *(point.says for point in spec.points)]
    right = [one.answer for one in samples if one.points and any(one.points.values())]
    return things_of(own, right)


def _thingless(lines: Sequence[LineEvidence], things: Things) -> Iterator[Told]:
    """Lines of one word that is not one of the part's nouns: they do not say what does it."""
    bare = [
        one
        for one in lines
        if not one.rejects
        and len(one.pattern.concepts) == 1
        and one.pattern.concepts[0].isalpha()
        and one.pattern.concepts[0] not in things.heads
    ]
    yield from _told(bare, "no thing is named, by which it is or does this, in", "Add the thing.")


def _twins_paid(spec: PartSpec, samples: Sequence[Sample], part_at: PartAt) -> Iterator[Told]:
    """The lines that still award a correct sample after its nouns or a direction were exchanged."""
    right = [one for one in samples if one.points and any(one.points.values())]
    things = things_spoken_of(spec, samples)
    paid: dict[int, list[str]] = {}
    for sample in right:
        part = part_at(sample.seed)
        if part is None:
            continue
        for twin in twins(sample.answer, things):
            for line in _lines_paying(part, sample, twin):
                paid.setdefault(line, []).append(twin.answer)
    for line, answers in sorted(paid.items()):
        says = f'{len(answers)} samples turned round still earn, as: "{answers[0][:90]}".'
        yield line, says, "Write who does what in order, or reject lines.", "note"


def _lines_paying(part: Part, sample: Sample, twin: Twin) -> Iterator[int]:
    """The line of each point that the sample deserves and the twin earns by exchanged words."""
    deserved = {point for point, given in (sample.points or {}).items() if given}
    earned = {one.id for one in mark(part, twin.answer).points if one.marks and not one.unsure}
    if not deserved & earned:
        return
    found = evidence_of([Sample(0, part.id, twin.answer, 0, dict.fromkeys(earned, 1), None)],
                        lambda _: part)  # fmt: skip
    for point in sorted(deserved & earned):
        lines = [one for one in found if one.point == point and one.right and not one.rejects]
        if lines and all(one.words & twin.turned for one in lines):
            yield lines[0].pattern.line


def _lines(lines: Sequence[LineEvidence]) -> Iterator[Told]:
    accepts = [one for one in lines if not one.rejects]
    unmet = [one for one in lines if one.rejects and not one.right and not one.wrong]
    yield from _told(unmet, "no sample meets", "Add samples that these reject lines stop.")
    unused = [one for one in accepts if not one.right]
    yield from _told(unused, "no right sample matches", "Add such samples, or drop the lines.")
    once = [one for one in accepts if len(one.right) == 1 and one.alone]
    yield from _told(once, "a single right sample, learned by heart, needs", "Make them wider.")
    crossing = [one for one in accepts if one.crossing is not None]
    yield from _told(crossing, "a sentence ends within a match of", "Look at its window.")
    either = [one for one in accepts if one.pattern.polarity == "any" and one.right]
    stated = [one for one in either if not one.denied]
    yield from _told(stated, "no right sample needs polarity any in", "Leave it out there.")
    for one in accepts:
        words = ", ".join(one.pattern.concepts)[:60]
        if len(one.wrong) > len(one.right):
            says = f"{words}: matches more wrong samples than right ones"
            yield (
                one.pattern.line,
                f'{says}: "{one.wrong[0].answer[:60]}".',
                "Ask for more.",
                "note",
            )
        if proposed := orders_seen(one):
            says = f"right samples do not have these ideas in every order: {words}."
            yield one.pattern.line, says, f"Write {proposed}.", "note"


def _told(lines: Sequence[LineEvidence], says: str, hint: str) -> Iterator[Told]:
    """One note for all lines of a part that have the same fault."""
    at = sorted({one.pattern.line for one in lines})
    if at:
        named = f"line{'s' if len(at) > 1 else ''} {', '.join(map(str, at))}"
        yield at[0], f"{says} {named}.", hint, "note"


def orders_seen(line: LineEvidence) -> str:
    """The `orders` key to write, from the orders in the samples; "" if none is needed."""
    pattern = line.pattern
    wanted = sum(not one.startswith("not ") for one in pattern.concepts)
    settled = pattern.ordered or pattern.orders or wanted < 2
    if settled or len(line.right) < _SEVERAL or len(line.orders) == math.factorial(wanted):
        return ""
    if line.orders == {tuple(range(1, wanted + 1))}:
        return "ordered = true"
    return f"orders = [{', '.join(_as_text(one) for one in sorted(line.orders))}]"


def _as_text(order: tuple[int, ...]) -> str:
    return '"' + "-".join(map(str, order)) + '"'
