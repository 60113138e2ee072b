"""How a decision changed, in sentences for its page: nobody named, nothing quoted from drafts."""

from __future__ import annotations

from datetime import date

from building import BASE, DECISION, GONE, changed, decision_in, museum
from witnessmark.model.decision import Decision
from witnessmark.weighing.changes import Told, how_it_changed

FIRST, SECOND, THIRD = date(2024, 2, 11), date(2024, 2, 20), date(2024, 3, 2)


def _version(changes: dict[str, object]) -> Decision:
    return decision_in(museum(also={DECISION: changed(BASE[DECISION], changes)}))


def _told(*versions: dict[str, object]) -> tuple[Told, ...]:
    days = (FIRST, SECOND, THIRD)
    return how_it_changed(
        [(day, _version(changes)) for day, changes in zip(days, versions, strict=False)]
    )


def test_a_record_with_one_version_was_written_down() -> None:
    assert (Told(FIRST, ("Written down, as for review.",)),) == _told({})


def test_a_version_that_changed_no_meaning_is_left_out() -> None:
    assert [FIRST, THIRD] == [told.day for told in _told({}, {}, {"state": "draft"})]


def test_a_changed_level_and_a_changed_risk_are_told_with_both_sides() -> None:
    _, second = _told(
        {}, {"options.0.judged.use.likely": 2, "options.1.answers.lifting.after": "2D"}
    )
    expected = (
        "Use went from 3 to 2 for: Leave the bush as it is.",
        (
            'The risk left went from 2E to 2D for "The drum slips while it is lifted out" under: '
            "A new bush to the old size."
        ),
    )
    assert expected == second.sentences


def test_an_option_that_was_dropped_is_not_quoted() -> None:
    _, second = _told({"options.2.title": "A secret idea"}, {"options.2": GONE})
    assert ("An option was taken out: an option that was dropped later.",) == second.sentences


def test_no_person_and_no_private_note_is_told() -> None:
    told = _told(
        {}, {"note": "Ring the giver", "proposed_by": "engineer", "judged_by.by": "fitter"}
    )
    assert 1 == len(told)


def test_an_agreement_is_told_by_roles() -> None:
    signed = {
        "role": "collections",
        "by": "curator",
        "date": "2024-03-02",
        "seal": "-",
        "words": "-",
    }
    _, second = _told({}, {"agreed": [signed], "state": "agreed"})
    assert ("From for review to agreed.", "Agreed to by collections.") == second.sentences
