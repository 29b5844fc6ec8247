"""No text is ever run: nothing under `drill/` evaluates, unpickles, or starts another program.

And no module but those of `store` opens a database. What is imported by name comes from lists of
our own.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import pytest

import drill

FOLDER = Path(drill.__file__).parent
CALLS = {"eval", "exec", "compile", "__import__", "breakpoint"}
MODULES = {
    *("pickle", "marshal", "shelve", "dill", "cloudpickle", "joblib", "yaml", "code", "codeop"),
    *("runpy", "imp", "subprocess", "pty", "ctypes", "pdb", "xmlrpc", "asyncore"),
}
METHODS = {
    *(
        "system",
        "popen",
        "startfile",
        "sympify",
        "parse_expr",
        "lambdify",
        "nsimplify",
        "subs",
    ),
    *("literal_eval", "exec_module", "load_module", "create_subprocess_shell"),
    *(
        f"{way}{how}"
        for way in ("exec", "spawn")
        for how in ("l", "le", "lp", "lpe", "v", "ve", "vp")
    ),
}
"""The ones of sympy run a text that they are given."""
SYMPY = {"cancel", "Dummy", "Rational", "sqrt", "log"}
"""What the proof takes from sympy; each is given numbers and symbols, never a text of a file."""
DATABASES = {"sqlite3", "sqlite_utils", "dbm", "apsw"}


@cache
def texts() -> dict[str, str]:
    return {
        path.relative_to(FOLDER).as_posix(): path.read_text("utf-8")
        for path in FOLDER.rglob("*.py")
    }


def trees(pattern: str) -> dict[str, ast.Module]:
    """The modules in whose text the pattern is found: to parse all of them takes seconds."""
    wanted = re.compile(pattern, re.MULTILINE)
    return {path: ast.parse(text) for path, text in texts().items() if wanted.search(text)}


def _any(words: Iterable[str]) -> str:
    return f"(?:{'|'.join(sorted(words))})\\b"


PERHAPS = "|".join(
    (
        rf"(?<![.\w]){_any(CALLS)}",
        rf"^\s*(?:from|import)\b.*\b{_any({*MODULES, 'sympy'})}",
        rf"\.{_any(METHODS)}",
        r"\bshell=",
    )
)


def faults(tree: ast.AST) -> Iterator[str]:
    """What in a module could run a text."""
    for node in ast.walk(tree):
        line = getattr(node, "lineno", 0)
        for name in _imported(node):
            if name.partition(".")[0] in MODULES:
                yield f"{line}: imports {name}"
        if isinstance(node, ast.ImportFrom) and node.module == "sympy":
            yield from (f"{line}: sympy.{one.name}" for one in node.names if one.name not in SYMPY)
        if isinstance(node, ast.Import) and any(one.name == "sympy" for one in node.names):
            yield f"{line}: imports all of sympy"
        if isinstance(node, ast.Name) and node.id in CALLS:
            yield f"{line}: {node.id}"
        if isinstance(node, ast.Attribute) and node.attr in METHODS:
            yield f"{line}: .{node.attr}"
        if isinstance(node, ast.keyword) and node.arg == "shell":
            yield f"{line}: a shell"


def _imported(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [one.name for one in node.names]
    return [node.module or ""] if isinstance(node, ast.ImportFrom) else []


def test_no_text_is_run() -> None:
    tried = trees(PERHAPS)
    found = [f"{path}:{fault}" for path, tree in tried.items() for fault in faults(tree)]
    assert len(texts()) > 400
    assert "judge/proof.py" in tried
    assert found == []


@pytest.mark.parametrize(
    "text",
    [
        "eval(typed)", "run = exec", "import pickle", "from subprocess import run", "os.system(x)",
        "import sympy", "from sympy import sympify", "one.subs(x, typed)", "ast.literal_eval",
        "call(x, shell=True)", "import yaml.cyaml", "os.execv(a, b)", "compile(x, '', 'eval')",
    ],
)  # fmt: skip
def test_what_would_run_a_text_is_seen(text: str) -> None:
    assert re.search(PERHAPS, text)
    assert list(faults(ast.parse(text)))


def test_what_is_imported_by_name_is_ours() -> None:
    """A call takes a constant, or a name that was looked up in a list of the module."""
    lists = {
        "app/classes/trust.py": "name", "cli/app.py": "_MODULES",
        "documents/__init__.py": "WRITERS",
        "exchange/__init__.py": "_LATER", "sitting/__init__.py": "_LATER",
        "store/__init__.py": "_LATER", "subjects/__init__.py": "name",
        "subjects/interface.py": "name",
    }  # fmt: skip
    for path, tree in trees(r"import_module\(").items():
        for node in ast.walk(tree):
            if _called(node) == "import_module" and not isinstance(_first(node), ast.Constant):
                names = {one.id for one in ast.walk(_first(node)) if isinstance(one, ast.Name)}
                assert {*names, "name"} & {lists.get(path, "")} or "self" in names, path


def _called(node: ast.AST) -> str:
    return node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""


def _first(node: ast.AST) -> ast.expr:
    assert isinstance(node, ast.Call)
    return node.args[0]


def test_an_unknown_subject_or_kind_imports_nothing() -> None:
    """A name of a science or of a kind of part may come from a file."""
    from drill.subjects import subject

    for name in ("os", "chemistry.formula_part", "..os", "interface", "__init__", "../x"):
        assert subject(name) is subject("")
        assert subject("chemistry").kind(name) is None


def test_only_the_store_opens_a_database() -> None:
    found = set()
    for path, tree in trees(_any(DATABASES)).items():
        for node in ast.walk(tree):
            names = [name.partition(".")[0] for name in _imported(node)]
            if _called(node) == "import_module" and isinstance(_first(node), ast.Constant):
                names.append(_first(node).value.partition(".")[0])  # type: ignore[attr-defined]
            if DATABASES & {*names}:
                found.add(path.partition("/")[0])
    assert found == {"store"}
