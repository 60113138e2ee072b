"""What is left of each lot, who drew on it, and how long it lasts at the rate so far."""

from __future__ import annotations

from datetime import date

import pytest
from scipy.stats import chi2  # type: ignore[import-untyped]

from building import BASE, DECISION, STORES, changed, done, museum
from witnessmark.model.library import Library
from witnessmark.rules.stock_account import LotAccount, stock_accounts

ON = date(2026, 1, 1)
FIT = "- {do: fit-old-stock, part: drum/bush, like: same, from: bushes, count: 1}"
AGREED = {
    "id": "2023-009",
    "state": "agreed",
    "options.1.steps.1": {
        "do": "fit-old-stock", "part": "drum/bush", "like": "same", "from": "bushes", "count": 2,
    },
}  # fmt: skip


def job(number: int, *, ended: str, steps: str = FIT) -> dict[str, str]:
    name = f"2023-{number:03}"
    return {f"winch/{name}-job.yml": done(name, steps=steps, ended=ended)}


def lot(library: Library, *, on: date = ON) -> LotAccount:
    (one,) = stock_accounts(library, on=on)
    return one


def test_a_lot_nobody_drew_on_is_whole() -> None:
    one = lot(museum())
    assert (3, 3, (), ()) == (one.left, one.free, one.drawn, one.reserved)


def test_each_draw_is_named_with_its_decision_and_day() -> None:
    one = lot(museum(also=job(1, ended="2023-06-30")))
    assert 2 == one.left
    assert [("2023-001", 1, date(2023, 6, 30))] == [
        (draw.decision, draw.count, draw.day) for draw in one.drawn
    ]


def test_two_steps_of_one_decision_are_one_draw() -> None:
    one = lot(museum(also=job(1, ended="2023-06-30", steps=f"{FIT}\n{FIT}")))
    assert [2] == [draw.count for draw in one.drawn]


def test_a_draw_counts_from_the_day_its_work_ended() -> None:
    library = museum(also=job(1, ended="2023-06-30"))
    assert 3 == lot(library, on=date(2023, 6, 29)).left
    assert 2 == lot(library, on=date(2023, 6, 30)).left


def test_a_draw_before_the_count_was_counted_already() -> None:
    assert 3 == lot(museum(also=job(1, ended="2019-06-30"))).left


def test_agreed_work_reserves_and_leaves_the_rest_free() -> None:
    record = changed(BASE[DECISION], AGREED)
    one = lot(museum(also={"winch/2023-009-agreed.yml": record}))
    assert (3, 1, [("2023-009", 2)]) == (
        one.left, one.free, [(draw.decision, draw.count) for draw in one.reserved],
    )  # fmt: skip


def test_the_last_of_its_kind_and_a_decision_owed_are_told() -> None:
    other = {"lots.0.can_be_made": True, "lots.0.purpose": "undecided"}
    library, base = museum(changes={STORES: other}), lot(museum())
    assert (True, False) == (base.is_last_of_its_kind, base.owes_a_decision)
    assert (False, True) == (lot(library).is_last_of_its_kind, lot(library).owes_a_decision)


def test_how_long_it_lasts_is_the_rate_of_draws_with_its_exact_range() -> None:
    # Two draws of one piece each leave one; SciPy's chi-squared gives the Poisson range of two.
    also = {**job(1, ended="2021-01-01"), **job(2, ended="2022-01-01")}
    lasting = lot(museum(also=also)).lasting
    assert lasting is not None
    years = (ON - date(2020, 1, 1)).days / 365.25
    expected = (years / (chi2.ppf(0.95, 6) / 2), years / 2, years / (chi2.ppf(0.05, 4) / 2))
    assert pytest.approx(expected) == (lasting.soonest, lasting.likely, lasting.latest)


def test_draws_of_many_pieces_count_once_and_weigh_as_many() -> None:
    also = job(1, ended="2021-01-01", steps=FIT.replace("count: 1", "count: 2"))
    lasting = lot(museum(also=also)).lasting
    years = (ON - date(2020, 1, 1)).days / 365.25
    assert lasting is not None
    assert 1 == lasting.draws
    assert pytest.approx(years / 2) == lasting.likely


def test_a_lot_never_drawn_on_has_no_end_in_sight_but_a_soonest() -> None:
    lasting = lot(museum()).lasting
    assert lasting is not None
    assert (None, None) == (lasting.likely, lasting.latest)
    years = (ON - date(2020, 1, 1)).days / 365.25
    assert pytest.approx(3 * years / (chi2.ppf(0.95, 2) / 2)) == lasting.soonest


@pytest.mark.parametrize("purpose", ["collection", "teaching", "pass-on"])
def test_what_is_not_to_be_used_up_is_not_asked_how_long_it_lasts(purpose: str) -> None:
    assert None is lot(museum(changes={STORES: {"lots.0.purpose": purpose}})).lasting


@pytest.mark.parametrize("day", [date(2020, 1, 1), date(2019, 1, 1)])
def test_nothing_is_said_before_any_time_has_passed(day: date) -> None:
    assert None is lot(museum(), on=day).lasting


def test_an_empty_lot_lasts_no_time_at_all() -> None:
    also = job(1, ended="2021-01-01", steps=FIT.replace("count: 1", "count: 3"))
    one = lot(museum(also=also))
    assert (0, None) == (one.left, one.lasting)
