"""What a rule sees of a decision, and of what is computed around it."""

from __future__ import annotations

from typing import TypedDict

from witnessmark.rules.view_machine import FindingView
from witnessmark.rules.view_words import (
    ChosenKindWord,
    Given,
    HazardKindWord,
    KeptWord,
    KindWord,
    PhaseWord,
    PresenceWord,
    RoleWord,
    StateWord,
)


class SignatureView(TypedDict):
    """One agreement; `holds_role`: the register says so for that day."""

    role: RoleWord
    by: str
    signed_on: str
    holds_role: bool


class DissentView(TypedDict):
    """A disagreement and its answer, with the number of words of the answer.

    `is_objector`: raised by somebody whose role it is to argue against.
    """

    index: int
    who: str
    is_objector: bool
    what: str
    answer: str
    answer_words: int


class LossView(TypedDict):
    """Evidence that goes.

    `has_photograph` and `has_exact_record` (drawing, rubbing, scan or sample): how it was recorded.
    """

    index: int
    what: str
    where: str
    has_photograph: bool
    has_exact_record: bool


class InterestView(TypedDict):
    """Somebody who gains or loses by the choice; `has_signed`: one of the signatures is theirs."""

    index: int
    who: str
    what: str
    answer: str
    has_signed: bool


class HeardView(TypedDict):
    """Somebody asked before the choice; `holds_role`: the register says so for that day."""

    by: str
    role: RoleWord
    what: str
    holds_role: bool


class SourceView(TypedDict):
    """A document or person the record rests on, and where it lies."""

    index: int
    what: str
    where: str


class HazardView(TypedDict):
    """One hazard; `before` is its cell before anything is done, such as 2C.

    `kind` is empty where its sort does not decide who may touch it. `touched_by`: the steps in
    force that touch the parts in which it sits, in words; locking out touches nothing. `sent_out`:
    the chosen option is done by a firm and nobody else.
    """

    index: int
    id: str
    what: str
    phase: PhaseWord
    before: str
    who: list[str]
    kind: HazardKindWord
    found: PresenceWord
    parts: list[str]
    touched_by: list[str]
    sent_out: bool
    surveyed_by: str
    survey_ref: str
    energy: str
    made_safe_how: str
    tested_by: str


class SheetView(TypedDict):
    """One used worksheet; `verdict` is empty where there is none."""

    id: str
    sheet: str
    verdict: str
    bears_on: list[str]


class WorkView(TypedDict):
    """What was done; dates are empty until they are known.

    `departures_given` is "none" where it is said that there are none. `is_unlike_plan`: the steps
    as done are others than those chosen, in what they do, to which part, or what became of it.
    `new_losses`: original parts that are gone although the plan kept them.
    """

    started: str
    ended: str
    by: list[str]
    competence: str
    hidden: str
    departures_given: Given
    is_unlike_plan: bool
    new_losses: list[str]
    new_loss_agreed_on: str
    new_loss_by_holder: bool
    has_departures: bool
    has_steps: bool
    photos_before: int
    photos_during: int


class DecisionView(TypedDict):
    """One decision; dates are texts such as 2024-02-11, empty where there is none.

    `read_on` is the day as on which machine and stock are read. `losses_signed`: somebody answers
    for there being none. The options stand beside it, so that rules that do not ask of them are
    quick.
    """

    id: str
    title: str
    state: StateWord
    is_settled: bool
    opened: str
    read_on: str
    until: str
    about: list[str]
    aim: str
    proposer: str
    findings: list[FindingView]
    has_worksheets: bool
    sheets: list[SheetView]
    hazards_given: Given
    hazards: list[HazardView]
    has_choice: bool
    choice_because: str
    gives_up: str
    dissent_given: Given
    dissent: list[DissentView]
    interests_given: Given
    interests: list[InterestView]
    heard: list[HeardView]
    sources: list[SourceView]
    losses_given: Given
    losses_signed: bool
    losses: list[LossView]
    leaves_out: str
    adds_up_to: str
    signatures: list[SignatureView]
    has_emergency: bool
    emergency_ratified: str
    has_accepted_risk: bool
    has_consent: bool
    consent_by: str
    consent_on: str
    consent_text: str
    conditions_kept: str
    work: WorkView
    look_again_on: str
    look_again_after: str
    looks: int
    follows: list[str]
    departs_from: list[str]
    replaces: str
    replaces_because: str
    is_public: bool
    is_withheld: bool


class EarlierView(TypedDict):
    """An earlier decision about some of the same parts; `is_named`: the record speaks of it."""

    id: str
    title: str
    state: StateWord
    chosen_kind: ChosenKindWord
    parts: list[str]
    is_named: bool


class AlikeView(TypedDict):
    """An earlier decision on nearly the same question that chose another kind of option.

    `likeness` is a whole percent of what could be compared before anything was chosen (kinds of
    option, way of keeping, words of part and material). `is_answered`: the record departs from it,
    with the reason, or replaces it.
    """

    id: str
    title: str
    chosen_kind: KindWord
    likeness: int
    is_answered: bool


class FollowedView(TypedDict):
    """A decision that this one names as its pattern; `looks`: second looks written down."""

    index: int
    id: str
    state: StateWord
    looks: int


class TensionView(TypedDict):
    """A part that holds a track's tension, in an assembly the decision is about.

    `is_opened`: a step in force takes its assembly apart. `is_set`: one adjusts it.
    `is_renewed`: one fits it anew. `is_measured`: a finding or worksheet of the record measures it.
    """

    part: str
    name: str
    is_opened: bool
    is_set: bool
    is_renewed: bool
    is_measured: bool


class FactsView(TypedDict):
    """What is computed from the museum around a decision.

    `alike` holds the three nearest at most, on any machine. `safety_floor` is 0 where the policy
    sets none; `roles_held` are those held by anybody on the day the decision is read.
    `runs_on_tracks`: the machine has parts that hold a track's tension.
    """

    policy: str
    kept: KeptWord
    safety_floor: float
    leading: list[str]
    roles_held: list[RoleWord]
    earlier: list[EarlierView]
    alike: list[AlikeView]
    followed: list[FollowedView]
    runs_on_tracks: bool
    tension: list[TensionView]
