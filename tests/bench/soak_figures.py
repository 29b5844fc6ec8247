"""What came out of the soak: marks, ranges against the truth, bytes, memory."""

from __future__ import annotations

from typing import Any

MOMENTS = (40, 80, 160, 240)
"""Answers after which what is shown is compared with the truth."""
ANSWERS, BYTES = 2000, 600
Row = dict[str, Any]


def report(rows: list[Row]) -> bool:
    """Print what came out; whether all of it is as it should be."""
    pupils = [row for row in rows if "pupil" in row]
    stores = [row for row in rows if "pupil" not in row]
    wrong = [line for row in stores for line in row["wrong"]]
    print(
        f"{sum(row['days'] for row in pupils)} pupil-days, {len(pupils)} pupils, "
        f"{sum(row['answers'] for row in pupils)} answers, {len(stores)} stores; "
        f"{len(wrong)} things wrong"
    )
    for line in wrong[:10]:
        print(f"  {line}")
    good = not wrong
    for place, name in enumerate(("held today", "on the day")):
        for moment in map(str, MOMENTS):
            good &= _cover(name, moment, place, pupils)
        good &= _cover(name, "", place, pupils)
    sizes = sorted(row["bytes"] for row in stores if row["bytes"])
    if sizes:
        print(f"bytes an answer after {ANSWERS}: {sizes[0]} to {sizes[-1]} (at most {BYTES})")
        good &= sizes[-1] <= BYTES
    held = [row["kilobytes"] // 1024 for row in stores]
    print(f"megabytes resident after each store: {' '.join(map(str, held))}")
    print(f"a next question took {1000 * max(row['slowest'] for row in stores):.0f} ms at most")
    return bool(good)


def _cover(name: str, moment: str, place: int, pupils: list[Row]) -> bool:
    """A line: how many ranges of a moment ("" for all) hold the truth; False well outside."""
    told: list[tuple[list[float], float]] = []
    for row in pupils:
        for one in (moment,) if moment else row["told"]:
            span = row["told"].get(one, [None, None])[place]
            if span is not None:
                told.append((span, row["true"]["exam" if place else one]))
    if not told:
        return True
    inside = sum(low <= true <= high for (_, low, high), true in told)
    off = sum(share - true for (share, _, _), true in told) / len(told)
    wide = sum(high - low for (_, low, high), _ in told) / len(told)
    share, spread = inside / len(told), 1.96 * (0.16 / len(told)) ** 0.5
    print(
        f"{name:10} {moment or 'all':>4} answers: {inside} of {len(told)} ranges hold the truth, "
        f"{share:.2f} ± {spread:.2f}; too high by {100 * off:+.1f}, {100 * wide:.0f} points wide"
    )
    return bool(moment) or 0.75 <= share <= 0.88
