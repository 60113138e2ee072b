"""Where every removed original is: by label, by any word, and never what a museum made."""

from __future__ import annotations

from datetime import date

import pytest

from building import done, museum
from calling import DEMO
from witnessmark.model.library import Library, assemble
from witnessmark.repository.disk import read_museum
from witnessmark.rules.removed import Removed, Seen, removed_parts

ON = date(2026, 1, 1)
OUT = "- {do: remove, part: drum/bush, fate: stored, label: TB-0001, place: store-a}"


def after(*steps: str) -> Library:
    """The museum after one job a text of steps, a month apart."""
    also = {
        f"winch/2023-{number:03}-job.yml": done(
            f"2023-{number:03}", steps=text, ended=f"2023-{number + 6:02}-01"
        )
        for number, text in enumerate(steps, start=1)
    }
    return museum(also=also)


def found(library: Library, query: str = "", *, on: date = ON) -> list[Removed]:
    return list(removed_parts(library, on=on, query=query))


def test_an_original_that_came_off_is_found_with_its_place_and_decision() -> None:
    (one,) = found(after(OUT))
    assert ("TB-0001", "drum/bush", "store-a", "Store A", "2023-001", 1) == (
        one.label, one.address, one.place, one.place_name, one.decision, one.count,
    )  # fmt: skip


def test_it_is_off_from_the_day_the_work_ended_on() -> None:
    library = after(OUT)
    assert [] == found(library, on=date(2023, 6, 30))
    assert ["TB-0001"] == [one.label for one in found(library, on=date(2023, 7, 1))]


def test_what_was_put_back_is_not_off() -> None:
    back = "- {do: refit, part: drum/bush, label: TB-0001}"
    assert [] == found(after(OUT, back))


def test_what_the_museum_made_is_not_listed() -> None:
    assert [] == found(after("- {do: remove, part: drum/guard, fate: stored, label: TB-9}"))


@pytest.mark.parametrize(
    ("fate", "seen"),
    [
        ("displayed", Seen.YES),
        ("study", Seen.ON_ASKING),
        ("stored", Seen.NO),
        ("lost", Seen.GONE),
    ],
)
def test_whether_it_can_be_seen_follows_from_what_became_of_it(fate: str, seen: Seen) -> None:
    (one,) = found(after(f"- {{do: remove, part: drum/bush, fate: {fate}, label: TB-1}}"))
    assert (seen, seen is not Seen.GONE) == (one.seen, one.is_kept)


def test_a_donors_part_is_found_in_the_machine_it_went_to() -> None:
    step = "- {do: fit-from-donor, part: drum/bush, like: same, from: sister/drum/bush, count: 1}"
    (one,) = found(after(step))
    assert ("sister", "winch", Seen.IN_A_MACHINE, False) == (
        one.machine, one.went_to, one.seen, one.is_kept,
    )  # fmt: skip


@pytest.mark.parametrize("query", ["tb-0001", "STORE A", "winch", "drum bush", "2023-001 stored"])
def test_any_words_of_it_find_it(query: str) -> None:
    assert ["TB-0001"] == [one.label for one in found(after(OUT), query)]


def test_every_word_asked_for_has_to_be_there() -> None:
    assert [] == found(after(OUT), "winch barrel")


def test_labels_stand_in_order_and_what_has_none_last() -> None:
    library = after(
        "- {do: remove, part: drum/bolts, count: 2, fate: lost}",
        "- {do: remove, part: drum/shaft, fate: stored, label: tb-2}",
        "- {do: remove, part: drum/bush, fate: stored, label: TB-1}",
    )
    assert ["TB-1", "tb-2", None] == [one.label for one in found(library)]


def test_the_demo_museums_labels_are_those_in_its_files() -> None:
    # Read off `work.as_done` of each done decision by hand; MQ-0211 stands for twelve pads.
    demo = assemble(read_museum(DEMO))
    labels = [one.label for one in found(demo, on=date(2026, 9, 15)) if one.label]
    assert ["MQ-0112", "MQ-0113", "MQ-0121", "MQ-0201", "MQ-0202", "MQ-0204", "MQ-0211"] == labels
