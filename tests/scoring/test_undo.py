"""How far a later generation can undo an option: the levels by verb and each special case.

Levels and special cases are the museum's own judgement (no outside source).
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from building import DECISION, case_in, museum, option, pieces
from witnessmark.model.position import Pieces
from witnessmark.model.words import Do, MadeTo, Origin
from witnessmark.scoring.score import Score, Withheld
from witnessmark.scoring.undo import DEFAULT_UNDO, Stock, Undo, Undoing, reckon_undo, undo_levels

LEVEL_BY_VERB = {
    "adjust": 4,
    "lubricate": 4,
    "dismantle": 4,
    "refit": 4,
    "exchange": 4,
    "charge": 4,
    "add": 4,
    "lock-out": 4,
    "move": 4,
    "clean": 3,
    "fit-new": 3,
    "fit-old-stock": 3,
    "sleeve": 3,
    "change-lubricant": 2,
    "coat": 2,
    "seal": 2,
    "hone": 2,
    "fit-from-donor": 2,
    "machine": 1,
    "grind": 1,
    "drill": 1,
    "weld": 1,
    "build-up": 1,
    "heat": 1,
    "mark": 1,
    "remove": 3,
}
VERBS = {verb.value: verb for verb in Do}
MORE = {
    "exchange": "parts: [a/bush, a/pin]",
    "fit-new": "part: a/bush, like: same",
    "fit-old-stock": "part: a/bush, like: same, from: bushes",
    "fit-from-donor": "part: a/bush, like: same, from: sister/a/bush",
    "remove": "part: a/bush, fate: stored",
}
HERE = {"a/bush": (pieces(),), "a/pin": (pieces(made_to=MadeTo.LAST),)}
NEW = pieces(origin=Origin.MUSEUM_MADE)
PLENTY = {"bushes": Stock(left=9, can_be_made=False, has_pattern=False)}


def undoing(
    text: str,
    *,
    here: Mapping[str, tuple[Pieces, ...]] = HERE,
    donor: tuple[Pieces, ...] = (),
    table: Mapping[Do, int] | None = None,
    stock: Mapping[str, Stock] = PLENTY,
) -> Undoing:
    return reckon_undo(
        option(text),
        pieces_at=lambda address: here.get(address, ()),
        donor_at=lambda _: donor,
        table=table or {},
        stock=stock,
    )


def level(text: str, **given: object) -> Fraction:
    score = undoing(text, **given).score  # type: ignore[arg-type]
    assert isinstance(score, Score), score
    return score.likely


def only_row(text: str) -> Undo:
    (row,) = undoing(text).rows
    return row


def step(verb: str) -> str:
    return f"steps: [{{do: {verb}, {MORE.get(verb, 'part: a/bush')}}}]"


def test_every_verb_has_a_level() -> None:
    assert set(Do) == set(DEFAULT_UNDO)
    assert {verb.value for verb in Do} == set(LEVEL_BY_VERB)


@pytest.mark.parametrize("verb", LEVEL_BY_VERB)
def test_each_verb_has_the_level_of_the_museum_s_table(verb: str) -> None:
    assert LEVEL_BY_VERB[verb] == level(step(verb))


@pytest.mark.parametrize("verb", sorted(set(LEVEL_BY_VERB)))
def test_a_policy_can_set_another_level_for_a_verb(verb: str) -> None:
    other = 0 if LEVEL_BY_VERB[verb] else 4
    assert other == level(step(verb), table={VERBS[verb]: other})


@pytest.mark.parametrize("fate", ["stored", "displayed", "study"])
def test_removed_and_then_kept_is_3(fate: str) -> None:
    assert level(f"steps: [{{do: remove, part: a/bush, fate: {fate}}}]") == 3


@pytest.mark.parametrize(
    ("part", "expected"),
    [
        (pieces(can_be_made=True), 2),
        (pieces(can_be_made=False), 0),
        (pieces(can_be_made="unknown"), 0),
        (pieces(made_to=MadeTo.LAST, can_be_made=True), 0),
        (pieces(made_to=MadeTo.LAST, can_be_made=False), 0),
    ],
)
def test_removed_and_then_lost_is_2_if_made_to_wear_and_makeable_else_0(
    part: Pieces, expected: int
) -> None:
    text = "steps: [{do: remove, part: a/bush, fate: lost}]"
    assert expected == level(text, here={"a/bush": (part,)})


def test_the_worst_part_of_a_removal_governs() -> None:
    text = "steps: [{do: remove, parts: [a/bush, a/pin], fate: lost}]"
    assert level(text) == 0


def test_removed_and_put_back_is_4() -> None:
    text = "steps: [{do: remove, part: a/bush}, {do: refit, part: a/bush}]"
    assert level(text) == 4


def test_while_the_fate_of_a_removed_original_is_not_said_the_score_is_withheld() -> None:
    score = undoing("steps: [{do: remove, part: a/bush}]").score
    assert Withheld(("Remove: it is not said what becomes of the part.",)) == score


@pytest.mark.parametrize(
    ("lot", "expected"),
    [
        (Stock(left=2, can_be_made=False, has_pattern=False), 3),
        (Stock(left=1, can_be_made=True, has_pattern=False), 3),
        (Stock(left=1, can_be_made=False, has_pattern=True), 1),
        (Stock(left=1, can_be_made=False, has_pattern=False), 0),
    ],
)
def test_the_last_of_the_old_stock_is_1_and_without_a_pattern_0(lot: Stock, expected: int) -> None:
    assert expected == level(step("fit-old-stock"), stock={"bushes": lot})


def test_all_pieces_an_option_draws_from_a_lot_are_counted_together() -> None:
    text = """\
