"""How many of 4,000 typed numbers are marked as they deserve.

    python tests/bench/typed_numbers.py [--show 20]

The cases were drawn up by one who had not seen the marker: the unit is printed at the prompt, and
any correct rounding to 2 figures or more is right. What each deserves is worked out with exact
fractions in `number_cases`, never by the marker.
"""

from __future__ import annotations

import argparse
import sys
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from drill.marking import mark
from drill.model import Chain, NumberKey, Part
from drill.quantities import Quantity, to_plain, unit_of
from tests.bench.number_cases.drawing import cases
from tests.marking.making import expression, number


def part_of(row: dict[str, object]) -> Part:
    """A part whose answer is the row's key, in its unit."""
    unit = unit_of(str(row["unit"]))
    assert unit is not None, row
    value = Quantity(Fraction(str(row["key"])), unit)
    chain = Chain({"v": value}, (), {"v": to_plain(value)}, {})
    decimals, figures = row["decimals"], row["figures"]
    assert decimals is None or isinstance(decimals, int)
    assert figures is None or isinstance(figures, int)
    award, answer = {"value": 1}, expression("v")
    key = NumberKey(
        value.value, str(row["unit"]), True, decimals, figures, award, answer, chain, ()
    )
    return number(key)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--show", type=int, default=20)
    chosen = parser.parse_args()
    rows = cases()
    wrong = [row for row in rows if mark(part_of(row), str(row["typed"])).marks != row["right"]]
    for row in wrong[: chosen.show]:
        print("denied" if row["right"] else "paid", row)
    print(f"{len(rows)} typed numbers, {1 - len(wrong) / len(rows):.4f} marked as they deserve")


if __name__ == "__main__":
    main()
