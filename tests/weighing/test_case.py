"""A decision worked out: scores to verdict, and what is set aside with every reason."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import pytest

from building import BASE, DECISION, GONE, MACHINE, POLICY, case_in, museum, plainly
from witnessmark.errors import WitnessmarkError
from witnessmark.model.policy import Policy
from witnessmark.model.words import Criterion, Kept
from witnessmark.scoring.score import Score, Withheld
from witnessmark.weighing import Standing
from witnessmark.weighing.case import Case, accepted_option, weighting_of

F = Fraction
UNDER = "its safety of 1 is below the floor of 2"


def worked_out(changes: Mapping[str, object] | None = None, *, file: str = DECISION) -> Case:
    return case_in(museum(changes={file: changes or {}}))


def standing(case: Case, name: str) -> Standing:
    assert case.weighing is not None
    return case.weighing.of(name).standing


def value(case: Case, name: str) -> Fraction | None:
    assert case.weighing is not None
    return case.weighing.of(name).value


def risk(**other: str) -> dict[str, object]:
    given = {"by": "trustee", "role": "governing", "until": "2025-01-01", "because": "A season"}
    return {"accepted_risk": given | other}


def test_the_value_is_the_scores_at_the_policy_s_weights() -> None:
    expected = F(7, 20) * F(179, 48) + F(2, 5) * 2 + F(1, 4) * 3
    assert expected == value(worked_out(), "rebush")


def test_the_best_of_what_is_left_wins() -> None:
    case = worked_out({"options.2.misses_aim": GONE})
    assert ("stop",) == case.winners
    # By hand: 7/20 x 3 + 2/5 x 4 + 1/4 x 4 against 2741/960 for the new bush.
    assert F(73, 20) == value(case, "stop")
    assert Standing.SET_ASIDE is not standing(case, "rebush")


def test_two_equal_options_both_win() -> None:
    options = plainly(BASE[DECISION])["options"]
    twin = options[1] | {"id": "twin"}
    assert ("rebush", "twin") == worked_out({"options.3": twin}).winners


def test_an_option_below_a_floor_is_set_aside_and_still_scored() -> None:
    case = worked_out()
    assert (UNDER,) == case.aside["leave"]
    assert Standing.SET_ASIDE is standing(case, "leave")
    assert isinstance(case.scores["leave"].criteria[Criterion.SAFETY], Score)
    assert value(case, "leave") is not None


def test_every_reason_for_setting_an_option_aside_is_given() -> None:
    case = worked_out(
        {
            "options.0.misses_aim": "It knocks",
            "options.0.ruled_out": {"by": "law", "because": "Section 4"},
        }
    )
    expected = ("ruled out by law: Section 4", "misses the aim: It knocks", UNDER)
    assert expected == case.aside["leave"]


@pytest.mark.parametrize("by", ["law", "owner", "rule"])
def test_what_law_owner_or_rule_shut_out_is_set_aside(by: str) -> None:
    case = worked_out({"options.1.ruled_out": {"by": by, "because": "No"}})
    assert (f"ruled out by {by}: No",) == case.aside["rebush"]
    assert () == case.winners


def test_a_risk_below_the_floor_can_be_accepted_for_one_option() -> None:
    case = worked_out(risk(option="leave"))
    assert "leave" not in case.aside


def test_an_accepted_risk_that_names_no_option_is_of_the_choice() -> None:
    assert "leave" in worked_out(risk()).aside
    assert "leave" not in worked_out(risk() | {"choice.option": "leave"}).aside


def test_a_high_risk_can_never_be_accepted() -> None:
    case = worked_out(risk(option="leave") | {"options.0.answers.drops.after": "1A"})
    assert ("its safety of 0 is below the floor of 2",) == case.aside["leave"]


def test_an_accepted_risk_lifts_no_other_reason() -> None:
    case = worked_out(risk(option="leave") | {"options.0.misses_aim": "It knocks"})
    assert ("misses the aim: It knocks",) == case.aside["leave"]


def test_without_accepted_risk_no_option_has_one() -> None:
    assert accepted_option(worked_out().decision) is None


def test_a_floor_is_compared_with_the_likely_score() -> None:
    floors = {"floors.running": {"authenticity": "179/48"}}
    assert "rebush" not in worked_out(floors, file=POLICY).aside
    higher = {"floors.running": {"authenticity": "180/48"}}
    assert "rebush" in worked_out(higher, file=POLICY).aside


def test_a_withheld_criterion_leaves_an_option_unscored_and_out_of_every_share() -> None:
    case = worked_out({"options.1.answers.drops": GONE, "options.2.misses_aim": GONE})
    assert case.weighing is not None
    row = case.weighing.of("rebush")
    assert (Standing.NOT_SCORED, None) == (row.standing, row.value)
    assert ("stop",) == case.winners
    assert isinstance(case.scores["rebush"].criteria[Criterion.SAFETY], Withheld)
    assert 1 == case.weighing.of("stop").share_all


def test_an_unscored_option_that_misses_the_aim_keeps_its_reason() -> None:
    case = worked_out({"options.2.answers": GONE})
    assert Standing.NOT_SCORED is standing(case, "stop")
    assert ("misses the aim: It lifts nothing.",) == case.aside["stop"]


def test_the_weights_are_those_of_the_way_the_machine_is_kept() -> None:
    case = worked_out({"kept.0.as": "on-display"}, file=MACHINE)
    expected = F(1, 2) * F(179, 48) + F(1, 5) * 2 + F(3, 10) * 3
    assert expected == value(case, "rebush")
    assert "leave" not in case.aside


def test_the_way_of_keeping_is_that_of_the_reference_day() -> None:
    kept = [{"from": "2015-01-01", "as": "running"}, {"from": "2024-02-12", "as": "on-display"}]
    ground = worked_out({"kept": kept}, file=MACHINE).ground
    assert ground is not None
    assert Kept.RUNNING is ground.kept
    earlier = [kept[0], kept[1] | {"from": "2024-02-11"}]
    ground = worked_out({"kept": earlier}, file=MACHINE).ground
    assert ground is not None
    assert Kept.ON_DISPLAY is ground.kept


def test_without_weights_for_the_way_of_keeping_there_are_scores_and_no_verdict() -> None:
    case = worked_out({"kept.0.as": "reserve"}, file=MACHINE)
    assert case.weighing is None
    assert () == case.winners
    assert {"leave", "rebush", "stop"} == set(case.scores)


@pytest.mark.parametrize("file", [MACHINE, POLICY])
def test_without_machine_or_policy_only_the_sheets_are_reckoned(file: str) -> None:
    case = case_in(museum(without=(file,)))
    assert (None, None) == (case.ground, case.weighing)
    assert {} == case.scores
    assert ["clearance"] == [sheet.used.id for sheet in case.sheets]


@pytest.mark.parametrize(
    "changes",
    [
        {"options": GONE},
        {"options": []},
        {"hazards": GONE},
        {"choice": GONE},
        {"worksheets": GONE},
        {"judged_by": GONE},
        {"about": ["ghost/part"]},
    ],
)
def test_a_half_written_record_is_worked_out_as_far_as_it_goes(
    changes: Mapping[str, object],
) -> None:
    case = worked_out(changes)
    assert case.ground is not None
    assert case.weighing is not None


def test_one_id_given_to_two_options_stops_nothing() -> None:
    assert worked_out({"options.2.id": "rebush"}).weighing is not None


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"weights.running.safety": "1/2"}, "add up to 11/10"),
        ({"weights.running.safety": "-2/5"}, "below 0"),
        ({"ranges.running.safety": ["3/5", "3/10"]}, "range of safety"),
        ({"floors.running.safety": 5}, "off the scale"),
        ({"level_values": [0, 1, 1, 3, 4]}, "does not rise"),
        ({"weights.running": GONE}, "no weights"),
    ],
)
def test_a_policy_that_does_not_hold_together_stops_only_the_weighing(
    changes: Mapping[str, object], message: str
) -> None:
    library = museum(changes={POLICY: changes})
    case = case_in(library)
    assert case.weighing is None
    assert {"leave", "rebush", "stop"} == set(case.scores)
    with pytest.raises(WitnessmarkError, match=message):
        weighting_of(library.policies["2023-04"], Kept.RUNNING)


def test_a_criterion_without_a_weight_weighs_nothing_and_without_a_range_has_all() -> None:
    policy = Policy.model_validate(
        {
            "witnessmark": 1,
            "valid_from": "2024-01-01",
            "weights": {"running": {"safety": "3/4", "authenticity": "1/4"}},
            "ranges": {"running": {"safety": ["1/2", 1]}},
        }
    )
    weighting = weighting_of(policy, Kept.RUNNING)
    assert (F(1, 4), F(3, 4), F(0)) == weighting.weights
    assert ((F(0), F(1)), (F(1, 2), F(1)), (F(0), F(1))) == weighting.ranges
    assert (None, None, None) == weighting.floors


def test_without_ranges_there_is_no_policy_region() -> None:
    case = worked_out({"ranges": GONE}, file=POLICY)
    assert case.weighing is not None
    assert case.weighing.of("rebush").share_policy is None


def test_the_thresholds_of_the_verdict_are_the_policy_s() -> None:
    policy = plainly(BASE[POLICY]) | {"verdict": {"firm_chance": "1/2", "holds_chance": "1/3"}}
    weighting = weighting_of(Policy.model_validate(policy), Kept.RUNNING)
    assert (F(1, 2), F(1, 3)) == (weighting.firm_chance, weighting.holds_chance)


def test_working_out_twice_gives_the_same() -> None:
    library = museum()
    first, second = case_in(library), case_in(library)
    assert first.scores == second.scores
    assert first.aside == second.aside
    assert first.weighing == second.weighing
