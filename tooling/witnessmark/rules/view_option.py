"""What a rule sees of an option and of its steps."""

from __future__ import annotations

from typing import TypedDict

from witnessmark.rules.view_machine import LotView
from witnessmark.rules.view_words import (
    AspectWord,
    CarriedOnWord,
    DoneByWord,
    DoWord,
    FateWord,
    FloorWord,
    Given,
    HowWord,
    KindWord,
    Known,
    LikeWord,
    LubricantWord,
    MadeToWord,
    OrderWord,
    OriginWord,
    RiskWord,
)


class RemovedView(TypedDict):
    """Like pieces that a step takes out of one place.

    `is_evidence`: original and not made to be used up. `is_off`: not put back by a later step.
    What is both is listed again under `leaving`.
    """

    part: str
    name: str
    count: int
    origin: OriginWord
    made_to: MadeToWord
    is_original: bool
    is_evidence: bool
    is_last_known: bool
    can_be_made: Known
    is_off: bool
    fate: FateWord
    is_kept: bool
    label: str
    place: str


class FittedView(TypedDict):
    """What a step fits in one place; `made_to` is that of the part machine.yml lists there."""

    part: str
    name: str
    made_to: MadeToWord
    like: LikeWord
    material: str
    drawing: str
    made_by: str
    marked: str
    pattern: str


class DonorView(TypedDict):
    """The part of another machine that a step fits.

    `findings` counts what was found on the part or its assembly by the day; `decisions` are settled
    ones of the donor about the part.
    """

    machine: str
    part: str
    is_known: bool
    name: str
    origin: OriginWord
    is_last_known: bool
    findings: int
    decisions: list[str]


class TouchedView(TypedDict):
    """A part that a step acts on, as machine.yml lists it."""

    part: str
    name: str
    is_original: bool
    plating: str
    lubricant: LubricantWord


class StepView(TypedDict):
    """One step, planned or as done; `index` counts in its list, from 0.

    `is_in_force`: of the chosen option while it is to be done, or as done once it is. `count` is 0
    where the step does not say how many. `leaving` is what of `removed` is evidence and is not put
    back.
    """

    index: int
    do: DoWord
    count: int
    option: str
    is_as_done: bool
    is_of_chosen: bool
    is_in_force: bool
    parts: list[str]
    touches_original: bool
    removed: list[RemovedView]
    leaving: list[RemovedView]
    fitted: list[FittedView]
    lots: list[LotView]
    donors: list[DonorView]
    touched: list[TouchedView]
    material: str
    lubricant: LubricantWord
    suits: str
    residue: str
    inspected: str
    conditions_met: str
    leaves: str
    over: FloorWord
    carried_on: CarriedOnWord
    rubber_left_mm: float | None
    comes_off_with: str
    what: str
    because: str
    copied_marks: str
    interchange: str
    care: str


class BriefStepView(TypedDict):
    """A step as its option lists it; rules about steps see the whole of it."""

    do: DoWord
    touches_original: bool


class AspectView(TypedDict):
    """One aspect of authenticity of one option, with the sentence, who judged and when."""

    aspect: AspectWord
    how: HowWord
    likely: float | None
    because: str
    because_words: int
    by: str
    judged_on: str


class ScoresView(TypedDict):
    """The likely scores, 0 to 4, 4 best; null while withheld."""

    authenticity: float | None
    safety: float | None
    reversibility: float | None
    material: float | None


class ConsequenceView(TypedDict):
    """What happens to parts although nobody works on them."""

    parts: list[str]
    becomes: str
    because: str


class AnswerView(TypedDict):
    """How an option answers a hazard; `after` is empty where the hazard is not there.

    `claims_less`: less severe or less probable than before anything is done. `orders` are those of
    its controls.
    """

    hazard: str
    before: str
    after: str
    claims_less: bool
    because_words: int
    orders: list[OrderWord]


class OptionView(TypedDict):
    """One option; `index` counts in the record, from 0.

    `is_irreversible`: reversibility of 1 or less. `worst_risk` is empty while no hazard is answered
    or none is there. `is_risk_accepted`: somebody accepts its risk below the floor for a time.
    `held_down_by`: the worksheets beyond their limit that set its safety; none while a hazard does.
    `gentler`: options that could be chosen, too, and keep more of the original material or can
    better be undone, and are worse in neither.
    """

    index: int
    id: str
    title: str
    kind: KindWord
    is_chosen: bool
    is_leading: bool
    is_set_aside: bool
    is_ruled_out: bool
    misses_aim: bool
    not_scored: str
    why_not: str
    way_back: str
    forecloses: str
    consequences_given: Given
    consequences: list[ConsequenceView]
    is_temporary: bool
    done_by: DoneByWord
    hazards_unanswered: list[str]
    answers: list[AnswerView]
    worst_risk: RiskWord
    is_risk_accepted: bool
    held_down_by: list[str]
    scores: ScoresView
    has_scores: bool
    is_irreversible: bool
    touches_original: bool
    loses_evidence: bool
    gentler: list[str]
    aspects: list[AspectView]
    steps: list[BriefStepView]
    removed: list[RemovedView]
    leaving: list[RemovedView]
    fitted: list[FittedView]
