"""The range of a steady rate, against the chi-squared form that SciPy gives."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chi2, poisson  # type: ignore[import-untyped]

from witnessmark.weighing.steady_rate import steady_rate


@pytest.mark.parametrize("confidence", [Fraction(1, 2), Fraction(9, 10), Fraction(99, 100)])
@pytest.mark.parametrize("events", [0, 1, 2, 5, 30, 400])
def test_the_range_is_that_of_garwood(events: int, confidence: Fraction) -> None:
    # Garwood 1936 in its chi-squared form: chi2(a/2; 2k)/2 and chi2(1 - a/2; 2k + 2)/2.
    tail = float(1 - confidence) / 2
    low = chi2.ppf(tail, 2 * events) / 2 if events else 0.0
    high = chi2.ppf(1 - tail, 2 * events + 2) / 2
    found = steady_rate(events, years=1, confidence=confidence)
    assert pytest.approx((low, high), rel=1e-9) == (found.low, found.high)


@pytest.mark.parametrize("events", [1, 4, 12])
def test_each_end_of_the_range_is_just_too_rare(events: int) -> None:
    found = steady_rate(events, years=1)
    assert pytest.approx(0.05) == poisson.sf(events - 1, found.low)
    assert pytest.approx(0.05) == poisson.cdf(events, found.high)


@given(st.integers(0, 200), st.floats(0.01, 200))
def test_the_count_lies_in_its_range_and_time_only_scales_it(events: int, years: float) -> None:
    found, one = steady_rate(events, years=years), steady_rate(events, years=1)
    assert found.low <= found.likely < found.high
    assert pytest.approx((one.low, one.high)) == (found.low * years, found.high * years)


@pytest.mark.parametrize(("events", "years"), [(-1, 1.0), (1, 0.0), (1, -2.0)])
def test_a_count_or_time_that_makes_no_sense_is_a_slip_of_the_caller(
    events: int, years: float
) -> None:
    with pytest.raises(ValueError, match="count"):
        steady_rate(events, years=years)
