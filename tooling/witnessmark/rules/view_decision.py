"""What a rule sees of a decision, and of what is computed around it."""

from __future__ import annotations

from typing import TypedDict

from witnessmark.rules.view_machine import FindingView
from witnessmark.rules.view_words import (
    ChosenKindWord,
    Given,
    KeptWord,
    PhaseWord,
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
    """A disagreement and its answer, with the number of words of the answer."""

    index: int
    who: str
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


class HazardView(TypedDict):
    """One hazard; `before` is its cell before anything is done, such as 2C."""

    index: int
    id: str
    what: str
    phase: PhaseWord
    before: str


class SheetView(TypedDict):
    """One used worksheet; `verdict` is empty where there is none."""

    id: str
    sheet: str
    verdict: str
    bears_on: list[str]


class WorkView(TypedDict):
    """What was done; dates are empty until they are known."""

    started: str
    ended: str
    by: list[str]
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
    losses_given: Given
    losses_signed: bool
    losses: list[LossView]
    signatures: list[SignatureView]
    has_emergency: bool
    emergency_ratified: str
    has_accepted_risk: bool
    has_consent: bool
    work: WorkView
    look_again_on: str
    look_again_after: str
    looks: int
    follows: list[str]
    departs_from: list[str]
    replaces: str
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


class FactsView(TypedDict):
    """What is computed from the museum around a decision.

    `safety_floor` is 0 where the policy sets none; `roles_held` are those held by anybody on the
    day the decision is read.
    """

    policy: str
    kept: KeptWord
    safety_floor: float
    leading: list[str]
    roles_held: list[RoleWord]
    earlier: list[EarlierView]
