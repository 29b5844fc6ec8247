"""Comparing: paired people, honest intervals, the same whatever the number of processes.

Slow: pytest tests/bench/test_comparison.py
"""

from __future__ import annotations

import json
from statistics import fmean
from typing import Any

import pytest

from drill.errors import DrillError
from tests.bench import compare as bench
from tests.lab import Row, Simulated, as_rows, bound, compare, run
from tests.lab.comparison import interval
from tests.lab.scenarios import SCENARIOS

POLICIES = ["nothing", "equal spacing", "ours"]


def rows(**changes: Any) -> list[Row]:
    wanted: dict[str, Any] = {
        "scenarios": ["one-week"],
        "learners": ["delta", "half-life"],
        "policies": POLICIES,
        "seeds": range(3),
        "jobs": 1,
    }
    return compare(**(wanted | changes))


def test_rows_are_means_over_the_same_people() -> None:
    found = {(row.learner, row.policy): row for row in rows()}
    seeds = range(3)
    each = [run("equal spacing", "delta", "one-week", seed).exam_share for seed in seeds]
    ours = [run("ours", "delta", "one-week", seed).exam_share for seed in seeds]
    row = found["delta", "equal spacing"]
    assert row.share == pytest.approx(fmean(each))
    assert row.ours_more == pytest.approx(fmean(ours) - fmean(each))
    assert row.minutes > 30.0
    both = [found[family, "equal spacing"].share for family in ("delta", "half-life")]
    assert found["all", "equal spacing"].share == pytest.approx(fmean(both))
    assert found["all", "nothing"].way == 0.0


def test_processes_change_nothing() -> None:
    assert rows(jobs=2) == rows()


def test_the_bound_has_a_row_where_there_is_one() -> None:
    found = rows(policies=[*POLICIES, "bound"], seeds=[5])
    row = next(row for row in found if row.policy == "bound")
    assert row.learner == "delta"
    assert row.share == bound(Simulated("delta", 5), SCENARIOS["one-week"], 5).share
    assert row.of_bound == 1.0
    assert {row.learner for row in found if row.of_bound is not None} == {"delta"}


def test_progress_counts_people() -> None:
    heard: list[tuple[int, int]] = []
    rows(progress=lambda done, of: heard.append((done, of)))
    assert heard == [(done, 6) for done in range(1, 7)]


def test_intervals_are_student_s() -> None:
    # by hand: mean 2, standard deviation 1, t(2) = 4.30
    assert interval([1.0, 2.0, 3.0]) == (2.0, pytest.approx(4.30 / 3**0.5))
    assert interval([0.5]) == (0.5, 0.0)
    assert interval([0.0, 1.0] * 50)[1] == pytest.approx(1.984 * 0.5025 / 10, rel=0.01)


def test_unknown_names_are_refused() -> None:
    with pytest.raises(DrillError, match='no policy "best"'):
        rows(policies=["best"])
    with pytest.raises(DrillError, match='no simulated learner "owl"'):
        rows(learners=["owl"])


def test_rows_are_plain_values() -> None:
    for row in as_rows(rows()):
        assert json.loads(json.dumps(row)) == row


def test_the_bench_gives_rows_as_json(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    arguments = ["--scenario", "one-week", "--learner", "delta", "--seeds", "2", "--jobs", "1"]
    monkeypatch.setattr("sys.argv", ["compare", *arguments, "--no-references", "--json"])
    bench.main()
    told = json.loads(capsys.readouterr().out)
    assert {row["policy"] for row in told} >= {"ours", "random", "greedy"}
    assert all(0.0 <= row["share"] <= 1.0 for row in told)
