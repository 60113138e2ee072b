"""How much original material an option leaves: the check values and what each kind of step does.

The table and its check values are the museum's own judgement (no outside source); the figures here
were worked by hand from the formula 4 x (3/4 x worst + 1/4 x mean).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from building import option, pieces
from witnessmark.model.policy import FabricPolicy, FabricTable
from witnessmark.model.position import Pieces
from witnessmark.model.words import MadeTo, Origin
from witnessmark.scoring.fabric import Fabric, Scope, one_percent, reckon_fabric
from witnessmark.scoring.score import Score, Withheld
from witnessmark.scoring.undo import DEFAULT_UNDO, reckon_undo, undo_levels

F = Fraction
LAST, WEAR = MadeTo.LAST, MadeTo.WEAR

KEPT_ALIKE = """\
steps:
  - {do: remove, part: a/bush, fate: stored}
  - {do: fit-new, part: a/bush, like: same}
"""


def scope_of(worked_on: dict[str, Pieces], *, of: int | None = None) -> Scope:
    """These places, and as many untouched ones beside them as make up the number."""
    places = {address: (here,) for address, here in worked_on.items()}
    beside = (of or len(places)) - len(places)
    return places | {f"a/other-{n}": (pieces(made_to=LAST),) for n in range(beside)}


def fabric(text: str, scope: Scope, policy: FabricPolicy | None = None) -> Fabric:
    """The fabric of an option, its undo levels being those of the usual table."""
    written = option(text)
    undoing = reckon_undo(
        written,
        pieces_at=lambda address: scope.get(address, ()),
        donor_at=lambda _: (),
        table=DEFAULT_UNDO,
        stock={},
    )
    levels = undo_levels(undoing)
    return reckon_fabric(written, scope=scope, policy=policy or FabricPolicy(), undo_of=levels)


def level(text: str, scope: Scope, policy: FabricPolicy | None = None) -> Fraction:
    score = fabric(text, scope, policy).score
    assert isinstance(score, Score), score
    assert score.low == score.likely == score.high
    return score.likely


def share(text: str, part: Pieces) -> Fraction:
    """What is left of the one place a/bush as evidence."""
    (only,) = fabric(text, {"a/bush": (part,)}).treated
    return only.share


@pytest.mark.parametrize(("addresses", "expected"), [(1, F(3)), (4, F(51, 16))])
def test_a_bush_renewed_alike_and_kept_has_its_check_value(
    addresses: int, expected: Fraction
) -> None:
    assert expected == level(KEPT_ALIKE, scope_of({"a/bush": pieces()}, of=addresses))


@pytest.mark.parametrize("addresses", [1, 2, 4, 10, 100, 2000])
def test_a_bush_renewed_alike_and_kept_stays_under_three_and_a_quarter(addresses: int) -> None:
    assert level(KEPT_ALIKE, scope_of({"a/bush": pieces()}, of=addresses)) < F(13, 4)


@pytest.mark.parametrize(("addresses", "expected"), [(2, F(5, 4)), (4, F(3, 2))])
def test_a_bored_housing_with_its_bush_renewed_has_its_check_value(
    addresses: int, expected: Fraction
) -> None:
    text = KEPT_ALIKE + "  - {do: machine, part: a/housing}\n"
    parts = {"a/bush": pieces(), "a/housing": pieces(made_to=LAST)}
    assert expected == level(text, scope_of(parts, of=addresses))


@pytest.mark.parametrize(
    ("addresses", "expected"), [(1, F(23, 6)), (2, 4 * (F(3, 4) * F(23, 24) + F(1, 4) * F(47, 48)))]
)
def test_one_bolt_lost_of_twenty_four_has_its_check_value(
    addresses: int, expected: Fraction
) -> None:
    text = "steps: [{do: remove, part: a/bolts, count: 1, fate: lost}]"
    scope = scope_of({"a/bolts": pieces(made_to=LAST, count=24)}, of=addresses)
    assert expected == level(text, scope)


def test_one_bolt_lost_of_twenty_four_beside_another_part_is_printed_as_3_8542() -> None:
    text = "steps: [{do: remove, part: a/bolts, count: 1, fate: lost}]"
    scope = scope_of({"a/bolts": pieces(made_to=LAST, count=24)}, of=2)
    expected = "3.8542"
    assert expected == f"{float(level(text, scope)):.4f}"


def test_a_last_known_part_that_is_lost_makes_the_score_nought() -> None:
    text = "steps: [{do: remove, part: a/bush, fate: lost}]"
    scope = scope_of({"a/bush": pieces(last_known=True)}, of=50)
    assert level(text, scope) == 0


def test_a_last_known_part_that_is_kept_is_reckoned_like_any_other() -> None:
    scope = scope_of({"a/bush": pieces(last_known=True)})
    assert level(KEPT_ALIKE, scope) == 3


def test_one_of_several_last_known_pieces_lost_makes_the_score_nought() -> None:
    text = "steps: [{do: remove, part: a/bush, count: 1, fate: lost}]"
    assert level(text, scope_of({"a/bush": pieces(count=3, last_known=True)})) == 0


def test_with_nothing_original_in_scope_the_score_is_4_and_says_so() -> None:
    made = pieces(origin=Origin.MUSEUM_MADE)
    score = fabric("steps: [{do: remove, part: a/bush, fate: lost}]", {"a/bush": (made,)}).score
    assert Score.exactly(4, "Nothing original is in scope.") == score


@pytest.mark.parametrize(
    "out_of_scope",
    [pieces(origin=Origin.MUSEUM_MADE), pieces(made_to=MadeTo.BE_USED_UP)],
    ids=["museum-made", "be-used-up"],
)
def test_what_is_no_evidence_is_left_out_of_worst_and_mean(out_of_scope: Pieces) -> None:
    scope = {**scope_of({"a/bush": pieces()}), "a/felt": (out_of_scope,)}
    text = KEPT_ALIKE + "  - {do: remove, part: a/felt, fate: lost}\n"
    found = fabric(text, scope)
    assert ["a/bush"] == [t.address for t in found.treated]
    assert Score.exactly(3).likely == level(text, scope)


@pytest.mark.parametrize("origin", [Origin.AS_BUILT, Origin.IN_SERVICE, Origin.UNKNOWN])
def test_every_other_origin_counts_as_original(origin: Origin) -> None:
    part = pieces(made_to=LAST, origin=origin)
    assert level("steps: [{do: remove, part: a/bush, fate: lost}]", {"a/bush": (part,)}) == 0


ONE_PART = {
    "untouched": ("", F(1), F(1)),
    "undo 4": ("steps: [{do: grind, part: a/bush, undo: 4, because: Dust}]", F(1), F(1)),
    "out and back": (
        "steps: [{do: remove, part: a/bush}, {do: refit, part: a/bush}]",
        F(1),
        F(1),
    ),
    "altered, undo 3": ("steps: [{do: sleeve, part: a/bush}]", F(3, 4), F(3, 4)),
    "altered, undo 2": ("steps: [{do: hone, part: a/bush}]", F(3, 4), F(3, 4)),
    "altered, undo 1": ("steps: [{do: grind, part: a/bush}]", F(1, 4), F(1, 2)),
    "altered, undo 0": (
        "steps: [{do: grind, part: a/bush, undo: 0, because: Gone}]",
        F(1, 4),
        F(1, 2),
    ),
    "kept, alike": (KEPT_ALIKE, F(1, 2), F(3, 4)),
    "kept, unlike": (KEPT_ALIKE.replace("same", "unlike"), F(1, 2), F(1, 2)),
    "kept, no successor": (
        "steps: [{do: remove, part: a/bush, fate: stored}]",
        F(1, 2),
        F(1, 2),
    ),
    "lost": ("steps: [{do: remove, part: a/bush, fate: lost}]", F(0), F(1, 2)),
    "lost, alike": (KEPT_ALIKE.replace("stored", "lost"), F(0), F(1, 2)),
}


@pytest.mark.parametrize("case", ONE_PART)
def test_each_row_of_the_table_is_read_for_parts_made_to_last_and_to_wear(case: str) -> None:
    text, last, wear = ONE_PART[case]
    assert last == share(text, pieces(made_to=LAST))
    assert wear == share(text, pieces(made_to=WEAR))


@pytest.mark.parametrize(("made_to", "expected"), [(LAST, F(0)), (WEAR, F(1, 4))])
def test_a_lost_part_not_known_to_be_made_again_is_gone_for_good(
    made_to: MadeTo, expected: Fraction
) -> None:
    text = "steps: [{do: remove, part: a/bush, fate: lost}]"
    assert expected == share(text, pieces(made_to=made_to, can_be_made=False))
    assert expected == share(text, pieces(made_to=made_to, can_be_made="unknown"))


@pytest.mark.parametrize("fate", ["stored", "displayed", "study"])
def test_stored_displayed_and_for_study_are_all_kept(fate: str) -> None:
    assert F(3, 4) == share(KEPT_ALIKE.replace("stored", fate), pieces())


@pytest.mark.parametrize(
    "verb",
    [
        "clean",
        "adjust",
        "lubricate",
        "change-lubricant",
        "dismantle",
        "refit",
        "charge",
        "add",
        "lock-out",
        "move",
    ],
)
def test_verbs_that_leave_the_metal_alone_take_nothing(verb: str) -> None:
    assert share(f"steps: [{{do: {verb}, part: a/bush}}]", pieces(made_to=LAST)) == 1


@pytest.mark.parametrize(
    "verb",
    [
        "sleeve",
        "coat",
        "seal",
        "hone",
        "machine",
        "grind",
        "drill",
        "weld",
        "build-up",
        "heat",
        "mark",
    ],
)
def test_verbs_that_alter_take_something(verb: str) -> None:
    assert share(f"steps: [{{do: {verb}, part: a/bush}}]", pieces(made_to=LAST)) < 1


@pytest.mark.parametrize(
    "verb",
    [
        "{do: fit-new, part: a/bush, like: same}",
        "{do: fit-old-stock, part: a/bush, like: same, from: bushes}",
        "{do: fit-from-donor, part: a/bush, like: same, from: sister/drum/bush}",
    ],
)
def test_each_of_the_three_fits_gives_a_successor(verb: str) -> None:
    text = f"steps: [{{do: remove, part: a/bush, fate: stored}}, {verb}]"
    assert F(3, 4) == share(text, pieces())


def test_a_fit_without_a_removal_says_nothing_of_the_part_that_sits_there() -> None:
    assert share("steps: [{do: fit-new, part: a/bush, like: same}]", pieces()) == 1


def test_altered_and_taken_out_is_the_product() -> None:
    text = """\
