"""The two figures in words: held today, and on the day; never one without its name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Protocol

from drill.cli.views import share
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.planning.figures import Share


class Standing(Protocol):
    """How a learner stands: marks and skills always, the figures when there are answers enough."""

    @property
    def marks(self) -> int: ...
    @property
    def of(self) -> int: ...
    @property
    def met(self) -> int: ...
    @property
    def skills(self) -> int: ...
    @property
    def exam(self) -> str | None: ...
    @property
    def held(self) -> Share | None: ...
    @property
    def on_the_day(self) -> Share | None: ...


def figure_lines(found: Standing) -> Iterator[str]:
    """Marks and skills met until there are 20 answers; then held today, and from 40 on the day."""
    met = f"{found.met} of {counted(found.skills, 'skill')} met"
    if found.held is None:
        yield f"So far: {found.marks} of {counted(found.of, 'mark')}, {met}."
        return
    yield f"Held today: {share(found.held.share)} of the marks{_range(found.held)}; {met}."
    if found.on_the_day is not None:
        day = "On the day" if found.exam else "In four weeks"
        figure = f"{share(found.on_the_day.share)} of the marks{_range(found.on_the_day)}"
        yield f"{day}, if you keep to the plan: {figure}."


def _range(found: Share) -> str:
    return f", likely {100 * found.low:.0f} to {share(found.high)}"
