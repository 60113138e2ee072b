"""What sits in every place of a machine on a day, what has come off, and what old stock is left."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from building import (
    DECISION,
    MACHINE,
    STORES,
    decision_in,
    done,
    museum,
    plainly,
)
from witnessmark.model.library import Library
from witnessmark.model.position import Pieces, Position, position_on, stock_left, works_done
from witnessmark.model.words import Fate, MadeTo, Origin
from witnessmark.scoring.scores import ground_of

RENEW = """\
- {do: remove, part: drum/bush, fate: stored, label: TB-0009, place: store-a}
- {do: fit-new, part: drum/bush, like: same}
"""
LATER = date(2030, 1, 1)


def works(*texts: str, changes: Any = None, **files: str) -> Library:
    """The base museum with these records of work beside its own decision."""
    also = {f"winch/{plainly(text)['id']}-work.yml": text for text in texts}
    return museum(also=also | files, changes=changes or {})


def here(library: Library, address: str = "drum/bush", day: date | None = LATER) -> list[Pieces]:
    return list(position_on(library, "winch", day).places[address])


def origins(library: Library, address: str = "drum/bush", day: date | None = LATER) -> list[Origin]:
    return [one.origin for one in here(library, address, day)]


def counts(library: Library, address: str) -> list[tuple[int, str]]:
    return [(one.count, one.origin.value) for one in here(library, address)]


def test_without_work_the_position_is_that_of_the_machine_file() -> None:
    position = position_on(museum(), "winch")
    (bolts,) = position.places["drum/bolts"]
    assert (24, Origin.IN_SERVICE, MadeTo.LAST) == (bolts.count, bolts.origin, bolts.made_to)
    assert position.off == ()
    assert 8 == len(position.places)


def test_a_machine_nobody_described_has_no_places() -> None:
    assert Position("ghost", {}) == position_on(museum(), "ghost")


def test_the_mass_of_one_piece_is_that_of_the_set_divided() -> None:
    library = museum(changes={MACHINE: {"assemblies.0.parts.2.mass": "6 kg"}})
    (bolts,) = here(library, "drum/bolts")
    assert Fraction(1, 4) == bolts.kilograms_each


def test_work_that_is_done_changes_the_position() -> None:
    library = works(done("2023-001", steps=RENEW))
    (bush,) = here(library)
    assert (Origin.MUSEUM_MADE, "2023-001") == (bush.origin, bush.fitted_by)
    assert (MadeTo.WEAR, True) == (bush.made_to, bush.can_be_made)
    (off,) = position_on(library, "winch").off
    assert ("TB-0009", Fate.STORED, "store-a") == (off.pieces.label, off.fate, off.place)
    assert ("drum/bush", date(2023, 6, 30)) == (off.address, off.day)


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        (date(2023, 6, 29), Origin.AS_BUILT),
        (date(2023, 6, 30), Origin.AS_BUILT),
        (date(2023, 7, 1), Origin.MUSEUM_MADE),
        (None, Origin.MUSEUM_MADE),
    ],
)
def test_only_work_ended_before_the_day_counts(day: date | None, expected: Origin) -> None:
    assert [expected] == origins(works(done("2023-001", steps=RENEW)), day=day)


@pytest.mark.parametrize("state", ["draft", "for-review", "agreed", "under-way", "withdrawn"])
def test_work_counts_only_when_it_is_done(state: str) -> None:
    assert [Origin.AS_BUILT] == origins(works(done("2023-001", steps=RENEW, state=state)))


def test_work_of_a_decision_that_was_replaced_later_still_counts() -> None:
    library = works(done("2023-001", steps=RENEW, state="replaced"))
    assert [Origin.MUSEUM_MADE] == origins(library)


def test_work_that_ended_before_the_machine_file_s_day_is_in_that_file_already() -> None:
    assert [Origin.AS_BUILT] == origins(works(done("2019-001", steps=RENEW, ended="2019-12-31")))


def test_a_decision_never_counts_its_own_work() -> None:
    text = done("2023-001", steps=RENEW)
    library = works(text)
    (bush,) = position_on(library, "winch", LATER, without="2023-001").places["drum/bush"]
    assert Origin.AS_BUILT is bush.origin
    ground = ground_of(decision_in(library, "2023-001"), "winch", library)
    assert ground is not None
    assert [Origin.AS_BUILT] == [one.origin for one in ground.places["drum/bush"]]


OUT = "- {do: remove, part: drum/bush, fate: stored, label: TB-%s}\n"
IN = "- {do: fit-new, part: drum/bush, like: same, what: From %s}\n"


def test_work_that_ended_on_one_day_is_laid_by_decision_id() -> None:
    first, second = (
        done(name, steps=OUT % name[-1] + IN % name[-1]) for name in ("2023-001", "2023-002")
    )
    for library in (works(first, second), works(second, first)):
        assert ["2023-001", "2023-002"] == [one.decision for one in works_done(library)]
        assert ["From 2"] == [one.name for one in here(library)]
        off = position_on(library, "winch").off
        assert [("TB-1", "Drum bush"), ("TB-2", "From 1")] == [
            (one.pieces.label, one.pieces.name) for one in off
        ]


def test_an_earlier_day_comes_first_whatever_the_id() -> None:
    late = done("2023-001", steps=OUT % 1 + IN % 1, ended="2023-06-30")
    early = done("2023-002", steps=OUT % 2 + IN % 2, ended="2023-06-29")
    assert ["From 1"] == [one.name for one in here(works(late, early))]


def test_a_count_takes_only_so_many_and_leaves_the_rest() -> None:
    steps = """\