steps:
  - {do: machine, part: a/bush}
  - {do: remove, part: a/bush, fate: stored}
  - {do: fit-new, part: a/bush, like: unlike}
"""
    assert F(1, 4) * F(1, 2) == share(text, pieces(made_to=LAST))


def test_altered_on_the_bench_and_put_back_is_altered() -> None:
    text = """\
steps:
  - {do: remove, part: a/bush}
  - {do: hone, part: a/bush}
  - {do: refit, part: a/bush}
"""
    assert F(3, 4) == share(text, pieces())


def test_altered_twice_counts_once_at_the_worse() -> None:
    text = "steps: [{do: hone, part: a/bush}, {do: grind, part: a/bush}, {do: hone, part: a/bush}]"
    assert F(1, 4) == share(text, pieces(made_to=LAST))


def test_what_is_done_to_the_new_part_is_not_laid_on_the_old_one() -> None:
    text = KEPT_ALIKE + "  - {do: drill, part: a/bush}\n"
    assert F(3, 4) == share(text, pieces())


def test_a_consequence_alters_like_a_step() -> None:
    text = "consequences: [{part: a/bush, becomes: scored, undo: 1, because: It runs dry}]"
    assert F(1, 4) == share(text, pieces(made_to=LAST))


def test_a_consequence_that_can_be_put_right_costs_less() -> None:
    text = "consequences: [{part: a/bush, becomes: dull, undo: 2, because: It stands}]"
    assert F(3, 4) == share(text, pieces(made_to=LAST))


def test_a_consequence_of_a_few_pieces_touches_only_those() -> None:
    text = "consequences: [{part: a/bush, becomes: bent, count: 1, undo: 1, because: Knocks}]"
    assert (F(1, 4) + 3) / 4 == share(text, pieces(made_to=LAST, count=4))


def test_counts_split_one_place_and_first_ones_go_first() -> None:
    text = """\
