"""A chart of shares as an inline SVG element, black on white, readable without colour."""

from __future__ import annotations

from collections.abc import Iterator

from drill.documents.values import Bar, Chart
from drill.plaintext import escaped

# in the units of the drawing, about half a millimetre on A4
_LABELS, _WIDE, _VALUES, _ROW, _TOP = 120, 200, 60, 18, 16
_LONGEST_LABEL = 34  # characters; a longer label is cut, the description has all of it


def chart_svg(chart: Chart) -> str:
    """The element, with the chart's title, and every value in words as its description."""
    high = _TOP + _ROW * len(chart.bars) + 4
    inner = "".join([*_scale(high), *(_bar(bar, row) for row, bar in enumerate(chart.bars))])
    words = "; ".join(map(_in_words, chart.bars))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" '
        f'viewBox="0 0 {_LABELS + _WIDE + _VALUES} {high}" font-family="sans-serif" '
        f'font-size="8"><title>{escaped(chart.title)}</title><desc>{escaped(words)}</desc>'
        f"{inner}</svg><figcaption>{escaped(chart.title)}</figcaption>"
    )


def _scale(high: int) -> Iterator[str]:
    for percent in (0, 25, 50, 75, 100):
        x = _LABELS + _WIDE * percent / 100
        yield f'<path d="M{x:g} {_TOP - 4}V{high}" stroke="#bbb" stroke-width=".5"/>'
        yield f'<text x="{x:g}" y="{_TOP - 7}" text-anchor="middle">{percent} %</text>'


def _bar(bar: Bar, row: int) -> str:
    y = _TOP + _ROW * row + _ROW / 2
    low, high = (0.0, bar.value) if bar.low is None or bar.high is None else (bar.low, bar.high)
    label = bar.label if len(bar.label) <= _LONGEST_LABEL else f"{bar.label[:_LONGEST_LABEL]}…"
    return (
        f'<text x="{_LABELS - 6}" y="{y + 3:g}" text-anchor="end">{escaped(label)}</text>'
        f'<path d="M{_x(low):.1f} {y:g}H{_x(high):.1f}" stroke="#555" stroke-width="4"/>'
        f'<circle cx="{_x(bar.value):.1f}" cy="{y:g}" r="4"/>'
        f'<text x="{_LABELS + _WIDE + 8}" y="{y + 3:g}">{100 * bar.value:.0f} %</text>'
    )


def _x(share: float) -> float:
    return _LABELS + _WIDE * min(1.0, max(0.0, share))


def _in_words(bar: Bar) -> str:
    said = f"{bar.label}: {100 * bar.value:.0f} %"
    if bar.low is None or bar.high is None:
        return said
    return f"{said}, from {100 * bar.low:.0f} % to {100 * bar.high:.0f} %"
