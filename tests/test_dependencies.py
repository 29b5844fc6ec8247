"""What the project is built on: each package locked for CI, with its licence and its reason."""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import PackageMetadata, PackageNotFoundError, metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name as plain

ROOT = Path(__file__).resolve().parent.parent
CI = ROOT / ".ci"
FILE = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
PROJECT = FILE["project"]
LISTS = (PROJECT["dependencies"], *PROJECT["optional-dependencies"].values())
NAMED = [one for named in LISTS for one in map(Requirement, named) if one.name != "drill"]
BUILD = [Requirement(one) for one in FILE["build-system"]["requires"]]
ROWS = re.findall(r"(?m)^\| (\S+) \| (.+?) \| (.+) \|$", (CI / "README.md").read_text("utf-8"))
TABLE = {name: (licence, why) for name, licence, why in ROWS if name not in ("package", "---")}


def locked() -> dict[str, str]:
    """{package: version}; a line that is no pin is an error."""
    lines = (CI / "constraints.txt").read_text("utf-8").splitlines()
    return {plain(name): version for name, version in (line.split("==") for line in lines)}


@pytest.mark.parametrize("asked", [*NAMED, *BUILD], ids=str)
def test_what_is_asked_for_is_locked_within_its_bounds(asked: Requirement) -> None:
    assert asked.specifier.contains(locked()[plain(asked.name)]), asked


def test_each_has_a_licence_and_a_reason_and_nothing_else_has() -> None:
    assert set(TABLE) == {one.name for one in NAMED}
    assert all(licence.strip() and why.strip() for licence, why in TABLE.values())


def told(about: PackageMetadata) -> str:
    """All that a package without an exact licence says of it."""
    kinds = [one for one in about.get_all("Classifier") or [] if one.startswith("License")]
    return " ".join([about.get("License") or "", *kinds])


@pytest.mark.parametrize("name", TABLE)
def test_the_licence_is_the_one_the_package_names(name: str) -> None:
    """Packages of `tools` and `mutants` need not be here: then there is nothing to compare."""
    try:
        about = metadata(name)
    except PackageNotFoundError:
        extras = PROJECT["optional-dependencies"]
        here = {Requirement(one).name for extra in ("tools", "mutants") for one in extras[extra]}
        assert name in here
        return
    licence, exact = TABLE[name][0], about.get("License-Expression")
    assert licence == exact if exact else licence.split("-")[0] in told(about)
