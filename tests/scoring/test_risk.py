"""Safety: the worst risk that remains, withheld while anything is blank, capped by worksheets."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from building import BASE, DECISION, GONE, case_in, changed, museum, plainly
from witnessmark.model.decision import Decision
from witnessmark.scoring.matrix882 import RiskLevel
from witnessmark.scoring.risk import Safety, SheetVerdict, reckon_safety
from witnessmark.scoring.score import Score, Withheld

REBUSH, LEAVE, STOP = 1, 0, 2
BEYOND = SheetVerdict("clearance", "beyond", ("drum/bush",))


def decision(changes: Mapping[str, object]) -> Decision:
    return Decision.model_validate(plainly(changed(BASE[DECISION], changes)))


def safety(
    changes: Mapping[str, object], *, number: int = REBUSH, sheets: tuple[SheetVerdict, ...] = ()
) -> Safety:
    written = decision(changes)
    return reckon_safety(written.options[number], decision=written, sheets=sheets)


def level(
    changes: Mapping[str, object], *, number: int = REBUSH, sheets: tuple[SheetVerdict, ...] = ()
) -> int:
    score = safety(changes, number=number, sheets=sheets).score
    assert isinstance(score, Score), score
    assert score.low == score.likely == score.high
    return int(score.likely)


def why_withheld(changes: Mapping[str, object]) -> tuple[str, ...]:
    score = safety(changes).score
    assert isinstance(score, Withheld), score
    return score.why


def answers(drops: str, lifting: str) -> dict[str, object]:
    return {"options.1.answers": {"drops": {"after": drops}, "lifting": {"after": lifting}}}


@pytest.mark.parametrize(
    ("drops", "lifting", "expected"),
    [
        ("4E", "4E", 3),
        ("4E", "3E", 2),
        ("1D", "4E", 1),
        ("4E", "1C", 0),
        ("1F", "2F", 4),
        ("1F", "4E", 3),
    ],
)
def test_the_worst_residual_over_both_phases_governs(
    drops: str, lifting: str, expected: int
) -> None:
    assert expected == level(answers(drops, lifting))


def test_an_answer_of_none_counts_as_eliminated() -> None:
    none = {"none": "It is not lifted"}
    assert level({"options.1.answers": {"drops": none, "lifting": none}}) == 4


def test_the_governing_cells_are_printed() -> None:
    score = safety(answers("2C", "2E")).score
    expected = (
        "The drum tilts and the load drops (afterwards): "
        "2C before, 2C (critical, occasional: serious risk) left."
    )
    assert Score.exactly(1, expected) == score


def test_the_worst_risk_left_is_told() -> None:
    assert RiskLevel.SERIOUS is safety(answers("2C", "2E")).worst


def test_a_blank_answer_withholds_the_score_and_is_named() -> None:
    changes = {"options.1.answers": {"drops": {"after": "2E"}}}
    assert ("The hazard lifting is not answered.",) == why_withheld(changes)


def test_every_blank_answer_is_named() -> None:
    expected = ("The hazard drops is not answered.", "The hazard lifting is not answered.")
    assert expected == why_withheld({"options.1.answers": {}})


@pytest.mark.parametrize(
    ("gone", "phase"), [("hazards.0", "afterwards"), ("hazards.1", "doing-the-work")]
)
def test_a_phase_without_a_hazard_withholds_the_score(gone: str, phase: str) -> None:
    assert (f"No hazard is listed for {phase}.",) == why_withheld({gone: GONE})


def test_hazards_left_out_altogether_withhold_the_score() -> None:
    expected = ("No hazard is listed for doing-the-work.", "No hazard is listed for afterwards.")
    assert expected == why_withheld({"hazards": GONE})


def test_hazards_signed_as_none_score_4() -> None:
    signed = {"none": {"by": "safety-officer", "because": "It stands behind glass"}}
    expected = "safety-officer signed that there is no hazard: It stands behind glass"
    assert Score.exactly(4, expected) == safety({"hazards": signed}).score


def test_safety_is_read_from_the_record_and_cannot_be_typed() -> None:
    with pytest.raises(ValueError, match="safety"):
        decision({"options.1.judged.safety": {"likely": 4, "because": "It is safe"}})


UNCHANGED = {"options.1.steps": [{"do": "clean", "part": "drum/bush"}]}
FINE: dict[str, object] = {**answers("4E", "4E"), **UNCHANGED}


def test_a_worksheet_beyond_its_limit_caps_what_leaves_the_part_in_service_at_1() -> None:
    found = safety(FINE, sheets=(BEYOND,))
    expected = (
        "By the worksheet clearance, drum/bush is beyond its limit and stays in service as it is,"
        " so the score is 1 at most."
    )
    assert (expected,) == found.caps
    assert Score.exactly(1, expected) == found.score


@pytest.mark.parametrize(
    ("left", "expected"), [("4E", ("clearance",)), ("3E", ("clearance",)), ("2C", ()), ("1C", ())]
)
def test_a_sheet_holds_a_score_down_only_where_the_hazards_alone_would_leave_more(
    left: str, expected: tuple[str, ...]
) -> None:
    found = safety({**answers(left, "4E"), **UNCHANGED}, sheets=(BEYOND,))
    assert expected == found.held_down_by


def test_a_cap_never_raises_a_score() -> None:
    assert level({**answers("1C", "4E"), **UNCHANGED}, sheets=(BEYOND,)) == 0


@pytest.mark.parametrize("verdict", ["within", "near", "cannot-tell", None])
def test_only_a_sheet_beyond_its_limit_caps(verdict: str | None) -> None:
    sheet = SheetVerdict("clearance", verdict, ("drum/bush",))
    assert level(FINE, sheets=(sheet,)) == 3


def test_a_later_sheet_for_the_part_that_is_relied_on_lifts_the_cap() -> None:
    later = SheetVerdict("again", "within", ("drum/bush",))
    relied = {**FINE, "options.1.relies_on": ["again"]}
    assert level(relied, sheets=(BEYOND, later)) == 3


def test_a_later_sheet_that_is_not_relied_on_lifts_nothing() -> None:
    later = SheetVerdict("again", "within", ("drum/bush",))
    assert level(FINE, sheets=(BEYOND, later)) == 1


def test_an_earlier_sheet_lifts_nothing() -> None:
    earlier = SheetVerdict("before", "within", ("drum/bush",))
    relied = {**FINE, "options.1.relies_on": ["before"]}
    assert level(relied, sheets=(earlier, BEYOND)) == 1


def test_a_later_sheet_for_another_part_lifts_nothing() -> None:
    later = SheetVerdict("again", "within", ("drum/shaft",))
    relied = {**FINE, "options.1.relies_on": ["again"]}
    assert level(relied, sheets=(BEYOND, later)) == 1


def test_a_later_sheet_that_is_itself_beyond_lifts_nothing() -> None:
    later = SheetVerdict("again", "beyond", ("drum/bush",))
    relied = {**FINE, "options.1.relies_on": ["again"]}
    assert level(relied, sheets=(BEYOND, later)) == 1


def test_every_part_a_sheet_bears_on_has_to_be_covered() -> None:
    both = SheetVerdict("clearance", "beyond", ("drum/bush", "drum/shaft"))
    later = SheetVerdict("again", "within", ("drum/bush",))
    relied = {**FINE, "options.1.relies_on": ["again"]}
    expected = (
        "By the worksheet clearance, drum/shaft is beyond its limit and stays in service as it is,"
        " so the score is 1 at most."
    )
    assert (expected,) == safety(relied, sheets=(both, later)).caps


CHANGES_IT = {
    "renewed": [
        {"do": "remove", "part": "drum/bush", "fate": "stored"},
        {"do": "fit-new", "part": "drum/bush", "like": "same"},
    ],
    "taken out": [{"do": "remove", "part": "drum/bush", "fate": "stored"}],
    "honed": [{"do": "hone", "part": "drum/bush"}],
    "sleeved": [{"do": "sleeve", "part": "drum/bush"}],
    "machined and put back": [
        {"do": "remove", "part": "drum/bush"},
        {"do": "machine", "part": "drum/bush"},
        {"do": "refit", "part": "drum/bush"},
    ],
}


@pytest.mark.parametrize("case", CHANGES_IT)
def test_a_part_that_is_changed_is_not_capped(case: str) -> None:
    changes = {**answers("4E", "4E"), "options.1.steps": CHANGES_IT[case]}
    assert level(changes, sheets=(BEYOND,)) == 3


LEAVES_IT: dict[str, list[dict[str, object]]] = {
    "untouched": [],
    "lubricated": [{"do": "lubricate", "part": "drum/bush"}],
    "another part renewed": [{"do": "fit-new", "part": "drum/shaft", "like": "same"}],
    "taken out and put back": [
        {"do": "remove", "part": "drum/bush"},
        {"do": "refit", "part": "drum/bush"},
    ],
}


@pytest.mark.parametrize("case", LEAVES_IT)
def test_a_part_that_stays_as_it_was_is_capped(case: str) -> None:
    changes = {**answers("4E", "4E"), "options.1.steps": LEAVES_IT[case]}
    assert level(changes, sheets=(BEYOND,)) == 1


def test_an_option_that_stops_the_machine_is_not_capped() -> None:
    assert level({}, number=STOP, sheets=(BEYOND,)) == 4


def test_signed_absence_of_hazards_is_capped_too() -> None:
    signed = {"none": {"by": "safety-officer", "because": "It stands behind glass"}}
    assert level({"hazards": signed, **UNCHANGED}, sheets=(BEYOND,)) == 1


def test_a_record_s_own_worksheet_caps_the_option_that_leaves_the_bush() -> None:
    case = case_in(museum(changes={DECISION: {"options.0.answers.drops.after": "4E"}}))
    assert ["beyond"] == [sheet.verdict.verdict for sheet in case.sheets]
    score = case.scores["leave"].safety.score
    assert isinstance(score, Score)
    assert score.likely == 1
