"""A topic deck: what is taught, to whom, and when it is examined."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date
from fnmatch import fnmatchcase
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

from drill.bank.files.author_files import Opened, parse_toml, read_text
from drill.bank.files.faults import Faults, nearest, nearest_or_all
from drill.bank.files.toml_lines import KeyPath as Where
from drill.bank.files.validation import checked
from drill.bank.reading.template_reader import newer_format
from drill.bank.reference.reference_files import ID
from drill.bank.schema.deck_schema import BENCH, DECK, OWN, PAPER, TOPIC
from drill.bank.schema.fields import is_number, seen, unprintable
from drill.errors import Problem
from drill.model import Deck, Paper, Topic
from drill.plaintext import one_line
from drill.typed.dates import date_of

if TYPE_CHECKING:
    from drill.bank.entry import Entry
    from drill.bank.index import Bank


_BARE_DAY = re.compile(
    r"""^(\s*(?:exam|taught)\s*=\s*)(\d[^"'#\n]*[-/. ][^"'#\n]*?)([ \t]*(?:#.*)?)$""", re.MULTILINE
)
_TOML_DAY = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)


def read_deck(path: Path, bank: Bank | None = None) -> Deck | tuple[Problem, ...]:
    """The deck of a file; with a bank, its practicals and skills are looked up there too."""
    text = read_text(path)
    opened = text if isinstance(text, Problem) else parse_toml(_with_days(text), str(path))
    if isinstance(opened, Problem):
        return (opened,)
    if newer := newer_format(opened):
        return (newer,)
    deck = _Reader(opened, path).read()
    if bank is not None and isinstance(deck, Deck):
        Against(opened.faults, deck, bank).check()
    return opened.faults.problems() or deck


def deck_source(path: Path) -> str:
    """A deck's text with quotes put round dates that TOML cannot read; "" if there is no file."""
    text = read_text(path)
    return "" if isinstance(text, Problem) else _with_days(text)


def deck_notes(deck: Deck, today: date) -> list[Problem]:
    """Warnings about a usable deck: an exam already past, a topic taught after its exam."""
    exams = {paper.id: paper.exam for paper in deck.papers}
    found = [
        (0, f"the exam of {paper.id} was on {paper.exam}: it is over.")
        for paper in deck.papers
        if paper.exam and paper.exam < today.isoformat()
    ]
    found += [
        (topic.line, f"taught on {topic.taught}, after its exam on {exams[topic.paper]}.")
        for topic in deck.topics
        if topic.taught and exams.get(topic.paper) and topic.taught >= exams[topic.paper]
    ]
    hint = "Look at the dates."
    return [Problem(deck.path, line, 0, says, hint, "note") for line, says in found]


def _with_days(text: str) -> str:
    """The text with quotes round each date that TOML itself cannot read, as 25/01/2027."""
    return _BARE_DAY.sub(
        lambda m: m[0] if _TOML_DAY.fullmatch(m[2]) else f'{m[1]}"{m[2]}"{m[3]}', text
    )


