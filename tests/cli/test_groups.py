"""What is said to a word that is no command."""

from __future__ import annotations

import pytest

from tests.common.desk import drill


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("appeals setle", "Did you mean 'settle'?"),
        ("class colect", "Did you mean 'collect'?"),
        ("apeals", "Did you mean 'appeals'?"),
        ("appeals ease", "There are: settle, accept."),
        ("data merge", "There are: export, backup"),
        ("data earse", "There are: export, backup"),
        ("gather", "There are: sit, answers"),
    ],
)
def test_only_what_is_close_is_suggested_and_nothing_that_removes(typed: str, says: str) -> None:
    result = drill(*typed.split())
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())
    assert "'erase'" not in result.output