steps:
  - {do: fit-old-stock, parts: [a/bush, a/pin], like: same, from: bushes}
  - {do: fit-old-stock, part: a/bush, count: 2, like: same, from: bushes}
"""
    four = {"bushes": Stock(left=4, can_be_made=False, has_pattern=True)}
    five = {"bushes": Stock(left=5, can_be_made=False, has_pattern=True)}
    assert level(text, stock=four) == 1
    assert level(text, stock=five) == 3


def test_a_donor_s_part_counts_even_where_the_place_holds_nothing_original() -> None:
    here = {"a/bush": (NEW,)}
    assert level(step("fit-from-donor"), here=here, donor=(pieces(),)) == 2
    assert level(step("fit-from-donor"), here=here, donor=(NEW,)) == 4


def test_a_donor_s_part_counts_in_a_whole_museum_too() -> None:
    steps = [
        {"do": "fit-from-donor", "part": "drum/guard", "like": "same", "from": "sister/drum/bush"}
    ]
    case = case_in(museum(changes={DECISION: {"options.1.steps": steps}}))
    score = case.scores["rebush"].undoing.score
    assert isinstance(score, Score)
    assert score.likely == 2


def test_the_least_reversible_step_governs() -> None:
    text = "steps: [{do: clean, part: a/bush}, {do: grind, part: a/pin}, {do: move, part: a/pin}]"
    score = undoing(text).score
    assert Score.exactly(1, "Grind a/pin: undo level 1.") == score


def test_without_a_step_or_consequence_the_score_is_4() -> None:
    assert Score.exactly(4, "No step or consequence touches an original part.") == undoing("").score


@pytest.mark.parametrize(
    "part", [NEW, pieces(made_to=MadeTo.BE_USED_UP)], ids=["museum-made", "be-used-up"]
)
def test_steps_on_what_is_no_evidence_do_not_count(part: Pieces) -> None:
    assert level("steps: [{do: grind, part: a/bush}]", here={"a/bush": (part,)}) == 4


def test_a_level_can_be_overridden_with_a_reason_that_is_shown() -> None:
    text = "steps: [{do: grind, part: a/pin, undo: 3, because: Only the weld is ground}]"
    row = only_row(text)
    assert row.is_overridden
    assert (3, 1, "Only the weld is ground") == (row.level, row.default, row.because)
    expected = Score.exactly(
        3, "Grind a/pin: undo level 3 (the museum's table says 1: Only the weld is ground)."
    )
    assert expected == undoing(text).score


def test_a_level_set_to_the_usual_one_is_no_override() -> None:
    assert not only_row("steps: [{do: grind, part: a/pin, undo: 1}]").is_overridden


def test_a_consequence_has_the_level_it_is_given() -> None:
    text = "consequences: [{part: a/pin, becomes: scored, undo: 2, because: It runs dry}]"
    assert level(text) == 2


def test_work_on_the_new_part_is_not_laid_on_the_old_one() -> None:
    text = """\
steps:
  - {do: remove, part: a/bush, fate: stored}
  - {do: fit-new, part: a/bush, like: same}
  - {do: drill, part: a/bush}
  - {do: change-lubricant, part: a/bush}
consequences:
  - {part: a/bush, becomes: worn, undo: 1, because: It is made to wear}
"""
    assert level(text) == 3


def test_work_beside_a_fit_that_took_nothing_out_still_counts() -> None:
    text = "steps: [{do: fit-new, part: a/pin, like: same}, {do: drill, part: a/pin}]"
    assert level(text) == 1


def test_after_an_exchange_work_counts_for_the_part_that_sits_there_now() -> None:
    here = {"a/left": (pieces(),), "a/right": (NEW,)}
    exchanged = "steps: [{do: exchange, parts: [a/left, a/right]}, {do: grind, part: a/%s}]"
    assert level(exchanged % "left", here=here) == 4
    assert level(exchanged % "right", here=here) == 1


def test_levels_for_the_fabric_are_by_position_steps_first() -> None:
    text = """\
steps: [{do: clean, part: a/pin}, {do: grind, part: a/pin}]
consequences: [{part: a/pin, becomes: scored, undo: 2, because: It runs dry}]
"""
    assert {0: 3, 1: 1, 2: 2} == undo_levels(undoing(text))
