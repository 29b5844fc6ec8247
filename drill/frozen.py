"""Frozen values on the way to the first question are `msgspec.Struct`; others are dataclasses.

A dataclass of ten fields takes about 1 ms to define, because Python compiles its methods anew at
every start; a `Struct` takes 0.02 ms. Some fifty of them stand between the command and the first
question (`tests/bench/first_prompt.py`).
"""

from __future__ import annotations

import dataclasses
from typing import Any, TypeVar

from msgspec import Struct, structs

Frozen = TypeVar("Frozen")


def replace(value: Frozen, /, **changes: Any) -> Frozen:
    """A copy with some fields changed, whichever of the two kinds of value it is.

    Raises:
        TypeError: a field is not one of its own, or it is neither a `Struct` nor a dataclass.
    """
    if isinstance(value, Struct):
        return structs.replace(value, **changes)
    return dataclasses.replace(value, **changes)  # type: ignore[type-var]


def field_names(value: Any) -> tuple[str, ...]:
    """The names of its fields, in their order; none for a value of any other kind."""
    if isinstance(value, Struct):
        return value.__struct_fields__
    if dataclasses.is_dataclass(value):
        return tuple(one.name for one in dataclasses.fields(value))
    return ()
