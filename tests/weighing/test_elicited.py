"""From answers to weights, and whether answers in pairs hang together.

Consistency: the values printed by general-purpose libraries for the same matrices with a random
index of 0.58 (Saaty's table as later authors print it); the greatest root also from numpy.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.weighing.elicited import consistency_of, reach_of, weights_of_swings

F = Fraction

PAIRS = [
    ((3.0, 5.0, 3.0), 3.03851, 0.0332),
    ((2.0, 6.0, 3.0), 3.0, 0.0),
    ((3.0, 1 / 3, 3.0), 13 / 3, 1.149),
]


@pytest.mark.parametrize(("pairs", "root", "ratio"), PAIRS)
def test_the_consistency_of_three_pairs_is_as_printed(
    pairs: tuple[float, float, float], root: float, ratio: float
) -> None:
    a12, a13, a23 = pairs
    found = consistency_of(first_second=a12, first_third=a13, second_third=a23)
    assert (root, ratio) == pytest.approx((found.greatest_root, found.ratio), abs=5e-4)


RATIOS = st.floats(1 / 9, 9)


@given(RATIOS, RATIOS, RATIOS)
def test_the_greatest_root_is_that_of_the_matrix(a12: float, a13: float, a23: float) -> None:
    matrix = np.array([[1, a12, a13], [1 / a12, 1, a23], [1 / a13, 1 / a23, 1]])
    found = consistency_of(first_second=a12, first_third=a13, second_third=a23)
    assert max(np.linalg.eigvals(matrix).real) == pytest.approx(found.greatest_root, abs=1e-5)


def test_answers_that_go_in_a_circle_do_not_hang_together() -> None:
    # Equal weights would come out of them, which is why weights without the check mislead.
    assert not consistency_of(first_second=3, first_third=1 / 3, second_third=3).holds


def test_points_become_shares_of_their_sum() -> None:
    assert (F(1, 3), F(5, 12), F(1, 4)) == weights_of_swings((F(80), F(100), F(60)))


def test_the_reach_of_several_people_is_the_least_and_the_most_they_gave() -> None:
    people = [(F(1, 3), F(5, 12), F(1, 4)), (F(1, 2), F(1, 4), F(1, 4))]
    assert ((F(1, 3), F(1, 2)), (F(1, 4), F(5, 12)), (F(1, 4), F(1, 4))) == reach_of(people)
