"""The judge shares nothing with the arithmetic that it judges: it works where that is missing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

SCRIPT = """
import importlib, pkgutil, sys

class Missing:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[:2] in (["drill", "quantities"], ["drill", "generate"]):
            raise ImportError(name)
        return None

sys.meta_path.insert(0, Missing())
import drill.judge
for module in pkgutil.iter_modules(drill.judge.__path__):
    importlib.import_module(f"drill.judge.{module.name}")
loaded = [name for name in sys.modules if name.startswith("drill.")]
print(sorted({name.split(".")[1] for name in loaded}))
print("sympy" in sys.modules)
from drill.judge.working import worked
print(worked("round((25.0 in cm3) / 3, 1)", {}).shown())
"""


def test_it_works_without_the_arithmetic_of_the_program():
    root = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT], capture_output=True, text=True, cwd=root, check=False
    )
    assert done.stderr == ""
    assert done.stdout.splitlines() == ["['judge']", "False", "8.3 cm3"]
