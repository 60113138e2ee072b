"""YEAR-NNN-*.yml: one decision, from the question to the second look."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from witnessmark.model.fields import (
    LIST,
    MAPPING,
    WORD,
    Address,
    Day,
    DecisionId,
    FindingId,
    Flag,
    Id,
    PolicyId,
    Prose,
    Quantity,
    Text,
    Weight,
    Written,
    either,
)
from witnessmark.model.machine import Photo
from witnessmark.model.options import JudgedBy, NoneSigned, OnParts, Option, Risk, Step
from witnessmark.model.words import Carrier, DoneBy, HazardKind, Phase, Presence, Role, State


class Aim(Written):
    """What the machine should be able to do afterwards, and why."""

    what: Prose
    because: Prose


class UsedSheet(Written):
    """A worksheet with what it was given, recomputed at every check."""

    id: Id
    sheet: Id
    given: dict[str, Text | tuple[Text, ...]]
    bears_on: tuple[Address, ...] = ()
    note: Prose | None = None


class Survey(Written):
    """What somebody competent found out about a hazard: who, when, and where it is written."""

    by: Text
    date: Day
    ref: Text
    says: Prose | None = None


class MadeSafe(Written):
    """How stored energy is let out or held: how much there is, what is done, who tests it."""

    energy: Text
    how: Prose
    tested_by: Text
    ref: Text | None = None


class Hazard(OnParts):
    """Something that could hurt somebody.

    Where its sort decides who may touch it, `kind` names the sort, `found` whether it is there,
    `part` or `parts` where it sits, `survey` who found out, and `made_safe` how its energy is held.
    """

    id: Id
    what: Prose
    when: Phase
    who: tuple[Text, ...] = ()
    before: Risk
    kind: HazardKind | None = None
    found: Presence | None = None
    survey: Survey | None = None
    made_safe: MadeSafe | None = None
    because: Prose | None = None


class Heard(Written):
    """Somebody who was asked before the choice was made, in which role, and what they said."""

    by: Id
    role: Role
    date: Day | None = None
    what: Prose


class Interest(Written):
    """Somebody who gains or loses by the choice: who, how, and what is done about it."""

    who: Text
    what: Prose
    answer: Prose


class Dissent(Written):
    """Somebody's disagreement, and the answer to it."""

    who: Text
    what: Prose
    answer: Prose


class Choice(Written):
    """Which option was chosen and why."""

    option: Id
    because: Prose
    gives_up: Prose
    would_change_our_mind: Prose
    dissent: Annotated[
        Annotated[tuple[Dissent, ...], LIST] | Annotated[Literal["none raised"], WORD],
        either("`none raised` or a list is wanted"),
    ]


class Loss(Written):
    """Evidence that goes, and how it was recorded first."""

    what: Prose
    recorded_by: tuple[Carrier, ...] = Field(min_length=1)
    where: Text | None = None


class Signature(Written):
    """One agreement, as `sign` writes it."""

    role: Role
    by: Id
    date: Day
    seal: Text
    words: Text


class Waiver(Written):
    """A must rule that rests: which, why, who let it, and until when."""

    rule: Id
    because: Prose
    approver: Id
    until: Day


class Explained(Written):
    """A should rule not followed, with the reason."""

    rule: Id
    because: Prose


class AcceptedRisk(Written):
    """A risk below the floor that somebody accepts for a time."""

    by: Id
    role: Role
    until: Day
    because: Prose
    option: Id | None = None


class Emergency(Written):
    """Work before agreement, to make safe."""

    because: Prose
    ratified: Day | None = None


class NewLoss(Written):
    """Who agreed, once the work was open, that more goes than was planned, and why."""

    by: Id
    role: Role
    date: Day
    because: Prose


class Work(Written):
    """What was done.

    `competence` says what makes those who did it able to, and who watched the learners; `hidden`
    what is covered again, or none; `new_loss` who agreed to a loss that the plan did not have.
    `done_by`, `hours` and `cost` are what it took, against what the chosen option's effort said.
    """

    started: Day
    ended: Day | None = None
    by: tuple[Text, ...] = ()
    as_done: tuple[Step, ...] = ()
    departures: Annotated[
        Annotated[Prose, WORD] | Annotated[tuple[Prose, ...], LIST],
        either("`none` or a list of departures is wanted"),
    ] = ()
    competence: Prose | None = None
    hidden: Prose | None = None
    new_loss: NewLoss | None = None
    done_by: DoneBy | None = None
    hours: Weight | None = None
    cost: Weight | None = None
    photos: tuple[Photo, ...] = ()


class Outcome(Written):
    """What a second look found.

    `measured` is the size that `look_again` said to measure, and `expected` the bounds that stood
    there before the look; they move here when `look_again` is set to the next one.
    """

    date: Day
    by: Id
    what: Prose
    measured: Quantity | None = None
    expected: tuple[Quantity, Quantity] | None = None


