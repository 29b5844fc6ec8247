"""Names that packages offer can be had, and what they import from outside is declared."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections.abc import Iterable
from importlib import import_module
from importlib.metadata import packages_distributions
from pathlib import Path
from pkgutil import walk_packages

import pytest

import drill

PACKAGES = [one.name for one in walk_packages(drill.__path__, "drill.") if one.ispkg]
FOLDER = Path(drill.__file__).parent
PROJECT = tomllib.loads((FOLDER.parent / "pyproject.toml").read_text(encoding="utf-8"))["project"]


@pytest.mark.parametrize("name", PACKAGES)
def test_every_name_offered_can_be_had(name: str) -> None:
    package = import_module(name)
    assert all(hasattr(package, one) for one in getattr(package, "__all__", ()))


def declared(*extras: str) -> set[str]:
    """The distributions that the project asks for, with these extras."""
    asked = PROJECT["dependencies"] + [
        one for extra in extras for one in PROJECT["optional-dependencies"][extra]
    ]
    return {_plain(re.split(r"[\[<>=]", one)[0]) for one in asked}


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def imported(nodes: Iterable[ast.AST]) -> set[str]:
    """The packages from outside that are imported there."""
    names = []
    for node in nodes:
        if isinstance(node, ast.Import):
            names += [one.name for one in node.names]
        elif isinstance(node, ast.ImportFrom):
            names.append(node.module or "")
    return {name.partition(".")[0] for name in names} - {"drill"} - sys.stdlib_module_names


def test_what_is_imported_is_declared() -> None:
    """And what only an extra brings is not imported before it is needed."""
    brought = {name: {_plain(one) for one in by} for name, by in packages_distributions().items()}
    always, ever = declared(), declared("paper", "trust")
    for path in FOLDER.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for names, allowed in ((imported(tree.body), always), (imported(ast.walk(tree)), ever)):
            for name in names:
                lacking = f"{path} imports {name}, which pyproject.toml lacks"
                assert brought.get(name, set()) & allowed, lacking
