"""An author's marking points and patterns become `PointSpec`s with their concepts looked up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any

from drill.bank.files.faults import Faults, nearest
from drill.bank.files.toml_lines import KeyPath
from drill.bank.files.validation import checked
from drill.bank.reading.name_checks import NameScope
from drill.bank.reference.reference_files import ID
from drill.bank.reference.sources import Sources
from drill.bank.schema.fields import seen
from drill.bank.schema.part_schema import PATTERN, POINT
from drill.model import Pattern, PointSpec
from drill.plaintext import nearest as nearest_word
from drill.plaintext import one_line

MOST_WORDS = 300  # characters of one concept or phrase


class PointReader:
    """Reads marking points; `concepts` collects the lexicon's sets that their patterns use."""

    def __init__(self, names: NameScope, sources: Sources, path: Path) -> None:
        self.names, self._sources, self._path = names, sources, path
        self.faults: Faults = names.faults
        self.concepts: dict[str, tuple[str, ...]] = {}

    @cached_property
    def lexicon(self) -> Mapping[str, tuple[str, ...]]:
        """The lexicon, read only for a question with marking points, since the file is long."""
        sets, problems = self._sources.lexicon_for(self._path)
        self.faults.found.extend(problems)
        return sets

    def points(
        self, raw: list[Mapping[str, Any]], where: KeyPath, kind: str
    ) -> tuple[PointSpec, ...]:
        """The points of a part; checks that ids are unique and references name other points."""
        points = tuple(self._point(one, (*where, index), kind) for index, one in enumerate(raw))
        check_ids([point.id for point in points], where, "point", self.faults)
        ids = {point.id for point in points}
        for index, point in enumerate(points):
            others = ids - {point.id}
            named = [("needs", need) for need in point.needs]
            for key, id_ in [*named, ("after", point.after or None)]:
                if id_ is not None and id_ not in others:
                    message = f'{key} names no other point "{one_line(id_, 40)}".'
                    self.faults.add((*where, index, key), message, nearest(id_, others))
        self._check_circles(points, where)
        return points

    def _check_circles(self, points: Sequence[PointSpec], where: KeyPath) -> None:
        """No step comes after itself by way of others."""
        before = {point.id: point.after for point in points}
        for index, point in enumerate(points):
            seen_ids = [point.id]
            while (earlier := before.get(seen_ids[-1], "")) and earlier not in seen_ids:
                seen_ids.append(earlier)
            if earlier == point.id and len(seen_ids) > 1:
                message = f"after goes in a circle: {' after '.join([*seen_ids, point.id])}."
                self.faults.add((*where, index, "after"), message, "Take one of them out.")

    def _point(self, raw: Mapping[str, Any], where: KeyPath, kind: str) -> PointSpec:
        clean = checked(raw, POINT, where, self.faults, kind, f"a point of a {kind} part")
        return PointSpec(
            id=clean["id"] or "",
            says=self.names.text(clean["says"] or "", (*where, "says")),
            accept=self._patterns(clean["accept"], (*where, "accept")),
            reject=self._patterns(clean["reject"], (*where, "reject")),
            ignore=self._patterns(clean["ignore"], (*where, "ignore")),
            marks=clean["marks"],
            needs=tuple(clean["needs"]),
            line=self.faults.lines.of(where),
            cap=clean.get("cap"),
            after=clean.get("after") or "",
            when=self.names.formula(clean["when"], (*where, "when")),
        )

    def _patterns(self, raw: Any, where: KeyPath) -> tuple[Pattern, ...]:
        found = [self._pattern(one, (*where, index)) for index, one in enumerate(raw or ())]
        return tuple(pattern for pattern in found if pattern is not None)

    def _pattern(self, raw: Any, where: KeyPath) -> Pattern | None:
        """A word, a list of words, or a table with `all` and how they must stand."""
        if isinstance(raw, str):
            raw = [raw]
        if isinstance(raw, list):
            raw = {"all": raw}
        if not isinstance(raw, dict):
            hint = 'Write for example: ["acid", "used up"]'
            self.faults.add(where, f"a pattern must be words, got {seen(raw)}.", hint)
            return None
        before = len(self.faults.found)
        clean = checked(raw, PATTERN, where, self.faults, "", "a pattern")
        if len(self.faults.found) > before:
            return None
        return Pattern(
            concepts=tuple(self._concept(word, where) for word in clean["all"]),
            window=clean["window"],
            ordered=clean["ordered"],
            polarity=clean["polarity"],
            orders=self._orders(clean, where),
            line=self.faults.lines.of(where),
        )

    def _orders(self, clean: Mapping[str, Any], where: KeyPath) -> tuple[tuple[int, ...], ...]:
        """Checks that each order names every required idea exactly once."""
        wanted = sum(not word.startswith("not ") for word in clean["all"])
        orders: list[tuple[int, ...]] = []
        for text in clean["orders"]:
            order = tuple(int(one) for one in text.split("-") if one.isdecimal() and len(one) < 3)
            if sorted(order) != list(range(1, wanted + 1)) or text.count("-") != wanted - 1:
                message = f"an order of {wanted} cannot be {seen(text)}."
                example = "-".join(str(place + 1) for place in range(wanted))
                self.faults.add((*where, "orders"), message, f'Write for example: "{example}"')
            orders.append(order)
        if orders and clean["ordered"]:
            message = "ordered and orders both say how they stand."
            self.faults.add((*where, "orders"), message, "Keep one of them.")
        return tuple(orders)

    def _concept(self, word: str, where: KeyPath) -> str:
        """A lexicon name stands for its set of phrases; anything else is a phrase itself."""
        bare = word.removeprefix("not ").strip()
        words = self.lexicon.get(bare)
        if words is not None:
            self.concepts[bare] = words
        elif "-" in bare and ID.fullmatch(bare) and self.lexicon:
            self._check_spelling(bare, where)
        if len(word) > MOST_WORDS:
            message = f"a phrase has {len(word)} characters, at most {MOST_WORDS} are read."
            self.faults.add(where, message)
        return self.names.text(word, where)

    def _check_spelling(self, word: str, where: KeyPath) -> None:
        """Reports a hyphenated word that is close to a concept's name as a likely misspelling."""
        if near := nearest_word(word, self.lexicon, 0.85):
            hint = f'Did you mean "{near}"?'
            self.faults.add(where, f'lexicon.toml has no concept "{word}".', hint)


def check_ids(ids: list[str], where: KeyPath, what: str, faults: Faults) -> None:
    """Every id can be one, and no two are the same."""
    for index, id_ in enumerate(ids):
        if id_ and not ID.fullmatch(id_):
            hint = "Use small letters and digits, with - between words."
            faults.add((*where, index, "id"), f'"{one_line(id_, 40)}" cannot be an id.', hint)
        elif id_ and id_ in ids[:index]:
            faults.add((*where, index, "id"), f'two of the {what}s have the id "{id_}".')
