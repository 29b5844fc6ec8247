"""The row of fading cells keeps to the power law it stands for."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from drill.memory.power_law import faded, left_after, power_shares

DAY = 86400.0


@given(
    onset=st.floats(10.0, 20000.0),
    decay=st.floats(0.02, 0.9),
    lag=st.floats(0.0, 365 * DAY),
)
@settings(max_examples=200, deadline=None)
def test_within_four_per_cent_of_the_power_law_up_to_a_year(
    onset: float, decay: float, lag: float
) -> None:
    left = zip(power_shares(onset, decay), left_after(lag), strict=True)
    exact = (1.0 + lag / onset) ** -decay
    assert abs(sum(share * kept for share, kept in left) / exact - 1.0) < 0.042


def test_shares_add_up_to_one() -> None:
    assert abs(sum(power_shares(600.0, 0.3)) - 1.0) < 1e-12


def test_a_lag_below_zero_counts_as_zero() -> None:
    assert faded([0.5, 0.25] + [0.0] * 11, -100.0) == [0.5, 0.25] + [0.0] * 11
    assert left_after(-1.0) == left_after(0.0)
