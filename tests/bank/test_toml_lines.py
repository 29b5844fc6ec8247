"""The key finder: every path it gives exists, and the line it gives holds the key."""

from __future__ import annotations

import contextlib
import time
import tomllib
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drill.bank.files.toml_lines import BadToml, KeyPath, Lines, Unusable, lines_of, read_toml

SAMPLE = '''\
# a comment with [brackets] = and "quotes"
title = "a [b] # no comment"   # one
"odd key" = 'x'
a.b . "c.d" = 1

[part]
text = """
[not] a header
fake = 1
"""
list = [
    1, # one
    "two, [2]",

    { x = 1, y = [2, 3] },
]

[[part.point]]
id = 1
[part.point.deep]
id = 2
[[part.point]]
id = { a = 1, b = "}" }
last = true'''


def test_a_document_with_everything() -> None:
    assert lines_of(SAMPLE).at == {
        ("title",): 2,
        ("odd key",): 3,
        ("a",): 4,
        ("a", "b"): 4,
        ("a", "b", "c.d"): 4,
        ("part",): 6,
        ("part", "text"): 7,
        ("part", "list"): 11,
        ("part", "list", 0): 12,
        ("part", "list", 1): 13,
        ("part", "list", 2): 15,
        ("part", "point"): 18,
        ("part", "point", 0): 18,
        ("part", "point", 0, "id"): 19,
        ("part", "point", 0, "deep"): 20,
        ("part", "point", 0, "deep", "id"): 21,
        ("part", "point", 1): 22,
        ("part", "point", 1, "id"): 23,
        ("part", "point", 1, "last"): 24,
    }


def test_a_key_without_a_line_has_that_of_its_holder() -> None:
    lines = Lines({("part",): 3, ("part", 0): 4})
    assert lines.of(("part", 0, "option", 2, "says")) == 4
    assert lines.of(("part", 7)) == 3
    assert lines.of(("elsewhere",)) == 1


def test_line_endings_and_a_byte_order_mark_change_nothing() -> None:
    assert lines_of(SAMPLE.replace("\n", "\r\n")).at == lines_of(SAMPLE).at
    assert read_toml("\ufeff" + SAMPLE)[0] == read_toml(SAMPLE)[0]


def test_numbers_stay_as_written() -> None:
    raw, _ = read_toml("a = 1.20\nb = 1e999999999\nc = inf\nd = 3")
    assert str(raw["a"]) == "1.20"
    assert raw["b"] == Unusable("1e999999999")
    assert raw["c"] == Unusable("inf")
    assert raw["d"] == 3


# ------------------------------------------------------------ random documents

BARE = st.text("abcXYZ019_-", min_size=1, max_size=5)
ODD = st.text(st.sampled_from("ab .\"'#[]={}\\é\t"), max_size=5)
NAME = st.one_of(BARE, ODD)
TEXT = st.text(st.sampled_from("ab \"'#[]={},\\\né"), max_size=12)
SCALAR = st.one_of(
    TEXT, st.integers(-99, 99), st.booleans(), st.decimals("-9", "9", places=2).map(Decimal)
)
VALUE = st.recursive(
    SCALAR,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(BARE, inner, max_size=3)),
    max_leaves=5,
)
TABLE = st.dictionaries(NAME, VALUE, max_size=4)
TREE = st.recursive(
    st.builds(lambda values: {"values": values}, TABLE),
    lambda inner: st.builds(
        lambda values, tables, lists: {"values": values, "tables": tables, "lists": lists},
        TABLE,
        st.dictionaries(NAME, inner, max_size=2),
        st.dictionaries(NAME, st.lists(inner, min_size=1, max_size=2), max_size=2),
    ),
    max_leaves=5,
)


