"""Problems are shown sorted by place, counted, and say what to do."""

from __future__ import annotations

from drill.errors import Problem, problems_as_text


def test_problems_are_sorted_and_counted() -> None:
    problems = [
        Problem("b.toml", 7, 1, 'marks must be a whole number, got "two".', "Write marks = 2."),
        Problem("a.toml", 0, 0, "the file is empty."),
    ]
    assert problems_as_text(problems, 41) == (
        "a.toml: the file is empty.\n"
        'b.toml:7: marks must be a whole number, got "two". Write marks = 2.\n'
        "2 problems in 2 files (41 files checked)"
    )


def test_no_problems() -> None:
    assert problems_as_text([], 1) == "no problems (1 file checked)"
