"""A command with commands below it, and what it says when a word is none of them."""

from __future__ import annotations

from typing import Any

from drill.cli.command import Group

_CLOSE = 0.75  # a letter wrong, missing, doubled or swapped; not merely some in common
_NEVER = ("erase",)
"""What removes things is listed and never put into anybody's mouth."""


class NamingGroup(Group):
    """Suggests a command only where it is close; else names them all."""

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command meant, as typer finds it; a usage error for a word that is none."""
        if args and not args[0].startswith("-") and self.get_command(ctx, args[0]) is None:
            ctx.fail(self._no_such(args[0]))
        return super().resolve_command(ctx, args)

    def _no_such(self, word: str) -> str:
        from drill.plaintext import nearest, one_line

        named = [name for name in self.commands if name not in _NEVER]
        mixed = [name for name in named if sorted(name) == sorted(word.casefold())]
        near = next(iter(mixed), "") or nearest(word, named, _CLOSE)
        meant = f"Did you mean '{near}'?" if near else f"There are: {', '.join(self.commands)}."
        return f"No such command '{one_line(word, 40)}'. {meant}"