- {do: remove, part: drum/bolts, count: 4, fate: lost}
- {do: fit-new, part: drum/bolts, count: 4, like: same}
"""
    library = works(done("2023-001", steps=steps))
    assert [(20, "in-service"), (4, "museum-made")] == counts(library, "drum/bolts")


def test_a_fit_without_a_count_fits_as_many_as_came_out() -> None:
    steps = """\
- {do: remove, part: drum/bolts, count: 3, fate: lost}
- {do: fit-new, part: drum/bolts, like: same}
"""
    library = works(done("2023-001", steps=steps))
    assert [(21, "in-service"), (3, "museum-made")] == counts(library, "drum/bolts")


def test_originals_come_out_first() -> None:
    two = """\
- {do: remove, part: drum/bolts, count: 4, fate: stored}
- {do: fit-new, part: drum/bolts, count: 4, like: same}
"""
    library = works(done("2023-001", steps=two), done("2023-002", steps=two, ended="2023-07-30"))
    assert [(16, "in-service"), (4, "museum-made"), (4, "museum-made")] == counts(
        library, "drum/bolts"
    )


def test_what_was_taken_out_goes_back_by_its_label() -> None:
    back = """\
- {do: remove, part: drum/bush, fate: stored, label: TB-0010}
- {do: refit, part: drum/bush, label: tb-0009}
"""
    library = works(done("2023-001", steps=RENEW), done("2023-002", steps=back, ended="2023-09-01"))
    (bush,) = here(library)
    assert (Origin.AS_BUILT, "TB-0009") == (bush.origin, bush.label)
    (off,) = position_on(library, "winch").off
    assert ("TB-0010", Origin.MUSEUM_MADE) == (off.pieces.label, off.pieces.origin)


def test_without_a_label_a_refit_puts_back_what_the_same_work_took_out() -> None:
    steps = "- {do: remove, part: drum/bush}\n- {do: refit, part: drum/bush}\n"
    library = works(
        done("2023-001", steps=RENEW), done("2023-002", steps=steps, ended="2023-09-01")
    )
    (bush,) = here(library)
    assert (Origin.MUSEUM_MADE, "2023-001") == (bush.origin, bush.fitted_by)
    assert ["TB-0009"] == [off.pieces.label for off in position_on(library, "winch").off]


def test_labels_are_given_in_the_order_of_the_parts() -> None:
    steps = "- {do: remove, parts: [frame/left, frame/right], fate: stored, labels: [L-1, R-1]}\n"
    off = position_on(works(done("2023-001", steps=steps)), "winch").off
    assert [("frame/left", "L-1"), ("frame/right", "R-1")] == [
        (one.address, one.pieces.label) for one in off
    ]


def test_an_exchange_lets_two_places_swap() -> None:
    steps = "- {do: exchange, parts: [frame/left, frame/right]}\n"
    library = works(done("2023-001", steps=steps))
    assert ["Right cheek"] == [one.name for one in here(library, "frame/left")]
    assert ["Left cheek"] == [one.name for one in here(library, "frame/right")]


def donated(steps: str, name: str = "2023-001", **given: str) -> str:
    return done(name, steps=steps, **given)


DONATE = """\
- {do: remove, part: drum/bush, fate: stored, label: TB-0009}
- {do: fit-from-donor, part: drum/bush, count: 1, like: same, from: sister/drum/bush}
"""


def test_a_donor_s_part_leaves_the_donor() -> None:
    library = works(donated(DONATE))
    sister = position_on(library, "sister", LATER)
    assert [1] == [one.count for one in sister.places["drum/bush"]]
    (off,) = sister.off
    assert ("winch", 1, "2023-001") == (off.went_to, off.pieces.count, off.decision)
    (bush,) = here(library)
    assert (Origin.AS_BUILT, "sister") == (bush.origin, bush.donor)


def test_a_donor_gives_one_for_each_place_that_takes_one() -> None:
    steps = (
        "- {do: fit-from-donor, parts: [frame/left, frame/right], count: 1, like: unlike,"
        " from: sister/drum/bush}\n"
    )
    library = works(donated(steps))
    assert () == position_on(library, "sister", LATER).places["drum/bush"]


def test_what_a_donor_gives_is_what_sat_there_on_the_day() -> None:
    renewed = done(
        "2023-001",
        steps="- {do: remove, part: drum/bush, fate: lost}\n"
        "- {do: fit-new, part: drum/bush, count: 2, like: same}\n",
    )
    given = donated(DONATE, "2023-002", ended="2023-09-01")
    library = museum(also={"sister/2023-001-a.yml": renewed, "winch/2023-002-b.yml": given})
    assert [Origin.MUSEUM_MADE] == origins(library)


def test_a_part_from_a_place_nobody_described_is_of_unknown_origin() -> None:
    library = works(donated(DONATE.replace("sister/drum/bush", "ghost/drum/bush")))
    assert [Origin.UNKNOWN] == origins(library)


OLD_STOCK = """\
- {do: remove, part: drum/bush, fate: stored, label: TB-0009}
- {do: fit-old-stock, part: drum/bush, count: 1, like: same, from: bushes}
"""


def test_old_stock_keeps_the_origin_of_its_lot() -> None:
    library = works(
        done("2023-001", steps=OLD_STOCK), changes={STORES: {"lots.0.origin": "in-service"}}
    )
    (bush,) = here(library)
    assert (Origin.IN_SERVICE, "bushes") == (bush.origin, bush.lot)


@pytest.mark.parametrize(
    ("day", "expected"), [(date(2023, 6, 30), 3), (date(2023, 7, 1), 2), (LATER, 2)]
)
def test_old_stock_is_drawn_when_the_work_is_done(day: date, expected: int) -> None:
    assert expected == stock_left(works(done("2023-001", steps=OLD_STOCK)), "bushes", day)


def test_a_decision_never_counts_what_it_drew_itself() -> None:
    library = works(done("2023-001", steps=OLD_STOCK))
    assert stock_left(library, "bushes", LATER, without="2023-001") == 3


@pytest.mark.parametrize(
    ("state", "expected"),
    [("draft", 3), ("for-review", 3), ("agreed", 1), ("under-way", 1), ("withdrawn", 3)],
)
def test_an_agreed_or_under_way_decision_reserves_what_its_choice_draws(
    state: str, expected: int
) -> None:
    steps = [
        {"do": "fit-old-stock", "part": "drum/bush", "count": 2, "like": "same", "from": "bushes"}
    ]
    library = museum(changes={DECISION: {"options.1.steps": steps, "state": state}})
    assert stock_left(library, "bushes", LATER) == 3
    assert expected == stock_left(library, "bushes", LATER, reserved=True)
    assert stock_left(library, "bushes", LATER, reserved=True, without="2024-001") == 3


def test_only_the_chosen_option_reserves() -> None:
    steps = [{"do": "fit-old-stock", "part": "drum/bush", "like": "same", "from": "bushes"}]
    library = museum(changes={DECISION: {"options.0.steps": steps, "state": "agreed"}})
    assert stock_left(library, "bushes", LATER, reserved=True) == 3


def test_stock_drawn_before_the_stores_were_counted_is_not_drawn_again() -> None:
    library = works(done("2019-001", steps=OLD_STOCK, ended="2019-12-31"))
    assert stock_left(library, "bushes", LATER) == 3


def test_a_step_on_two_parts_draws_for_both() -> None:
    steps = "- {do: fit-old-stock, parts: [frame/left, frame/right], like: same, from: bushes}\n"
    assert stock_left(works(done("2023-001", steps=steps)), "bushes", LATER) == 1


def test_a_lot_nobody_entered_has_nothing_left() -> None:
    assert stock_left(museum(), "ghosts", LATER) == 0
    assert stock_left(museum(without=(STORES,)), "bushes", LATER) == 0


def test_every_piece_is_in_a_place_or_off() -> None:
    steps = """\
- {do: remove, part: drum/bolts, count: 5, fate: lost}
- {do: remove, parts: [frame/left, drum/bush], fate: stored, labels: [A-1, A-2]}
- {do: exchange, parts: [frame/left, frame/right]}
- {do: refit, part: drum/shaft, label: A-1}
"""
    library = works(done("2023-001", steps=steps))
    position = position_on(library, "winch")
    inside = sum(one.count for here in position.places.values() for one in here)
    outside = sum(off.pieces.count for off in position.off)
    listed = sum(part.count for _, _, part in library.machines["winch"].parts())
    assert listed == inside + outside
