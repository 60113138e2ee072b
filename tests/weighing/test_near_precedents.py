"""Which earlier decisions ask nearly the same and were decided otherwise.

The museum of the test bench, whose sister winch runs here too. Likeness by hand: kinds of option 3,
way of keeping 2, words of the part 2, of the material 1 where both name it.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from building import BASE, DECISION, DECISION_ID, DONOR, changed, decision_in, museum
from witnessmark.model.library import Library
from witnessmark.weighing.near import decided_otherwise
from witnessmark.weighing.precedents import earlier_agreed

F = Fraction
EARLIER = "sister/2023-001-drum-bush.yml"
RUNS = {DONOR: {"kept": [{"from": "2015-01-01", "as": "running"}]}}


def earlier(**other: object) -> str:
    """The bench's decision, a year before, about the sister winch, which was left as it was."""
    also = {"id": "2023-001", "opened": "2023-02-11", "state": "agreed", "choice.option": "leave"}
    return changed(BASE[DECISION], {**also, **other})


def found_in(library: Library) -> list[tuple[str, F | None]]:
    near = decided_otherwise(decision_in(library), "winch", library)
    return [(each.decision.id, each.likeness.similarity) for each in near]


def test_the_same_question_decided_otherwise_on_another_machine_is_near() -> None:
    library = museum(changes=RUNS, also={EARLIER: earlier()})
    assert [("2023-001", F(1))] == found_in(library)


@pytest.mark.parametrize(
    ("other", "reason"),
    [
        ({"choice.option": "rebush"}, "it was decided alike"),
        ({"opened": "2025-01-01"}, "it is later"),
        ({"state": "for-review"}, "it was not agreed"),
        ({"state": "replaced"}, "it no longer stands"),
        ({"options.1.kind": "repair", "options.2.kind": "service"}, "its options are others"),
    ],
)
def test_a_decision_is_no_near_precedent_where(other: dict[str, object], reason: str) -> None:
    library = museum(changes=RUNS, also={EARLIER: earlier(**other)})
    assert [] == found_in(library), reason


def test_a_machine_kept_otherwise_asks_another_question() -> None:
    # 5 of 7 alike: all but the way of keeping.
    assert [] == found_in(museum(also={EARLIER: earlier()}))


def test_half_of_the_words_of_the_part_are_enough() -> None:
    changes = {DONOR: {**RUNS[DONOR], "assemblies.0.parts.0.name": "Drum"}}
    library = museum(changes=changes, also={EARLIER: earlier()})
    # (3 + 2 + 2 x 1/2) / 7
    assert [("2023-001", F(6, 7))] == found_in(library)


def test_of_a_question_asked_alike_only_the_latest_answer_counts() -> None:
    again = "sister/2023-002-drum-bush.yml"
    later = earlier(id="2023-002", opened="2023-05-01")
    library = museum(changes=RUNS, also={EARLIER: earlier(), again: later})
    assert [("2023-002", F(1))] == found_in(library)


def test_nothing_is_near_while_nothing_is_chosen() -> None:
    library = museum(changes={**RUNS, DECISION: {"choice": None}}, also={EARLIER: earlier()})
    assert [] == found_in(library)


@pytest.mark.parametrize(
    ("state", "expected"), [("agreed", ["2023-001"]), ("replaced", ["2023-001"]), ("draft", [])]
)
def test_earlier_decisions_count_once_agreed(state: str, expected: list[str]) -> None:
    library = museum(changes=RUNS, also={EARLIER: earlier(state=state)})
    past = earlier_agreed(decision_in(library, DECISION_ID), library)
    assert expected == [entry.id for entry in past]
