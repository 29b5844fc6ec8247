"""Export here, import there: everything a learner has done is rebuilt, each thing once."""

from __future__ import annotations

from pathlib import Path

import pytest

from drill.errors import DrillError
from drill.store import MemoryRow, NewAsking, Record, Store
from tests.exchange.making import (
    KEPT,
    TEMPLATES,
    VERSIONS,
    accept_all,
    carried,
    exported,
    history,
    practised,
)
from tests.store.making import NOW, later, mark


def without_acceptances(records: list[Record]) -> list[Record]:
    return [one for one in records if one.table != "acceptance"]


@pytest.mark.parametrize("seed", range(8))
def test_everything_is_rebuilt_the_same(here: Store, there: Store, seed: int) -> None:
    there.new_learner("Z1", NOW)  # other keys there than here
    who = practised(here, "K7", seed)
    merged = carried(exported(here, who), there)
    assert (merged.known, merged.faults, merged.renamed) == (0, (), ())
    assert there.learners()[1:] == (who,)
    assert accept_all(there, who) == merged.offered
    assert there.askings(who) == here.askings(who)
    assert there.open_sittings(who) == []
    assert there.setting(who, "exam") == "2027-05-18"
    assert without_acceptances(history(there, who)) == history(here, who)
    for template, text in KEPT.items():
        if there.used_seeds(who, template):
            assert there.template_text(VERSIONS[template]) == text


def test_exporting_again_there_gives_the_same_lines(here: Store, there: Store) -> None:
    who = practised(here, "K7", 3)
    lines = exported(here, who)
    carried(lines, there)
    assert exported(there, who) == lines


def test_every_line_goes_in_once_however_often_it_comes(here: Store, there: Store) -> None:
    lines = exported(here, practised(here, "K7", 1))
    first = carried(lines, there)
    counts = there.counts()
    again = carried([*lines, *lines], there)
    assert (again.added, again.known) == (0, 2 * first.added)
    assert there.counts() == counts


def test_lines_may_come_in_any_order(here: Store, there: Store) -> None:
    who = practised(here, "K7", 2)
    assert carried(reversed(exported(here, who)), there).faults == ()
    assert {row.id for row in there.askings(who)} == {row.id for row in here.askings(who)}


def test_two_computers_that_go_on_apart_meet_again(here: Store, there: Store) -> None:
    who = practised(here, "K7", 4)
    carried(exported(here, who), there)
    for store, seed in ((here, 11), (there, 12)):
        begun = store.start_sitting(who, "deck-0", later(50_000 + seed), {})
        new = NewAsking(begun, who, VERSIONS[TEMPLATES[0]], TEMPLATES[0], seed, "s", False)
        store.ask(new, later(50_000 + seed))
    carried(exported(there, who), here)
    carried(exported(here, who), there)
    accept_all(there, who)
    assert here.askings(who) == there.askings(who)
    assert {11, 12} <= here.used_seeds(who, TEMPLATES[0])


def test_a_settlement_made_elsewhere_comes_home_and_memory_is_rebuilt(
    here: Store, there: Store
) -> None:
    who = practised(here, "K7", 5)
    answer = here.askings(who)[0].answers[0]
    carried(exported(here, who), there)
    there.verdict(answer.id, "teacher", "", mark(0, 2), later(90_000))
    here.save_memory(who, MemoryRow("w", here.seen(), "{}"))
    before = here.askings(who)[0].answers[0].mark
    merged = carried(exported(there, who), here)
    assert (merged.added, merged.offered) == (1, 1)
    assert here.askings(who)[0].answers[0].mark == before
    assert accept_all(here, who) == 1
    assert here.askings(who)[0].answers[0].mark == mark(0, 2)
    assert here.load_memory(who) is None


def test_an_older_setting_from_elsewhere_does_not_undo_a_newer_one(
    here: Store, there: Store
) -> None:
    who = practised(here, "K7", 6)
    carried(exported(here, who), there)
    here.set_setting(who, "exam", "2027-05-01", later(5))
    there.set_setting(who, "exam", "2027-06-01", later(5))
    carried(exported(here, who), there)
    assert there.setting(who, "exam") == "2027-06-01"
    carried(exported(there, who), here)
    assert here.setting(who, "exam") == "2027-06-01"


def test_a_rename_travels(here: Store, there: Store) -> None:
    who = practised(here, "K7", 7)
    carried(exported(here, who), there)
    renamed = here.rename_learner("K7", "Q9", later(9))
    carried(exported(here, renamed), there)
    assert [one.code for one in there.learners()] == ["Q9"]


@pytest.mark.parametrize(("code", "given"), [("K7", "K7-2"), ("TWELVE-CHARS", "TWELVE-CHA-2")])
def test_a_code_somebody_else_has_is_changed_and_said(
    here: Store, there: Store, code: str, given: str
) -> None:
    other = there.new_learner(code.lower(), NOW)
    who = practised(here, code, 8)
    merged = carried(exported(here, who), there)
    assert merged.renamed == ((code, given),)
    assert there.learners() == (other, type(who)(who.id, given, who.when))


def test_somebody_with_two_computers_can_bring_it_all_to_one_name(
    here: Store, there: Store
) -> None:
    away, home = practised(here, "K7", 9), practised(there, "K7", 10)
    before = len(there.askings(home))
    merged = carried(exported(here, away), there, into=home)
    assert merged.faults == ()
    assert there.learners() == (home,)
    assert len(there.askings(home)) == before + len(here.askings(away))
    again = carried(exported(here, away), there, into=home)
    assert again.added == 0


def test_settings_that_name_a_folder_stay_at_home(here: Store, there: Store) -> None:
    who = practised(here, "K7", 1)
    here.set_setting(who, "deck", "/home/somebody/decks/autumn.toml", NOW)
    here.set_setting(who, "other", "C:\\Users\\somebody", NOW)
    lines = exported(here, who)
    assert "somebody" not in "".join(lines)
    carried(lines, there)
    assert there.setting(who, "deck") is None


def test_only_the_learner_asked_for_is_exported(here: Store, there: Store) -> None:
    one, two = practised(here, "K7", 1), practised(here, "Q9", 2)
    here.set_setting(None, "last learner", "Q9", NOW)
    text = "".join(exported(here, one))
    assert "Q9" not in text
    carried(exported(here, two), there)
    assert there.learners() == (two,)


def test_erased_means_gone_from_an_export_too(here: Store) -> None:
    who = practised(here, "K7", 1)
    here.erase(who)
    with pytest.raises(KeyError):
        exported(here, who)


def test_a_file_opened_as_bytes_is_read_line_by_line(
    here: Store, there: Store, tmp_path: Path
) -> None:
    who = practised(here, "K7", 3)
    path = tmp_path / "k7.jsonl"
    path.write_text("\n\n".join(exported(here, who)) + "\n")
    with path.open("rb") as file:
        assert carried(file, there).faults == ()
    assert history(there, who) == history(here, who)


def test_a_full_disk_leaves_nothing_half_imported(here: Store, there: Store) -> None:
    lines = exported(here, practised(here, "K7", 1, sittings=60))
    pages = there._db.rows("PRAGMA page_count")[0][0]
    there._db.rows(f"PRAGMA max_page_count = {pages + 2}")
    with pytest.raises(DrillError, match="the disk is full"):
        carried(lines, there)
    assert not any(rows for table, rows in there.counts().items() if table != "machine")
