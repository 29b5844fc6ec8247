"""Questions that are read off a drawing: what is written down counts, a zero at the end as well."""

from __future__ import annotations

import json

import pytest

from tests.common.desk import drill


def _marks(template: str, seed: int, *answers: str) -> list[int]:
    lines = [json.dumps({"template": template, "seed": seed, "answers": {"a": a}}) for a in answers]
    out = drill("mark", "--json", typed=lines).stdout
    return [json.loads(line)["marks"] for line in out.splitlines()]


def _answer(template: str, seed: int) -> str:
    row = json.loads(drill("ask", template, "--seed", str(seed), "--json").stdout)
    return str(row["parts"][0]["model_answer"]).split()[0]


def test_a_balance_is_copied_with_the_zero_at_its_end() -> None:
    value = _answer("measure/read-balance", 0)
    assert value.endswith("0")
    found = _marks("measure/read-balance", 0, value, value[:-1], value + "0", value[:-3])
    assert found == [2, 1, 1, 0]


@pytest.mark.parametrize("seed", range(6))
def test_a_25_cm3_cylinder_is_read_to_a_quarter_of_a_cm3(seed: int) -> None:
    value = float(_answer("measure/read-25-cylinder", seed))
    assert value % 0.25 == 0
    found = _marks("measure/read-25-cylinder", seed, *(f"{value + by}" for by in (0, 0.25, -0.5)))
    assert found == [1, 0, 0]