steps:
  - {do: remove, part: a/bush, count: 2, fate: lost}
  - {do: remove, part: a/bush, count: 3, fate: stored}
  - {do: fit-new, part: a/bush, count: 5, like: same}
"""
    expected = (2 * F(0) + 3 * F(1, 2) + 5 * F(1)) / 10
    assert expected == share(text, pieces(made_to=LAST, count=10))


def test_a_count_larger_than_what_is_there_touches_all_of_it() -> None:
    text = "steps: [{do: remove, part: a/bush, count: 9, fate: lost}]"
    assert share(text, pieces(made_to=LAST, count=4)) == 0


def test_a_step_on_several_parts_acts_on_each() -> None:
    text = "steps: [{do: grind, parts: [a/bush, a/pin]}]"
    scope = {"a/bush": (pieces(made_to=LAST),), "a/pin": (pieces(made_to=LAST),)}
    assert [F(1, 4), F(1, 4)] == [t.share for t in fabric(text, scope).treated]


def test_exchanged_parts_lose_nothing() -> None:
    text = "steps: [{do: exchange, parts: [a/left, a/right]}]"
    scope = {"a/left": (pieces(made_to=LAST),), "a/right": (pieces(made_to=LAST),)}
    assert level(text, scope) == 4


def test_what_is_done_after_an_exchange_is_laid_on_the_part_that_sits_there_now() -> None:
    text = "steps: [{do: exchange, parts: [a/left, a/right]}, {do: grind, part: a/left}]"
    left, right = pieces(made_to=LAST, name="From the left"), pieces(name="From the right")
    treated = fabric(text, {"a/left": (left,), "a/right": (right,)}).treated
    expected = {"From the left": F(1), "From the right": F(1, 2)}
    assert expected == {place.name: place.share for place in treated}


def test_an_original_that_changes_places_with_a_new_part_stays_in_scope() -> None:
    text = "steps: [{do: exchange, parts: [a/left, a/right]}, {do: grind, part: a/right}]"
    old, new = pieces(made_to=LAST), pieces(made_to=LAST, origin=Origin.MUSEUM_MADE)
    found = fabric(text, {"a/left": (old,), "a/right": (new,)})
    assert [("a/right", F(1, 4))] == [(t.address, t.share) for t in found.treated]


def test_while_it_is_not_said_what_becomes_of_a_part_the_score_is_withheld() -> None:
    score = fabric("steps: [{do: remove, part: a/bush}]", {"a/bush": (pieces(),)}).score
    assert Withheld(("It is not said what becomes of a/bush.",)) == score


def test_both_terms_are_printed() -> None:
    score = fabric(KEPT_ALIKE, scope_of({"a/bush": pieces(name="Bush")}, of=4)).score
    assert isinstance(score, Score)
    expected = (
        "Bush: taken out and kept, replaced alike (75 % of it left as evidence).",
        "4 x (3/4 x worst 75 % + 1/4 x mean 94 % over 4 parts) = 3.2.",
    )
    assert expected == score.facts


def test_pieces_treated_alike_are_told_together() -> None:
    here = (pieces(count=2), pieces(count=3), pieces(count=1))
    text = "steps: [{do: remove, part: a/bush, count: 5, fate: stored}]"
    (only,) = fabric(text, {"a/bush": here}).treated
    assert "5 of 6 taken out and kept, not replaced" == only.what
    (untouched,) = fabric("", {"a/bush": here}).treated
    assert "stays as it is" == untouched.what


def test_table_and_share_of_the_worst_are_the_policy_s() -> None:
    table = FabricTable.model_validate({"kept_successor_alike": {"last": "1/2", "wear": "1/5"}})
    policy = FabricPolicy(worst=F(1, 2), table=table)
    expected = 4 * (F(1, 2) * F(1, 5) + F(1, 2) * F(3, 5))
    assert expected == level(KEPT_ALIKE, scope_of({"a/bush": pieces()}, of=2), policy)


@pytest.mark.parametrize(
    ("of_it", "expected"),
    [
        (F(0), "0 %"),
        (F(1, 1000), "under 1 %"),
        (F(1, 200), "1 %"),
        (F(23, 24), "96 %"),
        (F(399, 400), "over 99 %"),
        (F(1), "100 %"),
    ],
)
def test_a_share_is_never_shown_as_0_or_100_unless_it_is(of_it: Fraction, expected: str) -> None:
    assert expected == one_percent(of_it)
