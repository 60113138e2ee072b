"""What a museum's records say about how alike people judge: second judgements as ratings.

The museum of the test bench, changed; counts and figures by hand.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from building import DECISION, DECISION_ID, case_in, decision_in, museum
from witnessmark.model.judgement import words_seal_of
from witnessmark.model.library import Library
from witnessmark.model.prose import words_of
from witnessmark.weighing.agreement import Rating, agreement_of, ratings_of_library
from witnessmark.weighing.seals import seals_of

F = Fraction
USE = "options.0.judged.use.second"
TECHNIQUE = "options.1.judged.technique.second"
BY_ENGINEER = {"by": "engineer", "date": "2024-02-25", "likely": 2, "because": "It knocks too much"}


def with_second(**paths: list[dict[str, Any]]) -> Library:
    return museum(changes={DECISION: dict(paths)})


TWICE = with_second(
    **{
        USE: [BY_ENGINEER],
        TECHNIQUE: [{**BY_ENGINEER, "by": "fitter", "low": 3, "likely": 4, "high": 4}],
    }
)


def test_each_value_judged_twice_is_one_unit_with_both_judges() -> None:
    expected = (
        Rating(f"{DECISION_ID}/leave/use", "curator", F(3), DECISION_ID),
        Rating(f"{DECISION_ID}/leave/use", "engineer", F(2), DECISION_ID),
        Rating(f"{DECISION_ID}/rebush/technique", "curator", F(4), DECISION_ID),
        Rating(f"{DECISION_ID}/rebush/technique", "fitter", F(4), DECISION_ID),
    )
    assert expected == ratings_of_library(TWICE).every


def test_values_judged_once_and_computed_ones_are_no_ratings() -> None:
    assert () == ratings_of_library(museum()).every


def test_units_belong_to_their_decision() -> None:
    agreement = agreement_of(ratings_of_library(TWICE))
    found = (agreement.clustered, agreement.units, agreement.decisions, agreement.raw)
    assert (True, 2, 1, F(1, 2)) == found


def test_below_ten_decisions_it_is_too_few_to_say() -> None:
    too_few = agreement_of(ratings_of_library(TWICE)).too_few
    assert too_few is not None
    assert too_few.startswith("Too few to say: 1 decision")


def test_a_person_who_judged_twice_counts_once() -> None:
    library = with_second(**{USE: [{**BY_ENGINEER, "by": "curator"}, BY_ENGINEER]})
    assert ("curator", "engineer") == ratings_of_library(library).raters
    assert [F(3), F(2)] == [rating.score for rating in ratings_of_library(library).every]


def test_a_value_whose_first_judge_is_not_named_is_left_out() -> None:
    library = museum(changes={DECISION: {USE: [BY_ENGINEER], "judged_by": None}})
    assert () == ratings_of_library(library).every


def test_no_score_uses_a_second_judgement() -> None:
    before, after = case_in(museum()), case_in(TWICE)
    assert before.scores == after.scores
    assert before.weighing == after.weighing


def seals(library: Library) -> tuple[str, str] | None:
    record = library.by_id[DECISION_ID].shaped.document.data
    assert isinstance(record, dict)
    return seals_of(case_in(library), library, record)


def test_a_second_judgement_moves_neither_the_seal_nor_the_digest_of_the_words() -> None:
    assert seals(museum()) is not None
    assert seals(museum()) == seals(TWICE)


def test_a_changed_first_judgement_still_moves_the_seal() -> None:
    other = museum(changes={DECISION: {USE: [BY_ENGINEER], "options.0.judged.use.likely": 2}})
    assert seals(museum()) != seals(other)


@pytest.mark.parametrize(
    "options",
    [
        # A hazard, an aspect and an option may bear the names that second judgements are known by.
        [{"id": "one", "answers": {"second": {"because": "Kept"}}}],
        [{"id": "one", "answers": {"judged": {"second": {"because": "Kept"}}}}],
        [{"id": "second", "title": "Kept"}],
        [{"id": "one", "judged": {"second": {"likely": 3, "because": "Kept"}}}],
    ],
)
def test_words_that_are_no_second_judgement_stay_in_the_digest(options: Any) -> None:
    assert words_seal_of(words_of({})) != words_seal_of(words_of({"options": options}))


def test_a_record_of_an_odd_shape_still_has_words() -> None:
    odd = {"options": ["loose", {"judged": ["loose"]}, {"judged": {"form": 3}}], "title": "A title"}
    assert {"title": "A title"} == words_of(odd)


def test_second_judgements_keep_their_range_and_their_reason() -> None:
    second = decision_in(TWICE).options[1].judged
    ((found,),) = [judged.second for aspect, judged in second.items() if judged.second]
    assert (3, 4, 4, "It knocks too much") == (
        found.lowest,
        found.likely,
        found.highest,
        found.because,
    )