class _Reader:
    def __init__(self, opened: Opened, path: Path) -> None:
        self.raw, self.path, self.faults = opened.raw, path, opened.faults

    def read(self) -> Deck:
        clean = checked(self.raw, DECK, (), self.faults)
        if clean["id"] is not None and not ID.fullmatch(clean["id"]):
            hint = "Use small letters and digits, with - between words."
            self.faults.add(("id",), f'"{one_line(clean["id"], 40)}" cannot be an id.', hint)
        papers = self._papers(clean["paper"])
        bench, names = self._bench(clean["bench"] or {})
        course = clean["course"] or ()
        courses = (course,) if isinstance(course, str) else tuple(dict.fromkeys(course))
        return Deck(
            id=clean["id"] or self.path.stem,
            path=str(self.path),
            title=clean["title"] or "",
            course=courses[0] if len(courses) == 1 else "",
            courses=courses,
            minutes_a_day=clean["minutes_a_day"],
            papers=papers,
            topics=self._topics(clean["topic"] or [], papers),
            bench=bench,
            names=names,
            own=self._own(clean["own"]),
        )

    def _papers(self, raw: list[Mapping[str, Any]]) -> tuple[Paper, ...]:
        papers: list[Paper] = []
        for index, one in enumerate(raw):
            where: Where = ("paper", index)
            clean = checked(one, PAPER, where, self.faults, "", "a paper")
            id_ = clean["id"] or ""
            if id_ in [paper.id for paper in papers]:
                self.faults.add((*where, "id"), f'two papers have the id "{one_line(id_, 40)}".')
            papers.append(Paper(id_, self._date(clean["exam"], (*where, "exam"))))
        return tuple(papers)

    def _date(self, value: Any, where: Where) -> str:
        """A date as ISO text, however people write it."""
        if value is None:
            return ""
        found = date_of(value if isinstance(value, str) else value.isoformat())
        if isinstance(found, str):
            self.faults.add(where, f"{where[-1]} = {seen(value)}: {found}")
            return ""
        return found.isoformat()

    def _topics(self, raw: list[Mapping[str, Any]], papers: tuple[Paper, ...]) -> tuple[Topic, ...]:
        return tuple(self._topic(one, ("topic", i), papers) for i, one in enumerate(raw))

    def _topic(self, raw: Mapping[str, Any], where: Where, papers: tuple[Paper, ...]) -> Topic:
        clean = checked(raw, TOPIC, where, self.faults, "", "a topic")
        if not clean["practical"] and not clean["skills"]:
            hint = 'Write practical = "salts", or skills = ["calc.*"].'
            self.faults.add(where, "the topic names neither a practical nor skills.", hint)
        known = [paper.id for paper in papers]
        if clean["paper"] and clean["paper"] not in known:
            message = f'there is no paper "{one_line(clean["paper"], 40)}".'
            hint = nearest_or_all(clean["paper"], known) or "Add a [[paper]] with that id."
            self.faults.add((*where, "paper"), message, hint)
        weight = Fraction(clean["weight"])
        if not 0 < weight <= 100:
            message = f"weight must be above 0 and at most 100, got {seen(clean['weight'])}."
            self.faults.add((*where, "weight"), message)
        return Topic(
            practical=clean["practical"],
            skills=tuple(clean["skills"]),
            without=tuple(clean["without"]),
            paper=clean["paper"] or (known[0] if known else ""),
            taught=self._date(clean["taught"], (*where, "taught")),
            weight=weight,
            line=self.faults.lines.of(where),
        )

    def _bench(self, raw: Mapping[str, Any]) -> tuple[dict[str, str], dict[str, str]]:
        """The school's equipment, and its own names for things."""
        clean = checked(raw, BENCH, ("bench",), self.faults, "", "[bench]")
        names: dict[str, str] = {}
        for name, value in (clean.pop("names") or {}).items():
            words = value if isinstance(value, str) else ""
            if 0 < len(words.strip()) <= 80 and name.strip() and not unprintable(name + words):
                names[name] = value
            else:
                message = f'the name for "{one_line(name, 40)}" must be a few words in quotes.'
                self.faults.add(("bench", "names", name), message, f"It is {seen(value)}.")
        bench = {key: f"{value:f}" if is_number(value) else str(value)
                 for key, value in clean.items() if value is not None}  # fmt: skip
        return bench, names

    def _own(self, raw: Mapping[str, Any] | None) -> str:
        """The folder of the deck's own questions, as written; it lies beside the deck."""
        if raw is None:
            return ""
        clean = checked(raw, OWN, ("own",), self.faults, "", "[own]")
        folder = clean["templates"] or ""
        where: Where = ("own", "templates")
        if folder and "\0" in folder:
            self.faults.add(where, "the folder's name cannot be used.")
        elif folder and not (self.path.parent / folder).is_dir():
            message = f'there is no folder "{one_line(folder, 60)}" beside the deck.'
            self.faults.add(where, message)
        return folder


