"""The two figures in words: held today, and on the day; never one without its name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from drill.cli.views import share
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.plan import PlanFigures
    from drill.app.sitting_summary import Standing


def figure_lines(found: PlanFigures | Standing) -> Iterator[str]:
    """Marks and skills met until there are 20 answers; then held today, and from 40 on the day."""
    met = f"{found.met} of {counted(found.skills, 'skill')} met"
    held, on_the_day = found.held, found.on_the_day
    if held is None:
        yield f"So far: {found.marks} of {counted(found.of, 'mark')}, {met}."
        return
    yield f"Held today: {_told(held.share, held.low, held.high)}; {met}."
    if on_the_day is not None:
        day = "On the day" if found.exam else "In four weeks"
        told = _told(on_the_day.share, on_the_day.low, on_the_day.high)
        yield f"{day}, if you keep to the plan: {told}."


def _told(middle: float, low: float, high: float) -> str:
    return f"{share(middle)} of the marks, likely {100 * low:.0f} to {share(high)}"
