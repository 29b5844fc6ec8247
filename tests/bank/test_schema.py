"""Each key's example in the docs is read by the very reader that the key describes."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import tomlkit

from drill.bank import read_deck, read_template, schema_as_markdown
from drill.bank.reference.reference_files import (
    read_lexicon,
    read_practicals,
    read_skills,
    read_slips,
)
from drill.bank.schema.deck_schema import BENCH, DECK, OWN, PAPER, TOPIC
from drill.bank.schema.fields import TYPES, Field
from drill.bank.schema.part_schema import LEVEL, OPTION, PATTERN, POINT, SLIP
from drill.bank.schema.schema_docs import QUESTION, SHELVES
from drill.bank.schema.template_schema import DRAW, DRAW_TOLD_BY, TEMPLATE, WORK
from drill.model import Deck, Template
from tests.common.kinds import ALL_FIELDS, ALL_KINDS

Raw = dict[str, Any]


def example(key: Field) -> Raw:
    """The example as values; one headed [[part.slip]] is the list it makes in its part."""
    raw = tomllib.loads(key.example)
    if key.name not in raw:
        raw = raw["part"][0] if isinstance(raw["part"], list) else raw["part"]
    return {key.name: raw[key.name]}


def least(keys: tuple[Field, ...], kind: str = "") -> Raw:
    """The examples of all that a table needs."""
    needed = (key for key in keys if key.required and key.belongs_to(kind))
    return {name: value for key in needed for name, value in example(key).items()}


def part(kind: str, **more: Any) -> Raw:
    return {**least(ALL_FIELDS, kind), "kind": kind, **more}


def question(**more: Any) -> Raw:
    return {**least(TEMPLATE), **more}


def ids(case: Any) -> str:
    return case.name if isinstance(case, Field) else str(case)


def by_kind(keys: tuple[Field, ...], kinds: tuple[str, ...]) -> list[tuple[Field, str]]:
    return [(key, kind) for key in keys for kind in kinds if key.belongs_to(kind)]


@pytest.fixture
def loads(bank: Path) -> Any:
    """Whether a question reads, in a bank without lists of skills and practicals."""
    (bank / "skills.toml").unlink()
    (bank / "practicals.toml").unlink()

    def reading(raw: Mapping[str, Any]) -> None:
        path = bank / "salts" / "example.toml"
        path.write_text(tomlkit.dumps(raw), encoding="utf-8")
        template = read_template(path, bank)
        assert isinstance(template, Template), template

    return reading


# a scale needs a draw beside it: test_scale.py reads its examples
@pytest.mark.parametrize("key", [key for key in TEMPLATE if key.name != "scale"], ids=ids)
def test_question(key: Field, loads: Any) -> None:
    loads(question(**example(key)))


@pytest.mark.parametrize(("key", "kind"), by_kind(DRAW, tuple(DRAW_TOLD_BY.values())), ids=ids)
def test_draw(key: Field, kind: str, loads: Any) -> None:
    loads(question(draw={"it": {**least(DRAW, kind), **example(key)}}))


@pytest.mark.parametrize("key", WORK, ids=ids)
def test_step(key: Field, loads: Any) -> None:
    loads(question(work={"it": {**least(WORK), **example(key)}}))


# a value read off needs a graph: test_graph.py reads its example
@pytest.mark.parametrize(
    ("key", "kind"),
    by_kind(tuple(k for k in ALL_FIELDS if k.name != "read_off"), ALL_KINDS),
    ids=ids,
)
def test_part(key: Field, kind: str, loads: Any) -> None:
    value = {} if key.name == "kind" else example(key)
    loads(question(part=[part(kind, **value)]))


@pytest.mark.parametrize("key", SLIP, ids=ids)
def test_slip(key: Field, loads: Any) -> None:
    slip = {**least(SLIP), "says": "What to do.", **example(key)}
    loads(question(part=[part("number", slip=[slip])]))
    loads(question(part=[part("table", cells={"mean": {"answer": 2, "slip": [slip]}})]))


@pytest.mark.parametrize("key", OPTION, ids=ids)
def test_option(key: Field, loads: Any) -> None:
    right = {"text": "the right one", "right": True}
    option = {**least(OPTION), "says": "Why not.", **example(key)}
    loads(question(part=[part("choice", option=[right, option])]))


@pytest.mark.parametrize("key", POINT, ids=ids)
def test_point(key: Field, loads: Any) -> None:
    other = {**least(POINT), "id": "other"}
    kind = key.kinds[0] if key.kinds else "written"
    points = [other, {**least(POINT), **example(key)}]
    levels = [{"marks": 6, "says": "It works."}, {"marks": 3, "says": "It does not."}]
    more = {"level": levels} if kind == "levels" else {}
    if kind == "written":
        more["max"] = 1  # with a condition the file must tell
    loads(question(part=[part(kind, point=points, **more)]))


@pytest.mark.parametrize("key", PATTERN, ids=ids)
def test_pattern(key: Field, loads: Any) -> None:
    point = {**least(POINT), "accept": [{**least(PATTERN), **example(key)}]}
    loads(question(part=[part("written", point=[point])]))


@pytest.mark.parametrize("key", LEVEL, ids=ids)
def test_level(key: Field, loads: Any) -> None:
    levels = [{**least(LEVEL), **example(key)}, {"marks": 1, "says": "Little is right."}]
    loads(question(part=[part("levels", level=levels)]))


@pytest.mark.parametrize(
    ("key", "table"),
    [(key, table) for table, keys in
     {"": DECK, "paper": PAPER, "topic": TOPIC, "bench": BENCH, "own": OWN}.items()
     for key in keys],
    ids=ids,
)  # fmt: skip
def test_deck(key: Field, table: str, tmp_path: Path) -> None:
    raw = {**least(DECK), "paper": [least(PAPER)]}
    if table in ("paper", "topic"):
        raw[table] = [{"practical": "salts", **least(PAPER), **example(key)}]
        if table == "paper":
            del raw[table][0]["practical"]
        else:
            del raw[table][0]["id"], raw[table][0]["exam"]
    else:
        raw = {**raw, **({table: example(key)} if table else example(key))}
    path = tmp_path / "deck.toml"
    path.write_text(tomlkit.dumps(raw), encoding="utf-8")
    deck = read_deck(path)
    assert isinstance(deck, Deck), deck


@pytest.mark.parametrize(
    ("heading", "reader"),
    list(zip(SHELVES, (read_skills, read_practicals, read_lexicon, read_slips), strict=True)),
)
def test_shelf(heading: str, reader: Any, tmp_path: Path) -> None:
    keys = SHELVES[heading]
    whole = {name: value for key in keys for name, value in example(key).items()}
    if "needs" in whole:
        whole["needs"] = []  # the skill it names is not there
    path = tmp_path / "shelf.toml"
    path.write_text(tomlkit.dumps({"an-id": whole}), encoding="utf-8")
    values, problems = reader(path)
    assert problems == ()
    assert list(values) == ["an-id"]


def test_every_key_is_in_the_docs() -> None:
    text = schema_as_markdown()
    for keys in (*QUESTION.values(), *SHELVES.values(), DECK, PAPER, TOPIC, BENCH, OWN):
        for key in keys:
            assert f"`{key.name}`" in text
            assert key.says.split(".")[0].replace("|", "\\|") in text


def test_a_row_of_the_docs() -> None:
    rows = schema_as_markdown().splitlines()
    assert (
        "| `keep_order` | true or false | Whether the options stay in this order. Only choice. "
        "Left out: false. | `keep_order = true` |" in rows
    )
    assert (
        "| **`title`** | text in quotes | What the question is about, as a student sees it. | "
        '`title = "Mass of crystals by difference"` |' in rows
    )


def test_every_type_is_used() -> None:
    used = {key.holds for keys in (*QUESTION.values(), *SHELVES.values(), DECK, PAPER, TOPIC,
                                   BENCH, OWN) for key in keys}  # fmt: skip
    assert used == set(TYPES)
