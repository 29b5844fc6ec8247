"""The wheel carries bank and demo decks: installed alone, elsewhere, it asks a question."""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of programs of an environment that holds the wheel and nothing of the checkout.

    What the wheel needs is lent by this environment; `test_packages.py` sees that it is declared.
    """
    folder = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet"]
    subprocess.run([*pip, "wheel", "--no-deps", "-w", str(folder), str(ROOT)], check=True)
    (wheel,) = folder.glob("*.whl")
    venv.create(folder / "env")
    programs = folder / "env" / ("Scripts" if os.name == "nt" else "bin")
    python = str(programs / "python")
    # nearly all of what is installed is never imported here: it is not compiled in advance
    install = ["install", "--no-deps", "--no-compile", str(wheel)]
    subprocess.run([*pip, "--python", python, *install], check=True)
    (package,) = (folder / "env").rglob("drill/__init__.py")
    (package.parent.parent / "lent.pth").write_text(sysconfig.get_path("purelib") + "\n")
    return programs


def test_an_installed_drill_asks_and_keeps_an_answer(installed: Path, tmp_path: Path) -> None:
    env = {**os.environ, "DRILL_HOME": str(tmp_path / "home"), "COLUMNS": "80"}
    env.pop("PYTHONPATH", None)
    first = subprocess.run(
        [str(installed / "drill"), "sit"],
        input="ada\npass\npass\npass\n\nstop\n",
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env=env,
        check=False,
    )
    assert first.returncode == 0, first.stderr
    assert "question 1" in first.stdout
    weak = subprocess.run(
        [str(installed / "drill"), "weak"],
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env=env,
        check=False,
    )
    assert "Next lesson: nothing stands out yet." in weak.stdout, weak.stderr
