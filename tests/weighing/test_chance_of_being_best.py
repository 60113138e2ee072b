"""The chance of being best under doubtful scores.

The first example was made for this project and worked out in exact fractions; every other is
checked here by going through all cases one by one, which is the definition.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from witnessmark.weighing import Option, Range, Weighing, Weighting, Weights, weigh

F = Fraction

WEIGHTS: Weights = (F(7, 20), F(2, 5), F(1, 4))


def about(low: int, likely: int, high: int) -> Range:
    return Range(F(low), F(likely), F(high))


def certain(score: int) -> Range:
    return Range.certain(F(score))


def chances(weighing: Weighing) -> dict[str, F | None]:
    return {option.id: option.chance_best for option in weighing.options}


def test_the_option_ahead_may_be_best_only_half_the_time() -> None:
    options = [
        Option("rebush", (about(2, 3, 4), certain(3), about(1, 2, 3))),
        Option("shim", (certain(3), about(1, 2, 3), certain(3))),
        Option("keep", (certain(4), about(0, 1, 2), certain(3))),
    ]
    expected = {"rebush": F(67, 128), "shim": F(79, 256), "keep": F(43, 256)}
    assert expected == chances(weigh(options, weighting=Weighting(weights=WEIGHTS)))


def test_options_that_tie_share_the_chance_equally() -> None:
    options = [Option(name, (certain(2), certain(2), certain(2))) for name in "abc"]
    expected = dict.fromkeys("abc", F(1, 3))
    assert expected == chances(weigh(options, weighting=Weighting(weights=WEIGHTS)))


LEVELS = st.tuples(*[st.integers(0, 4)] * 3).map(sorted)
JUDGED = st.tuples(LEVELS, LEVELS, LEVELS)


@settings(deadline=None, max_examples=25)
@given(st.tuples(JUDGED, JUDGED), st.tuples(*[st.integers(0, 6)] * 3).filter(any))
def test_a_chance_is_the_count_of_all_cases(
    judged: tuple[tuple[list[int], ...], ...], parts: tuple[int, int, int]
) -> None:
    options = [
        Option(name, (about(*rows[0]), about(*rows[1]), about(*rows[2])))
        for name, rows in zip("ab", judged, strict=True)
    ]
    weights = tuple(F(part, sum(parts)) for part in parts)
    weighing = weigh(options, weighting=Weighting(weights=(weights[0], weights[1], weights[2])))
    assert _chance_by_counting(judged, parts) == weighing.of("a").chance_best


def _chance_by_counting(
    judged: tuple[tuple[list[int], ...], ...], parts: tuple[int, int, int]
) -> F:
    """Give the first option's chance, every low, likely, likely and high being one case."""
    worths = []
    for rows in judged:
        cases = product(*([low, likely, likely, high] for low, likely, high in rows))
        worths.append([sum(s * p for s, p in zip(case, parts, strict=True)) for case in cases])
    wins = sum(2 if ours > theirs else ours == theirs for ours, theirs in product(*worths))
    return F(wins, 2 * 64 * 64)


@settings(deadline=None, max_examples=25)
@given(st.lists(JUDGED, min_size=1, max_size=5))
def test_chances_always_add_up_to_one(judged: list[tuple[list[int], ...]]) -> None:
    options = [
        Option(f"o{place}", (about(*rows[0]), about(*rows[1]), about(*rows[2])))
        for place, rows in enumerate(judged)
    ]
    found = chances(weigh(options, weighting=Weighting(weights=WEIGHTS)))
    assert sum(chance or 0 for chance in found.values()) == 1
