"""Many schools: the same sums as a class report's, the same on one worker and two."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

pytest.importorskip("dask", reason="the extra trust is not installed")
pytest.importorskip("pyarrow", reason="the extra trust is not installed")

from drill.app.classes import trust
from drill.app.classes.class_collect import collect
from drill.app.classes.class_room import class_named
from drill.app.classes.class_sums import ClassSums
from drill.exchange.hand_in import packed
from tests.common.classes import SKILLS, class_of
from tests.common.desk import drill


@pytest.fixture
def schools(tmp_path: Path) -> Path:
    """Three schools, one of them with two terms that overlap."""
    folder = tmp_path / "trust"
    for number, (school, term) in enumerate(
        [("north", "2026-autumn"), ("south", "2027-spring"), ("east", "2027-spring")]
    ):
        handed = tmp_path / school
        handed.mkdir()
        for one in class_of(14, number, SKILLS[number], 24):
            (handed / f"{one.code}.handin").write_bytes(packed(one))
        collect(handed, "", "")
        result = drill("class", "share", str(folder), "--school", school, "--term", term)
        assert result.exit_code == 0, result.output
    again = ("class", "share", str(folder), "--school", "north", "--term", "2027-spring")
    assert drill(*again, "--class", "north").exit_code == 0
    return folder


def test_one_worker_and_two_give_the_same_numbers_to_the_last_digit(schools: Path) -> None:
    names = ["school=east", "school=north", "school=south"]
    one, two = (trust.add_up(schools, names, workers) for workers in (1, 2))
    assert one == two
    assert one.answers == 3 * 14 * 24


def test_the_sums_are_those_of_the_class_reports(schools: Path) -> None:
    whole = ClassSums()
    for name in ("east", "north", "south"):
        for pupil in class_named(name).pupils():
            whole.add(pupil.sums)
    found = trust.add_up(schools, ["school=east", "school=north", "school=south"])
    assert found.skills == whole.skills
    assert (found.pupils, found.answers, found.marks) == (42, whole.answers, whole.marks)
    for name, sums in whole.items.items():
        assert vars(found.items[name]) == pytest.approx(vars(sums))


def test_a_trust_is_shown_and_holds_nothing_typed(schools: Path) -> None:
    said = " ".join(drill("class", "trust", str(schools)).output.split())
    assert said.startswith("3 schools, 42 pupils, 1008 answers")
    found = json.loads(drill("class", "trust", str(schools), "--workers", "2", "--json").output)
    assert found["skills"][0]["pupils"] == 42
    names = set(trust._schema(trust._arrow()[0]).names)
    assert not {"text", "name", "code"} & names


def test_names_that_are_no_folder_are_refused(schools: Path, tmp_path: Path) -> None:
    result = drill("class", "share", str(schools), "--school", "../up", "--term", "x")
    assert result.exit_code == 1
    assert not (tmp_path / "up").exists()
    nothing = drill("class", "trust", str(tmp_path / "nothing"))
    assert "no school is there" in str(nothing.exception)


def test_a_cluster_gives_the_same_numbers(schools: Path) -> None:
    from distributed import LocalCluster

    names = ["school=east", "school=north", "school=south"]
    with LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None,
                      host="127.0.0.1") as cluster:  # fmt: skip
        found = trust.add_up(schools, names, cluster=cluster.scheduler_address)
    assert found == trust.add_up(schools, names)
