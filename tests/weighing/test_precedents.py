"""How like two decisions are.

The example was made for this project and worked by hand; the rule that a feature either side lacks
has no weight is that of the manual of the R package FD (gowdis). Laws are checked with hypothesis.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from witnessmark.weighing.precedents import (
    Comparing,
    Feature,
    Likeness,
    Portrait,
    Precedent,
    Trait,
    likeness_of,
    precedents,
)

F = Fraction

FEATURES = (
    Feature("kind", F(3), Comparing.WORD),
    Feature("keeping", F(2), Comparing.WORD),
    Feature("material", F(1), Comparing.WORD),
    Feature("authenticity", F(1), Comparing.LEVEL),
    Feature("safety", F(1), Comparing.LEVEL),
    Feature("reversibility", F(1), Comparing.LEVEL),
    Feature("tags", F(2), Comparing.WORDS),
)


def portrait(*traits: str | int | set[str] | None) -> Portrait:
    return {
        feature.name: _trait(written) for feature, written in zip(FEATURES, traits, strict=True)
    }


def _trait(written: str | int | set[str] | None) -> Trait:
    if isinstance(written, int):
        return F(written)
    return frozenset(written) if isinstance(written, set) else written


QUERY = portrait(
    "worn-bearing", "running", "bronze", 3, 3, 2, {"bearing", "press-fit", "lubrication"}
)
STEEL = portrait("worn-bearing", "running", "steel", 1, 4, 1, {"bearing", "press-fit"})
GREASE = portrait("lubricant", "running", "bronze", 3, 3, 4, {"lubrication"})
STANDING = portrait("worn-bearing", "on-display", None, 3, 2, 2, set())


def likeness(other: Portrait) -> Likeness:
    return likeness_of(QUERY, other, features=FEATURES)


@pytest.mark.parametrize(
    ("other", "expected"), [(STEEL, F(25, 33)), (GREASE, F(37, 66)), (STANDING, F(23, 40))]
)
def test_likeness_is_exact(other: Portrait, expected: F) -> None:
    assert expected == likeness(other).similarity


@pytest.mark.parametrize(("other", "expected"), [(STEEL, F(1)), (STANDING, F(10, 11))])
def test_coverage_is_the_weight_that_could_be_compared(other: Portrait, expected: F) -> None:
    assert expected == likeness(other).coverage


def test_each_compared_feature_shows_its_own_likeness() -> None:
    expected = {
        "kind": F(1),
        "keeping": F(0),
        "authenticity": F(1),
        "safety": F(3, 4),
        "reversibility": F(1),
        "tags": F(0),
    }
    assert expected == likeness(STANDING).terms


def test_two_decisions_without_any_words_have_none_in_common_to_compare() -> None:
    found = likeness_of({"tags": frozenset()}, {"tags": frozenset()}, features=FEATURES)
    assert (None, F(0), {}) == (found.similarity, found.coverage, found.terms)


def test_the_most_like_comes_first() -> None:
    past = {"2020-001": GREASE, "2021-001": STEEL, "2022-001": STANDING}
    expected = ["2021-001", "2022-001", "2020-001"]
    found = precedents(QUERY, past=past, features=FEATURES)
    assert expected == [precedent.decision for precedent in found]


def test_among_equals_the_one_with_more_compared_comes_first() -> None:
    # Each differs from the query in nothing that is known of it.
    past = {"2020-001": {"kind": "worn-bearing"}, "2021-001": QUERY, "2022-001": QUERY}
    expected = ["2021-001", "2022-001", "2020-001"]
    found = precedents(QUERY, past=past, features=FEATURES)
    assert expected == [precedent.decision for precedent in found]


def test_a_decision_nothing_is_known_of_is_no_precedent() -> None:
    expected: tuple[Precedent, ...] = ()
    assert expected == precedents(QUERY, past={"2020-001": {}}, features=FEATURES)


WORDS = st.sampled_from(["bronze", "steel", "bearing"])
PORTRAITS = st.fixed_dictionaries(
    {},
    optional={
        "kind": WORDS,
        "keeping": WORDS,
        "material": st.one_of(st.none(), WORDS),
        "authenticity": st.fractions(0, 4, max_denominator=8),
        "tags": st.frozensets(WORDS),
    },
)


@given(PORTRAITS, PORTRAITS)
def test_likeness_never_depends_on_which_comes_first(one: Portrait, other: Portrait) -> None:
    expected = likeness_of(one, other, features=FEATURES)
    assert expected == likeness_of(other, one, features=FEATURES)


@given(PORTRAITS, PORTRAITS)
def test_likeness_and_coverage_lie_between_none_and_all(one: Portrait, other: Portrait) -> None:
    found = likeness_of(one, other, features=FEATURES)
    assert 0 <= found.coverage <= 1
    assert found.similarity is None or 0 <= found.similarity <= 1


@given(PORTRAITS)
def test_a_decision_is_wholly_like_itself(one: Portrait) -> None:
    assert likeness_of(one, one, features=FEATURES).similarity in {None, F(1)}
