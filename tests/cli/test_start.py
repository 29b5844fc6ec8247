"""A later start reaches its first question without anything heavy."""

from __future__ import annotations

import subprocess
import sys

from tests.common.desk import drill

_HEAVY = (
    "sympy", "numpy", "sqlite_utils", "tomlkit", "rapidfuzz", "pint", "hypothesis", "plotille",
    "drawsvg",
)  # fmt: skip

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
