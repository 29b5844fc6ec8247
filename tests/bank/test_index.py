"""The bank opened: what its index says, when it is believed, and how fast."""

from __future__ import annotations

import json
import os
import shutil
import time
import tomllib
from pathlib import Path

import pytest

from drill.bank import ENGINE, Bank, Entry, new_template, read_passed, write_passed
from drill.bank.reading.template_reader import template_of
from drill.model import Template
from tests.common.kinds import ALL_KINDS


def opened(bank: Path, **more: object) -> Bank:
    return Bank.open(bank, cache=bank.parent / "index.json", **more)  # type: ignore[arg-type]


def ids(bank: Bank) -> list[str]:
    return [entry.id for entry in bank.entries()]


class Reads:
    """Counts the questions that are read."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.ids: list[str] = []
        monkeypatch.setattr("drill.bank.index.template_of", self._read)

    def _read(self, text: str, path: Path, id_: str, sources: object) -> object:
        self.ids.append(id_)
        return template_of(text, path, id_, sources)  # type: ignore[arg-type]


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> Reads:
    return Reads(monkeypatch)


def touch(path: Path) -> None:
    """Change the time only, by a whole second, as any editor does."""
    status = path.stat()
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns + 10**9))


def test_an_entry_tells_what_a_listing_needs(bank: Path) -> None:
    assert opened(bank).entry("salts/percentage-yield") == Entry(
        id="salts/percentage-yield",
        path=str(bank / "salts" / "percentage-yield.toml"),
        title="Mass of crystals by difference, then percentage yield",
        skills=("calc.percentage-yield", "calc.mass-by-difference"),
        part_skills=("calc.mass-by-difference", "calc.percentage-yield"),
        practical="salts",
        kinds=("number", "number"),
        marks=3,
        skill_marks={"calc.percentage-yield": 2, "calc.mass-by-difference": 1},
        seconds=150,
        course=("separate higher",),
        has_draws=True,
        command_word="calculate",
        ok=True,
    )


def test_an_index_read_back_is_the_index_made(bank: Path) -> None:
    first = opened(bank).entries()
    assert opened(bank).entries() == first
    assert Bank.open(bank).entries() == first


def test_a_second_opening_reads_no_question(bank: Path, reads: Reads) -> None:
    opened(bank)
    assert len(reads.ids) == 5
    reads.ids.clear()
    opened(bank)
    assert reads.ids == []


def test_only_a_changed_question_is_read_again(bank: Path, reads: Reads) -> None:
    opened(bank)
    reads.ids.clear()
    touch(bank / "salts" / "why-excess.toml")
    opened(bank)
    assert reads.ids == ["salts/why-excess"]


def test_sample_answers_are_looked_at_again_when_they_change(bank: Path) -> None:
    assert opened(bank).entry("salts.why-excess").unproven  # type: ignore[union-attr]
    path = bank / "salts" / "why-excess.answers.jsonl"
    path.write_text('{"part": "a", "answer": "acid"}\n' * 35, encoding="utf-8")
    assert not opened(bank).entry("salts.why-excess").unproven  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "name",
    ["facts/salts.csv", "lexicon.toml", "slips.toml", "skills.toml", "practicals.toml"],
)
def test_a_change_in_what_questions_lean_on_reads_all_again(
    bank: Path, name: str, reads: Reads
) -> None:
    opened(bank)
    reads.ids.clear()
    touch(bank / name)
    opened(bank)
    assert len(reads.ids) == 5


def test_a_new_table_and_a_lost_one_are_changes_too(bank: Path, reads: Reads) -> None:
    opened(bank)
    reads.ids.clear()
    table = bank / "facts" / "more.csv"
    table.write_text("id,source\n", encoding="utf-8")
    opened(bank)
    table.unlink()
    opened(bank)
    assert len(reads.ids) == 10


@pytest.mark.parametrize(
    "damage",
    [
        lambda text: "",
        lambda text: "not JSON",
        lambda text: text[:-5],
        lambda text: text.replace("why-excess", "why-excuse"),
        lambda text: text.replace(f'"engine":{ENGINE}', f'"engine":{ENGINE + 1}'),
        lambda text: text.replace('"drill":"', '"drill":"9.'),
        lambda text: "[" * 100_000,
        lambda text: "[]\n[]",
        lambda text: "\ud800",
    ],
)
def test_a_damaged_or_foreign_index_is_made_anew(bank: Path, damage: object) -> None:
    first = opened(bank).entries()
    cache = bank.parent / "index.json"
    text = cache.read_text(encoding="utf-8")
    damaged = damage(text)  # type: ignore[operator]
    assert damaged != text
    cache.write_text(damaged, encoding="utf-8", errors="surrogatepass")
    assert opened(bank).entries() == first
    assert json.loads(cache.read_text(encoding="utf-8").splitlines()[0])["engine"] == ENGINE


def test_the_index_of_another_bank_is_not_believed(bank: Path) -> None:
    other = Path(shutil.copytree(bank, bank.parent / "elsewhere" / "bank"))
    opened(bank)
    path = other / "salts" / "why-excess.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("Why the", "How a"), encoding="utf-8")
    shutil.copystat(bank / "salts" / "why-excess.toml", path)
    entry = Bank.open(other, cache=bank.parent / "index.json").entry("salts/why-excess")
    assert entry is not None
    assert entry.title == "How a base is in excess"


def test_an_index_that_cannot_be_kept_is_no_fault(bank: Path) -> None:
    assert Bank.open(bank, cache=bank / "no" / "such" / "folder" / "index.json").entries()
    assert Bank.open(bank, cache=bank).entries()
    assert not list(bank.glob(".*"))


def test_a_question_with_problems_is_listed_and_looked_at_again(bank: Path) -> None:
    path = bank / "salts" / "why-excess.toml"
    right = path.read_text(encoding="utf-8")
    path.write_text(right.replace("max = 1", "max = 9"), encoding="utf-8")
    broken = opened(bank)
    assert broken.entry("salts/why-excess") == Entry("salts/why-excess", str(path))
    assert [str(problem) for problem in broken.problems()] == [
        f"{path}:11: max is 9, but the points add up to 2. Write max = 2, or add a point."
    ]
    found = broken.template("salts/why-excess")
    assert isinstance(found, tuple)
    path.write_text(right, encoding="utf-8")
    assert opened(bank).entry("salts/why-excess").ok  # type: ignore[union-attr]


def test_ids_with_slash_or_dot_and_ids_of_before(bank: Path) -> None:
    shelf = opened(bank)
    for name in ("salts/why-excess", "salts.why-excess", "salts/excess", "salts.excess-base"):
        entry = shelf.entry(name)
        assert entry is not None
        assert entry.id == "salts/why-excess"
        template = shelf.template(name)
        assert isinstance(template, Template)
        assert template.id == "salts/why-excess"
    assert shelf.entry("salts/none") is None
    assert [str(one) for one in shelf.template("salts/none")] == [  # type: ignore[union-attr]
        f'{bank}: there is no template "salts/none".'
    ]


def test_a_decks_own_questions_never_shadow_shipped_ones(bank: Path, reads: Reads) -> None:
    own = bank.parent / "ours"
    shutil.copytree(bank / "salts", own / "salts")
    with_own = opened(bank, own=(("autumn", own),))
    assert len(ids(with_own)) == len(set(ids(with_own))) == 9
    entry = with_own.entry("own/autumn/salts/why-excess")
    assert entry is not None
    assert entry.practical == "salts"
    template = with_own.template(entry.id)
    assert isinstance(template, Template)
    assert template.id == entry.id
    assert not with_own.passed(template)
    reads.ids.clear()
    assert len(ids(opened(bank))) == 5
    assert len(ids(opened(bank, own=(("autumn", own),)))) == 9
    assert reads.ids == []


def test_an_id_of_before_cannot_be_another_questions(bank: Path) -> None:
    path = bank / "salts" / "why-excess.toml"
    text = path.read_text(encoding="utf-8").replace("salts/excess", "salts/every-draw")
    path.write_text(text, encoding="utf-8")
    assert [str(problem) for problem in opened(bank).problems()] == [
        f'{path}: was names "salts/every-draw", which is a question of its own.'
    ]
    assert opened(bank).entry("salts/every-draw").title == "Every kind of draw"  # type: ignore[union-attr]


def test_a_bank_without_a_folder_is_empty(tmp_path: Path) -> None:
    empty = Bank.open(tmp_path / "nowhere")
    assert empty.entries() == ()
    assert [problem.message for problem in empty.problems()] == ["the bank has no such file."] * 3


def test_what_has_passed_is_a_version_not_a_name(bank: Path) -> None:
    template = opened(bank).template("salts/why-excess")
    assert isinstance(template, Template)
    assert not opened(bank).passed(template)
    write_passed(bank, {template.id: template.version, "measure/x": "0" * 32})
    assert opened(bank).passed(template)
    assert (bank / "passed.csv").read_text(encoding="utf-8") == (
        f"template,version\nmeasure/x,{'0' * 32}\nsalts/why-excess,{template.version}\n"
    )
    path = bank / "salts" / "why-excess.toml"
    path.write_text(path.read_text(encoding="utf-8") + "# a note\n", encoding="utf-8")
    changed = opened(bank).template("salts/why-excess")
    assert isinstance(changed, Template)
    assert not opened(bank).passed(changed)


def test_a_spoilt_list_of_what_has_passed_passes_nothing(bank: Path) -> None:
    assert read_passed(bank) == {}
    (bank / "passed.csv").write_bytes(b"\xff\x00")
    assert read_passed(bank) == {}
    (bank / "passed.csv").write_text('template,version\na\n"b,c\n', encoding="utf-8")
    assert read_passed(bank) == {}


def test_the_lexicons_hash_follows_its_text_not_its_line_ends(bank: Path) -> None:
    before = opened(bank).lexicon_hash()
    path = bank / "lexicon.toml"
    path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert opened(bank).lexicon_hash() == before
    path.write_text(path.read_text(encoding="utf-8") + "# more\n", encoding="utf-8")
    assert opened(bank).lexicon_hash() != before


def big_bank(bank: Path) -> None:
    for index in range(8):
        for kind in ALL_KINDS:
            path = bank / "measure" / f"{kind}-{index}.toml"
            path.write_text(new_template(kind), encoding="utf-8")
    (bank / "skills.toml").unlink()


def milliseconds(work: object, times: int = 7) -> float:
    """The least, as other work on the machine only adds; the limits leave room besides."""
    took = []
    for _ in range(times):
        start = time.process_time()
        work()  # type: ignore[operator]
        took.append((time.process_time() - start) * 1000)
    return min(took)


def test_opening_eighty_questions_with_a_warm_index_is_quick(bank: Path, reads: Reads) -> None:
    big_bank(bank)
    assert len(opened(bank).entries()) == 85
    reads.ids.clear()
    assert milliseconds(lambda: opened(bank)) < 10
    assert reads.ids == []


def test_reading_one_question_costs_little_more_than_its_toml(bank: Path) -> None:
    """As a ratio, both measured in this run: a slow machine is slow for both."""
    big_bank(bank)
    shelf = opened(bank)
    for name in (*(f"measure/{kind}-0" for kind in ALL_KINDS), "salts/percentage-yield"):
        text = (bank / f"{name}.toml").read_text(encoding="utf-8")
        toml = milliseconds(lambda text=text: tomllib.loads(text))
        assert milliseconds(lambda name=name: shelf.template(name)) < 15 * toml, name
