"""A later start reaches its first question without anything heavy."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.common.desk import drill

pytestmark = pytest.mark.usefixtures("indexed")
_HEAVY = (
    "sympy", "numpy", "sqlite_utils", "tomlkit", "rapidfuzz", "pint", "hypothesis", "plotille",
    "drawsvg", "snowballstemmer", "wordnet_lookup", "icalendar", "typst", "dask", "pyarrow",
    "pydantic", "typer.rich_utils", "rich.table", "rich.traceback", "asyncio", "email",
    "importlib.metadata", "importlib.resources", "logging", "socket", "http", "statistics",
    "multiprocessing", "concurrent.futures", "tempfile", "platformdirs",
    "drill.marking", "drill.checking", "drill.judge", "drill.documents", "drill.exchange",
    "drill.drawings", "drill.bank.authoring", "drill.app.papers", "drill.app.classes",
    "drill.app.weakness", "drill.cli.paper_sitting", "drill.cli.sitting_summary",
)  # fmt: skip
"""What nothing before the first prompt needs; typer loads pydantic for values that need it."""

_ASK_ONE = f"""
import io, sys
sys.stdin = io.StringIO("")
sys.argv = ["drill", "sit"]
from drill.cli import run
try:
    run()
except SystemExit:
    pass
sys.stderr.write(" ".join(name for name in {_HEAVY!r} if name in sys.modules))
"""


def test_a_later_start_loads_nothing_heavy() -> None:
    drill("sit", "--learner", "ada", typed=["stop"])
    result = subprocess.run(
        [sys.executable, "-c", _ASK_ONE], capture_output=True, text=True, check=False
    )
    assert "question 1" in result.stdout, result.stderr
    assert result.stderr == ""


_MARKED = ("salts/why-excess", "salts/whole-method", "salts/choose-acid-and-base",
           "measure/mass-by-difference", "water/fault-in-drawing")  # fmt: skip
_LOAD_MARKER = f"""
import sys, time
from drill.cli.meanwhile import load_marker
assert not any(name.startswith("drill.marking") for name in sys.modules)
load_marker().join()
before = set(sys.modules)
from drill.app.ask import question_of
from drill.app.context import open_bank
from drill.marking import mark
for template in {_MARKED!r}:
    for part in question_of(open_bank(), template, 3).parts:
        before |= set(sys.modules)
        mark(part, "the mesuring cylinder is filled untl the meniscis is 12.5 cm3 H2SO4", {{}})
        print(*sorted(set(sys.modules) - before))
"""


def test_all_that_a_mark_needs_is_loaded_while_the_learner_reads() -> None:
    made = subprocess.run([sys.executable, "-c", _LOAD_MARKER], capture_output=True, text=True)
    assert made.returncode == 0, made.stderr
    assert made.stdout.split() == []


@pytest.mark.parametrize("given", [["salts"], ["--questions", "3", "--seed", "5"], []])
def test_words_and_whole_numbers_load_no_validators(given: list[str]) -> None:
    drill("sit", "--learner", "ada", typed=["stop"])
    code = _ASK_ONE.replace('["drill", "sit"]', repr(["drill", "sit", *given]))
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert "question 1" in result.stdout, result.stderr
    assert "pydantic" not in result.stderr.split()


def test_help_loads_no_command_s_work() -> None:
    code = (
        "import sys; from drill.cli.app import app; "
        "print([n for n in sys.modules if n.startswith('drill.') and "
        "n.split('.')[1] in ('bank', 'store', 'sitting', 'marking', 'planning', 'memory')])"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert result.stdout.strip() == "[]", result.stderr


_HELP = """
import io, sys
sys.argv, out, sys.stdout = ["drill", "--help"], sys.stdout, io.StringIO()
from drill.cli import run
try:
    run()
except SystemExit:
    pass
heavy = ("drill.quantities", "drill.model", "rich")
print([name for name in sys.modules if name.startswith(heavy)], file=out)
"""


def test_help_loads_neither_quantities_nor_a_screen() -> None:
    result = subprocess.run([sys.executable, "-c", _HELP], capture_output=True, text=True)
    assert result.stdout.strip() == "[]", result.stderr
