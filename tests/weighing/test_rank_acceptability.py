"""How often an option comes first, second, third.

The examples were made for this project: exact areas worked out in fractions and confirmed by
drawing a million weights at random. The definition is that of Lahdelma and Salminen, SMAA-2,
Operations Research 49(3), 2001 (formulas from memory), with ties shared equally.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.weighing import Option, Range, Ranges, Weighting, weigh
from witnessmark.weighing.field import line_up
from witnessmark.weighing.policy_region import policy_region
from witnessmark.weighing.ranks import rank_acceptabilities

F = Fraction

S2 = {"a": (4, 0, 0), "b": (0, 4, 0), "c": (0, 0, 4)}
S5 = {
    "keep": (4, 1, 4),
    "rebush": (3, 3, 3),
    "rolling": (1, 4, 1),
    "sleeve": (2, 3, 3),
    "nothing": (4, 0, 4),
}
Scores = dict[str, tuple[int, int, int]]


def options(scores: Scores) -> list[Option]:
    return [
        Option(name, (Range.certain(F(a)), Range.certain(F(s)), Range.certain(F(r))))
        for name, (a, s, r) in scores.items()
    ]


def ranks(scores: Scores, option: str) -> tuple[F, ...] | None:
    return weigh(options(scores), weighting=Weighting()).of(option).ranks


@pytest.mark.parametrize(
    ("scores", "option", "expected"),
    [
        ({**S2, "m": (2, 2, 2)}, "m", (F(1, 4), F(3, 4), F(0), F(0))),
        ({**S2, "m": (2, 2, 2)}, "a", (F(1, 4), F(1, 12), F(1, 3), F(1, 3))),
        ({**S2, "m": (1, 1, 1)}, "m", (F(0), F(3, 8), F(9, 16), F(1, 16))),
        (S5, "keep", (F(5, 9), F(1, 9), F(1, 12), F(1, 4), F(0))),
        (S5, "rebush", (F(1, 3), F(11, 48), F(7, 16), F(0), F(0))),
        (S5, "rolling", (F(1, 9), F(1, 18), F(1, 12), F(15, 196), F(33, 49))),
    ],
)
def test_every_rank_has_its_exact_share_of_the_weights(
    scores: Scores, option: str, expected: tuple[F, ...]
) -> None:
    assert expected == ranks(scores, option)


def test_equal_options_share_their_ranks_equally() -> None:
    scores = {"a": (4, 4, 4), "b": (4, 4, 4), "c": (0, 0, 0)}
    assert (F(1, 2), F(1, 2), F(0)) == ranks(scores, "b")


def test_ranks_under_doubtful_scores_within_a_policy_are_exact() -> None:
    policy: Ranges = ((F(1, 5), F(1, 2)), (F(3, 10), F(3, 5)), (F(1, 10), F(2, 5)))
    region = policy_region(policy)
    expected = {
        "rebush": (F(9343, 14040), F(4427, 14040), F(1, 52)),
        "rolling": (F(17, 390), F(5339, 16380), F(10327, 16380)),
        "keep": (F(817, 2808), F(35257, 98280), F(2869, 8190)),
    }
    found = {name: [F(0)] * 3 for name in expected}
    # rebush's authenticity is 2, 3 or 4 with chance 1/4, 1/2, 1/4; keep's safety 0, 1 or 2 alike.
    for (a, chance_a), s in product(((2, F(1, 4)), (3, F(1, 2)), (4, F(1, 4))), (0, 1, 2)):
        scores = {"rebush": (a, 3, 2), "rolling": (1, 4, 1), "keep": (4, s, 3)}
        field = line_up(options(scores), weighting=Weighting())
        for name, row in rank_acceptabilities(field, domain=region).items():
            for rank, share in enumerate(row):
                found[name][rank] += share * chance_a / 3
    assert expected == {name: tuple(row) for name, row in found.items()}


@settings(deadline=None, max_examples=50)
@given(st.lists(st.tuples(*[st.integers(0, 4)] * 3), min_size=1, max_size=6))
def test_every_row_and_column_of_ranks_adds_up_to_one(rows: list[tuple[int, int, int]]) -> None:
    weighing = weigh(
        options({f"o{place}": row for place, row in enumerate(rows)}), weighting=Weighting()
    )
    table = [option.ranks or () for option in weighing.options]
    assert [1] * len(rows) == [sum(row) for row in table]
    assert [1] * len(rows) == [sum(column) for column in zip(*table, strict=True)]


@settings(deadline=None, max_examples=50)
@given(
    st.lists(st.tuples(*[st.integers(0, 4)] * 3), min_size=1, max_size=6, unique=True),
)
def test_the_first_rank_is_the_share_of_all_weights(rows: list[tuple[int, int, int]]) -> None:
    weighing = weigh(
        options({f"o{place}": row for place, row in enumerate(rows)}), weighting=Weighting()
    )
    for option in weighing.options:
        assert option.ranks is not None
        assert option.share_all == option.ranks[0]