class LookAgain(Written):
    """When the decision is looked at again, what is then measured, and what is expected.

    An expectation counts only where it was written before the look, so it stands here first.
    """

    date: Day | None = None
    or_after: Text | None = None
    measure: Text | None = None
    expects: tuple[Quantity, Quantity] | None = None


class Source(Written):
    """A document or a person the record rests on."""

    id: Id | None = None
    what: Prose
    where: Text | None = None


class Consent(Written):
    """The owner's consent; private."""

    by: Text
    date: Day
    text: Prose | None = None


class Departs(Written):
    """A departure from an earlier decision, with the reason."""

    decision: DecisionId
    because: Prose


class Withheld(Written):
    """A reason shown in place of the record."""

    withheld: Prose


class Decision(Written):
    """One decision.

    `conditions_kept` says how the conditions on which the machine was given or lent are kept,
    `replaces_because` what changed since the record it replaces. `leaves_out` says what of the
    system the work does not reach, `adds_up_to` what it makes together with earlier changes to the
    same parts.
    """

    witnessmark: Literal[1]
    id: DecisionId
    title: Prose
    question: Prose
    aim: Aim
    about: tuple[Address, ...] = Field(min_length=1)
    findings: tuple[FindingId, ...] = ()
    policy: PolicyId
    departs_from_policy: Prose | None = None
    state: State
    opened: Day
    until: Day | None = None
    proposed_by: Id
    judged_by: JudgedBy | None = None
    sources: tuple[Source, ...] = ()
    consent: Consent | None = None
    conditions_kept: Prose | None = None
    heard: tuple[Heard, ...] = ()
    interests: Annotated[
        Annotated[tuple[Interest, ...], LIST] | Annotated[Literal["none declared"] | None, WORD],
        either("`none declared` or a list of interests is wanted"),
    ] = None
    worksheets: tuple[UsedSheet, ...] = ()
    hazards: Annotated[
        Annotated[tuple[Hazard, ...], LIST] | Annotated[NoneSigned, MAPPING],
        either("a list of hazards is wanted, or `none:` with `by` and `because`"),
    ] = ()
    options: tuple[Option, ...] = ()
    choice: Choice | None = None
    losses: Annotated[
        Annotated[tuple[Loss, ...], LIST]
        | Annotated[NoneSigned, MAPPING]
        | Annotated[Literal["none"] | None, WORD],
        either("`none` or a list of losses is wanted"),
    ] = None
    follows: tuple[DecisionId, ...] = ()
    departs_from: tuple[Departs, ...] = ()
    departs_from_ranking: Prose | None = None
    accepted_risk: AcceptedRisk | None = None
    waivers: tuple[Waiver, ...] = ()
    explained: tuple[Explained, ...] = ()
    emergency: Emergency | None = None
    agreed: tuple[Signature, ...] = ()
    reckoned: dict[str, object] | None = None
    withdrawn_because: Prose | None = None
    replaced_by: DecisionId | None = None
    replaces: DecisionId | None = None
    replaces_because: Prose | None = None
    work: Work | None = None
    outcome: Annotated[
        Annotated[tuple[Outcome, ...], LIST] | Annotated[Outcome, MAPPING],
        either("`date`, `by` and `what` are wanted, or a list of such"),
    ] = ()
    leaves_out: Prose | None = None
    adds_up_to: Prose | None = None
    look_again: LookAgain | None = None
    photos: tuple[Photo, ...] = ()
    thanks: tuple[Text, ...] = ()
    note: Prose | None = None
    publish: Annotated[
        Annotated[Flag, WORD] | Annotated[Withheld, MAPPING],
        either("true, false or `withheld:` with the reason is wanted"),
    ] = False

    @property
    def listed_hazards(self) -> tuple[Hazard, ...]:
        """The hazards, none when somebody signed that there are none."""
        return () if isinstance(self.hazards, NoneSigned) else self.hazards

    @property
    def outcomes(self) -> tuple[Outcome, ...]:
        """What each second look found, oldest first."""
        return (self.outcome,) if isinstance(self.outcome, Outcome) else self.outcome

    @property
    def listed_losses(self) -> tuple[Loss, ...]:
        """The losses, none when it is said that there are none."""
        return self.losses if isinstance(self.losses, tuple) else ()

    @property
    def chosen(self) -> Option | None:
        """The option that the choice names, if it exists."""
        wanted = self.choice.option if self.choice else None
        return next((option for option in self.options if option.id == wanted), None)

    @property
    def reference_day(self) -> date:
        """The day as on which machine and stock are read: the first signature, or `opened`."""
        return min((signature.date for signature in self.agreed), default=self.opened)

    @property
    def is_settled(self) -> bool:
        """True from agreement on, while the decision still stands."""
        return self.state in {State.AGREED, State.UNDER_WAY, State.DONE}
