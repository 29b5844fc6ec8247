"""Every name a package offers is there, also those that are loaded only when they are named."""

from __future__ import annotations

from importlib import import_module
from pkgutil import walk_packages

import pytest

import drill

PACKAGES = [one.name for one in walk_packages(drill.__path__, "drill.") if one.ispkg]


@pytest.mark.parametrize("name", PACKAGES)
def test_every_name_offered_can_be_had(name: str) -> None:
    package = import_module(name)
    assert all(hasattr(package, one) for one in getattr(package, "__all__", ()))