class Writer:
    """Writes a tree as TOML in styles drawn at random, and notes where each key really went."""

    def __init__(self, draw: st.DataObject, ending: str) -> None:
        self.draw, self.ending = draw, ending
        self.rows: list[str] = []
        self.truth: dict[KeyPath, int] = {}

    def choice(self, *ways: Any) -> Any:
        return self.draw.draw(st.sampled_from(ways))

    def text(self) -> str:
        return self.ending.join(self.rows)

    def key(self, name: str) -> str:
        bare = name and all(sign.isascii() and (sign.isalnum() or sign in "_-") for sign in name)
        ways = [self.basic(name)]
        if bare:
            ways.append(name)
        if "'" not in name:
            ways.append(f"'{name}'")
        return str(self.choice(*ways))

    def basic(self, text: str) -> str:
        out = text.replace("\\", "\\\\").replace('"', '\\"')
        return '"' + out.replace("\n", "\\n").replace("\t", "\\t") + '"'

    def string(self, text: str, inline: bool) -> str:
        ways = [self.basic(text)]
        if "'" not in text and "\n" not in text:
            ways.append(f"'{text}'")
        if not inline:
            escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", self.ending)
            ways.append(f'"""{self.ending}{escaped}"""')
            if "'" not in text:
                body = text.replace("\n", self.ending)
                ways.append(f"'''{self.ending}{body}'''")
        return str(self.choice(*ways))

    def value(self, value: Any, inline: bool = False) -> str:
        if isinstance(value, str):
            return self.string(value, inline)
        if isinstance(value, bool):
            return "true" if value else "false"
        if isinstance(value, list):
            inner = [self.value(one, inline) for one in value]
            if inline or not inner or not self.choice(True, False):
                return "[" + ", ".join(inner) + "]"
            gap = self.choice(self.ending, f" # ] no end{self.ending}", f"{self.ending}  ")
            return f"[{gap}" + f",{gap}".join(inner) + self.choice("", ",") + f"{gap}]"
        if isinstance(value, dict):
            pairs = [f"{self.key(k)} = {self.value(v, True)}" for k, v in value.items()]
            return "{ " + ", ".join(pairs) + " }" if pairs else "{}"
        return str(value)

    def line(self, row: str) -> int:
        """The number of the line the row starts on."""
        number = sum(one.count("\n") + 1 for one in self.rows) + 1
        self.rows.append(row)
        return number

    def tree(self, tree: dict[str, Any], header: str, path: KeyPath) -> None:
        taken: set[str] = set()
        for name, value in tree["values"].items():
            taken.add(name)
            if self.choice(True, False):
                self.line(self.choice("", "# [no] = header", "   "))
            comment = self.choice("", "  # one = two [", "\t")
            row = self.choice("", "  ") + f"{self.key(name)}{self.choice(' = ', '=')}"
            self.truth[(*path, name)] = self.line(row + self.value(value) + comment)
        for name, inner in tree.get("tables", {}).items():
            if name not in taken:
                taken.add(name)
                below = f"{header}.{self.key(name)}" if header else self.key(name)
                self.truth[(*path, name)] = self.line(f"[{below}]")
                self.tree(inner, below, (*path, name))
        for name, entries in tree.get("lists", {}).items():
            if name not in taken:
                taken.add(name)
                below = f"{header} . {self.key(name)}" if header else self.key(name)
                for index, inner in enumerate(entries):
                    line = self.line(f"[[ {below} ]]" + self.choice("", " # more"))
                    self.truth.setdefault((*path, name), line)
                    self.truth[(*path, name, index)] = line
                    self.tree(inner, below, (*path, name, index))


def reached(raw: Any, path: KeyPath) -> bool:
    """Whether the path exists in what tomllib read."""
    for step in path:
        try:
            raw = raw[step]
        except (KeyError, IndexError, TypeError):
            return False
    return True


@settings(max_examples=60, deadline=None)
@given(st.data(), TREE, st.sampled_from(["\n", "\r\n"]))
def test_every_key_is_found_on_its_line(
    data: st.DataObject, tree: dict[str, Any], ending: str
) -> None:
    writer = Writer(data, ending)
    writer.tree(tree, "", ())
    text = writer.text()
    raw = tomllib.loads(text, parse_float=Decimal)
    at = lines_of(text).at
    assert all(reached(raw, path) for path in at), text
    assert {path: at.get(path) for path in writer.truth} == writer.truth, text


@settings(max_examples=100, deadline=None)
@given(st.text(st.sampled_from("ab=.[]{}\"'#,\\\n 1"), max_size=60))
def test_no_text_stops_it(text: str) -> None:
    with contextlib.suppress(BadToml):
        read_toml(text)


@pytest.mark.parametrize(
    "text",
    [
        "a" + ".a" * 100_000 + " = 1",
        "[" + "a." * 100_000 + "a]",
        "x = {" + "a." * 100_000 + "a = 1}",
        "x = {" + '"a".' * 70_000 + "a = 1}",
        "x = " + "[" * 170_000,
        "x = [" + "1," * 100_000,
        'x = """' + "\\" * 170_001,
        'x = "' + "\\" * 170_001,
        "x = '''" + "'" * 170_000,
        "x = " + "9" * 170_000,
        "x = 0." + "9" * 170_000,
        "[[a]]\n" * 35_000,
        "\n" * 300_000,
        "#" * 300_000,
        "".join(f"k{i} = 1\n" for i in range(20_000)),
    ],
    ids=lambda text: text[:8].strip() or "blank",
)
def test_much_nonsense_takes_no_time(text: str) -> None:
    start = time.process_time()
    with contextlib.suppress(BadToml):
        read_toml(text)
    assert time.process_time() - start < 0.7


def test_what_nests_too_deeply_is_refused_at_its_line() -> None:
    for text in ("a" + ".a" * 12 + " = 1", "x = " + "[" * 13 + "]" * 13):
        with pytest.raises(BadToml, match="nest deeper than 12") as caught:
            read_toml("ok = 1\n" + text)
        assert caught.value.line == 2
