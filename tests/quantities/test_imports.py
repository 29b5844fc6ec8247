"""The first question waits for this package: it must not bring anything heavy with it."""

from __future__ import annotations

import subprocess
import sys

_HEAVY = "sympy numpy pint sqlite3 sqlite_utils tomlkit rapidfuzz hypothesis rich typer difflib csv"


def loaded_after(statement: str) -> set[str]:
    code = f"import sys; {statement}; print(*sys.modules)"
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True
    )
    return set(run.stdout.split())


def test_the_package_brings_nothing_heavy() -> None:
    loaded = loaded_after("import drill.quantities")
    assert "drill.quantities.expressions.parser" in loaded
    assert not loaded & set(_HEAVY.split())
    assert "drill.quantities.formulae" not in loaded


def test_every_promised_name_is_there() -> None:
    import drill.quantities as package

    assert all(getattr(package, name) is not None for name in package.__all__)
    assert not hasattr(package, "no_such_name")
