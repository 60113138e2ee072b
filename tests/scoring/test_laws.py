"""What holds for every score, whatever the record: laws tried on made-up options."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from building import (
    BASE,
    DECISION,
    case_in,
    museum,
    option,
    pieces,
    plainly,
    written,
)
from witnessmark.model.options import Option
from witnessmark.model.policy import FabricPolicy
from witnessmark.model.position import Pieces
from witnessmark.model.words import Criterion, MadeTo, Origin
from witnessmark.scoring.fabric import Scope, reckon_fabric
from witnessmark.scoring.score import Score, Scored
from witnessmark.scoring.scores import OptionScores
from witnessmark.scoring.undo import reckon_undo, undo_levels

PLACES = ("a/bush", "a/shaft", "a/bolts")
ALTERING = ("sleeve", "hone", "grind", "coat", "drill")
Step = dict[str, Any]

places = st.sampled_from(PLACES)
counts = st.none() | st.integers(1, 6)
undos = st.none() | st.integers(0, 4)
fates = st.sampled_from(["stored", "study", "lost"])
whole_pieces = st.builds(
    pieces,
    made_to=st.sampled_from(MadeTo),
    origin=st.sampled_from(Origin),
    count=st.integers(1, 6),
    can_be_made=st.sampled_from([True, False, "unknown"]),
    last_known=st.booleans(),
)
scopes = st.fixed_dictionaries(dict.fromkeys(PLACES, whole_pieces.map(lambda one: (one,))))


def _step(do: str, part: str, **more: object) -> Step:
    return {"do": do, "part": part} | {name: v for name, v in more.items() if v is not None}


alterations = st.builds(_step, st.sampled_from(ALTERING), places, count=counts, undo=undos)
removals = st.builds(_step, st.just("remove"), places, count=counts, fate=fates)
fits = st.builds(
    _step, st.just("fit-new"), places, count=counts, like=st.sampled_from(["same", "unlike"])
)
plain_steps = st.builds(
    _step, st.sampled_from(["clean", "lubricate", "refit", "move"]), places, count=counts
)
exchanges = st.permutations(PLACES).map(lambda order: {"do": "exchange", "parts": order[:2]})
any_step = alterations | removals | fits | plain_steps | exchanges
step_lists = st.lists(any_step, max_size=6)


def made(steps: Sequence[Step]) -> Option:
    return option(written({"steps": list(steps)}))


def scored(steps: Sequence[Step], scope: Scope) -> tuple[Scored, Scored]:
    """Fabric and reversibility of these steps."""
    one = made(steps)
    undoing = reckon_undo(
        one,
        pieces_at=lambda address: scope.get(address, ()),
        donor_at=lambda _: (),
        table={},
        stock={},
    )
    levels = undo_levels(undoing)
    fabric = reckon_fabric(one, scope=scope, policy=FabricPolicy(), undo_of=levels)
    return fabric.score, undoing.score


def fabric_level(steps: Sequence[Step], scope: Scope) -> Fraction:
    score, _ = scored(steps, scope)
    assert isinstance(score, Score), score
    return score.likely


@given(steps=step_lists, scope=scopes)
def test_fabric_and_reversibility_lie_on_the_scale(steps: list[Step], scope: Scope) -> None:
    for score in scored(steps, scope):
        assert isinstance(score, Score)
        assert 0 <= score.low == score.likely == score.high <= 4


def _milder(step: Step) -> Step:
    """The same step, doing less harm; unchanged where it does none that could be less."""
    if step["do"] in ALTERING:
        return step | {"undo": min(4, step.get("undo", 1) + 1)}
    if step["do"] == "remove":
        return step | {"fate": "stored"}
    return step | {"like": "same"} if step["do"] == "fit-new" else step


# An alteration with no level of its own has the usual one of its verb; 1 is the lowest of those.
levelled = alterations.map(lambda step: {"undo": 1} | step)


@given(
    steps=st.lists(levelled | removals | fits, min_size=1, max_size=6), scope=scopes, at=st.data()
)
def test_doing_the_same_with_less_harm_never_lowers_the_fabric_score(
    steps: list[Step], scope: Scope, at: st.DataObject
) -> None:
    index = at.draw(st.integers(0, len(steps) - 1))
    milder = [*steps[:index], _milder(steps[index]), *steps[index + 1 :]]
    assert fabric_level(milder, scope) >= fabric_level(steps, scope)


@given(steps=st.lists(alterations, min_size=1, max_size=6), scope=scopes, at=st.data())
def test_leaving_an_alteration_out_never_lowers_the_fabric_score(
    steps: list[Step], scope: Scope, at: st.DataObject
) -> None:
    index = at.draw(st.integers(0, len(steps) - 1))
    fewer = steps[:index] + steps[index + 1 :]
    assert fabric_level(fewer, scope) >= fabric_level(steps, scope)


@given(steps=st.lists(removals, min_size=1, max_size=3), scope=scopes)
def test_taking_nothing_out_never_scores_less_than_taking_something(
    steps: list[Step], scope: Scope
) -> None:
    assert fabric_level([], scope) >= fabric_level(steps, scope)


@given(steps=step_lists, scope=scopes, at=st.data())
def test_splitting_a_place_into_like_pieces_never_changes_the_fabric_score(
    steps: list[Step], scope: dict[str, tuple[Pieces, ...]], at: st.DataObject
) -> None:
    address = at.draw(places)
    (whole,) = scope[address]
    first = at.draw(st.integers(1, whole.count))
    parts = [replace(whole, count=n) for n in (first, whole.count - first) if n]
    assert scored(steps, scope) == scored(steps, scope | {address: tuple(parts)})


@given(scope=scopes, address=places, count=st.integers(1, 24))
def test_a_place_that_is_treated_whole_counts_once_however_many_pieces_it_holds(
    scope: dict[str, tuple[Pieces, ...]], address: str, count: int
) -> None:
    steps = [_step("remove", address, fate="stored"), _step("fit-new", address, like="same")]
    (whole,) = scope[address]
    other = scope | {address: (replace(whole, count=count),)}
    assert fabric_level(steps, scope) == fabric_level(steps, other)


@lru_cache(maxsize=1)
def _options() -> list[dict[str, Any]]:
    options: list[dict[str, Any]] = plainly(BASE[DECISION])["options"]
    grind = options[1] | {"id": "grind", "steps": [{"do": "grind", "part": "drum/shaft"}]}
    blank = options[1] | {"id": "blank", "judged": {}}
    return [*options, grind, blank]


def scores_with(options: list[dict[str, Any]]) -> dict[str, OptionScores]:
    return dict(case_in(museum(changes={DECISION: {"options": options}})).scores)


@settings(max_examples=15)
@given(order=st.permutations(range(5)))
def test_the_order_of_the_options_never_matters(order: list[int]) -> None:
    options = _options()
    assert scores_with(options) == scores_with([options[n] for n in order])


@settings(max_examples=15)
@given(wanted=st.sets(st.integers(0, 4), min_size=1))
def test_adding_options_never_changes_the_score_of_another(wanted: set[int]) -> None:
    options = _options()
    some = scores_with([options[n] for n in sorted(wanted)])
    everything = scores_with(options)
    assert some == {name: everything[name] for name in some}


@settings(max_examples=25)
@given(levels=st.lists(st.integers(0, 4), min_size=3, max_size=3).map(sorted))
def test_all_three_criteria_lie_on_the_scale_and_in_order(levels: list[int]) -> None:
    low, likely, high = levels
    judged = {"low": low, "likely": likely, "high": high, "because": "Judged"}
    options = _options()
    options[1] = options[1] | {"judged": options[1]["judged"] | {"form": judged}}
    for name, scores in scores_with(options).items():
        for criterion in Criterion:
            score = scores.criteria[criterion]
            if isinstance(score, Score):
                assert 0 <= score.low <= score.likely <= score.high <= 4, (name, criterion)