def practical_hint(wrong: str, titles: Mapping[str, str]) -> str:
    """The nearest practical by id or title, then all of them: `{id: title}`."""
    by_title = (f'Did you mean "{id_}"?' for id_, one in titles.items() if nearest(wrong, [one]))
    near = nearest(wrong, titles) or next(by_title, "")
    listed = ", ".join(f"{id_} ({title})" if title else id_ for id_, title in titles.items())
    return f"{near} There are: {listed}.".strip()


class Against:
    """Checks a deck against a bank: practicals and skills exist, and there are questions to ask."""

    def __init__(self, faults: Faults, deck: Deck, bank: Bank) -> None:
        self.faults, self.deck = faults, deck
        self.entries = [entry for entry in bank.entries() if entry.ok and not entry.retired]
        self.practicals = {id_: one.title for id_, one in bank.practicals().items()}
        for entry in self.entries:  # a school's own folder need not be on the bank's list
            self.practicals.setdefault(entry.practical, "")

    def check(self) -> None:
        """Add what does not fit to the faults."""
        for index, topic in enumerate(self.deck.topics):
            before = self._errors()
            self._check_names(topic, ("topic", index))
            named = topic.practical or topic.skills
            if named and self.deck.courses and self._errors() == before:
                self._check_some(topic, ("topic", index))
        if not self._errors():
            self._check_each_course()

    def _errors(self) -> int:
        return sum(one.level == "error" for one in self.faults.found)

    def _check_names(self, topic: Topic, where: Where) -> None:
        if topic.practical and topic.practical not in self.practicals:
            message = f'there is no practical "{one_line(topic.practical, 40)}".'
            hint = practical_hint(topic.practical, self.practicals)
            self.faults.add((*where, "practical"), message, hint)
        skills = {entry.skills[0] for entry in self.entries}
        for index, pattern in enumerate(topic.skills):
            if not any(fnmatchcase(skill, pattern) for skill in skills):
                message = f'no question practises "{one_line(pattern, 40)}".'
                self.faults.add((*where, "skills", index), message, nearest(pattern, skills))
        ids = [entry.id for entry in self.entries]
        for index, pattern in enumerate(topic.without):
            if not any(fnmatchcase(id_, pattern) for id_ in ids):
                message = f'without names no question: "{one_line(pattern, 40)}".'
                near = nearest(pattern, ids)
                self.faults.add((*where, "without", index), message, near, level="note")

    def _check_some(self, topic: Topic, where: Where) -> None:
        """Checks that each topic has a question: for some course an error, for each a note."""
        has = courses_of_topic(topic, self.entries)
        lacks = [course for course in self.deck.courses if course not in has]
        if not lacks or (len(lacks) < len(self.deck.courses) and not topic.practical):
            return
        named = f'"{one_line(topic.practical, 40)}"' if topic.practical else "the topic"
        message = f"{named} has no question for {' or '.join(lacks)}."
        if len(lacks) < len(self.deck.courses):
            self.faults.add(where, message, "These pupils are not asked it.", level="note")
        else:
            self.faults.add(where, message, "Take it out, or look at course and without.")

    def _check_each_course(self) -> None:
        """Checks that each course in a mixed class has at least one question."""
        asked = {
            course for topic in self.deck.topics for course in courses_of_topic(topic, self.entries)
        }
        for course in self.deck.courses:
            if course not in asked:
                hint = "Add a topic for it, or take the course out."
                self.faults.add(("course",), f"the deck asks no question for {course}.", hint)


def courses_of_topic(topic: Topic, entries: Iterable[Entry]) -> set[str]:
    """The courses that a topic has a question for."""
    found: set[str] = set()
    for entry in entries:
        if topic_has(topic, entry):
            found.update(entry.course)
    return found


def topic_has(topic: Topic, entry: Entry) -> bool:
    """Whether a question belongs to a topic: by its practical or its first skill, not left out."""
    ours = topic.practical == entry.practical if topic.practical else False
    wanted = ours or any(fnmatchcase(entry.skills[0], pattern) for pattern in topic.skills)
    return wanted and not any(fnmatchcase(entry.id, pattern) for pattern in topic.without)
