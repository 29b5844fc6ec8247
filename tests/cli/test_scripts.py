"""`drill ask` and `drill mark`: the JSON contract for scripts."""

from __future__ import annotations

import json
from typing import Any

from tests.common.desk import drill


def asked(template: str, seed: int = 7) -> dict[str, Any]:
    result = drill("ask", template, "--seed", str(seed), "--json")
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


def marked(*lines: object) -> tuple[list[dict[str, Any]], int]:
    text = "\n".join(line if isinstance(line, str) else json.dumps(line) for line in lines)
    result = drill("mark", "--json", typed=text + "\n")
    return [json.loads(line) for line in result.output.splitlines()], result.exit_code


def test_a_question_has_all_that_the_contract_names() -> None:
    question = asked("salts/percentage-yield")
    assert question["template"] == "salts/percentage-yield"
    assert question["seed"] == 7
    assert [part["id"] for part in question["parts"]] == ["a", "b"]
    part = question["parts"][0]
    assert part["kind"] == "number"
    assert part["unit"] == "g"
    assert part["options"] is None
    assert part["points"] == [{"id": "value", "says": part["points"][0]["says"], "marks": 1}]
    assert {"id", "value", "earns", "says"} == set(part["slips"][0])


def test_the_dotted_id_and_the_same_seed_give_the_same_question() -> None:
    assert asked("salts.percentage-yield") == asked("salts/percentage-yield")
    assert asked("salts/percentage-yield", 8) != asked("salts/percentage-yield")


def test_model_answers_earn_all_marks() -> None:
    question = asked("salts/percentage-yield")
    answers = {part["id"]: part["model_answer"] for part in question["parts"]}
    (row,), code = marked({"template": question["template"], "seed": 7, "answers": answers})
    assert (row["marks"], code) == (row["of"], 0)


def test_a_wrong_mass_is_carried_forward_into_the_yield() -> None:
    question = asked("salts/percentage-yield")
    slip = next(s for s in question["parts"][0]["slips"] if s["id"] == "container-not-subtracted")
    (row,), _ = marked(
        {"template": question["template"], "seed": 7, "answers": {"a": slip["value"]}}
    )
    assert row["parts"]["a"]["slip"] == "container-not-subtracted"
    assert row["parts"]["a"]["marks"] == 0
    assert row["parts"]["b"] == {**row["parts"]["b"], "marks": 0, "readable": True}


def test_a_bad_line_is_named_and_the_rest_goes_on() -> None:
    good = {"template": "salts.why-filter", "answers": {"a": "x"}}
    rows, code = marked("not json", good, {"template": "salts/no-such"}, {**good, "seed": -1})
    assert [row.get("line") for row in rows] == [1, None, 3, 4]
    assert 'no template "salts/no-such"' in rows[2]["error"]
    assert rows[1]["template"] == "salts/why-filter"
    assert code == 1


def test_a_part_left_out_counts_as_empty() -> None:
    (row,), _ = marked({"template": "salts/percentage-yield", "seed": 3})
    assert set(row["parts"]) == {"a", "b"}
    assert row["marks"] == 0


def test_an_unknown_template_names_the_nearest() -> None:
    result = drill("ask", "salts/percentage-yeild")
    assert result.exit_code == 1
    assert 'Did you mean "salts/percentage-yield"?' in str(result.exception)
