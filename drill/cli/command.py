"""Commands of typer that load no library of validators for values that need none.

typer reads every value through that library, options left out and `--help` included, which costs a
start more than all the rest of typer. Here what was left out, plain text and whole numbers within
their limits are read at once. All else, and every message about a wrong value, stays typer's.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from typer.core import TyperCommand, TyperGroup

_MOST_DIGITS = 18


class Command(TyperCommand):
    """Give it to `Typer.command` as `cls`."""

    def get_params(self, ctx: Any) -> list[Any]:
        return _spared(super().get_params(ctx))


class Group(TyperGroup):
    """Give it to `Typer` or to `add_typer` as `cls`."""

    def get_params(self, ctx: Any) -> list[Any]:
        return _spared(super().get_params(ctx))


def _spared(params: list[Any]) -> list[Any]:
    """The same options and arguments, each reading plain values by itself."""
    for param in params:
        vars(param).setdefault("process_value", partial(_processed, param, param.process_value))
    return params


def _processed(param: Any, by_typer: Callable[..., Any], context: Any, value: Any) -> Any:
    """The value for the command, and what the option's own callback makes of it."""
    if param.multiple or param.nargs != 1 or (value is None and param.required):
        return by_typer(context, value)
    read = value if value is None or value is param.default else _plain(param, value)
    if read is None and value is not None:
        return by_typer(context, value)
    return param.callback(context, param, read) if param.callback else read


def _plain(param: Any, value: Any) -> str | int | None:
    """The text or the whole number that was typed; None when it takes more to read it."""
    descriptor = getattr(param, "type_descriptor", None)
    wanted = getattr(descriptor, "annotation", None)
    if not isinstance(value, str) or descriptor is None or descriptor.parameter_info.parser:
        return None
    if wanted is str:
        return value
    if wanted is int and len(value) <= _MOST_DIGITS and value.isascii() and value.isdecimal():
        least, most = param.min or 0, param.max if param.max is not None else int(value)
        return int(value) if least <= int(value) <= most else None
    return None
