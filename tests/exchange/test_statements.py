"""The statements follow the Experience API specification 1.0.3 (ADL, "xAPI-Data.md").

Verbs: ADL vocabulary, http://xapi.vocab.pub/datasets/adl/ (read there: all those below).
"""

from __future__ import annotations

from datetime import datetime
from typing import Any
from uuid import UUID

import pytest

from drill.exchange.durations import duration, milliseconds_of
from drill.store import Store
from tests.exchange.making import parsed, practised
from tests.store.making import NOW, asked, later, mark, typed

ADL_VERBS = {
    "answered",
    "attempted",
    "commented",
    "experienced",
    "initialized",
    "interacted",
    "preferred",
    "registered",
    "scored",
    "terminated",
}


SEEDS = 8


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """Statements of several histories."""
    with Store.open(tmp_path_factory.mktemp("told") / "drill.sqlite") as store:
        return [
            statement
            for seed in range(SEEDS)
            for statement in parsed(store, practised(store, f"K{seed}", seed))
        ]


def nulls(value: object) -> bool:
    """Whether null stands anywhere but in an extension."""
    if isinstance(value, dict):
        return any(name != "extensions" and nulls(inner) for name, inner in value.items())
    return any(map(nulls, value)) if isinstance(value, list) else value is None


def test_every_statement_has_what_the_specification_demands(told: list[dict[str, Any]]) -> None:
    for statement in told:
        UUID(statement["id"])
        assert statement["version"] == "1.0.3"
        assert datetime.fromisoformat(statement["timestamp"]).utcoffset() is not None
        assert statement["object"]["objectType"] in ("Activity", "StatementRef")
        assert not nulls(statement)
    assert len({statement["id"] for statement in told}) == len(told)


def test_verbs_are_those_of_the_adl_vocabulary_and_all_are_used(
    told: list[dict[str, Any]],
) -> None:
    used = {statement["verb"]["id"] for statement in told}
    assert used == {f"http://adlnet.gov/expapi/verbs/{verb}" for verb in ADL_VERBS}


def test_a_learner_is_an_account_with_a_code_and_nothing_else(told: list[dict[str, Any]]) -> None:
    accounts = [{"homePage": "https://drill.invalid", "name": f"K{seed}"} for seed in range(SEEDS)]
    for statement in told:
        assert statement["actor"].keys() == {"objectType", "account"}
        assert statement["actor"]["account"] in accounts


def test_scores_lie_in_their_range(told: list[dict[str, Any]]) -> None:
    scores = [one["result"]["score"] for one in told if "score" in one.get("result", {})]
    assert scores
    for score in scores:
        assert score["min"] <= score["raw"] <= score["max"]
        assert score["min"] < score["max"]
        assert score["scaled"] == pytest.approx(score["raw"] / score["max"], abs=1e-4)


def test_references_point_at_statements_of_the_same_file(told: list[dict[str, Any]]) -> None:
    ids = {statement["id"] for statement in told}
    about = [one["object"]["id"] for one in told if one["object"]["objectType"] == "StatementRef"]
    context = [one["context"]["statement"]["id"] for one in told if "statement" in one["context"]]
    assert about
    assert context
    assert ids.issuperset([*about, *context])


def test_activities_are_named_by_iris_without_spaces(told: list[dict[str, Any]]) -> None:
    for statement in told:
        if statement["object"]["objectType"] == "Activity":
            id = statement["object"]["id"]
            assert id.startswith("https://drill.invalid")
            assert id.isascii()
            assert not set(id) & set(' "<>{}|\\^`\n')


def test_an_answer_as_another_program_reads_it(here: Store) -> None:
    answer = typed(here, asked(here, seed=7), "0.0250 mol", part="b")
    here.verdict(answer, "engine", "3+ab", mark(1, 2), later(13))
    (told,) = [
        one
        for one in parsed(here, here.learners()[0])
        if one["verb"]["display"]["en"] == "answered"
    ]
    assert told["result"] == {
        "score": {"scaled": 0.5, "raw": 1, "min": 0, "max": 2},
        "success": False,
        "response": "0.0250 mol",
        "duration": "PT12S",
    }
    assert told["object"]["id"].endswith("/questions/salts/percentage-yield/" + "5f" * 16 + "/7/b")
    assert datetime.fromisoformat(told["timestamp"]) == later(12)


def test_a_template_comes_along_once_with_its_first_question(here: Store) -> None:
    who = practised(here, "K7", 1, sittings=6)
    brought = [
        one["object"]["definition"]["name"]["en"]
        for one in parsed(here, who)
        if "extensions" in one["object"].get("definition", {})
    ]
    assert sorted(brought) == sorted({row.template for row in here.askings(who)})


@pytest.mark.parametrize(
    ("milliseconds", "text"),
    [(0, "PT0S"), (5, "PT0.005S"), (12_346, "PT12.346S"), (60_000, "PT60S"), (1_500, "PT1.5S")],
)
def test_a_duration_is_written_in_seconds_and_read_back(milliseconds: int, text: str) -> None:
    assert duration(milliseconds) == text
    assert milliseconds_of(text) == milliseconds


@pytest.mark.parametrize(
    ("text", "milliseconds"),
    [("PT1M2.5S", 62_500), ("PT1H", 3_600_000), ("PT", None), ("", None), ("P1D", None),
     ("PT-1S", None), ("PT1e9S", None), ("PT" + "9" * 50 + "S", None), ("PT٣S", None)],
)  # fmt: skip
def test_durations_of_others(text: str, milliseconds: int | None) -> None:
    assert milliseconds_of(text) == milliseconds


def test_nothing_done_is_one_statement(here: Store) -> None:
    who = here.new_learner("K7", NOW)
    assert [one["verb"]["display"]["en"] for one in parsed(here, who)] == ["registered"]
