"""One change of meaning, its kind, and how much it asks of the reviewer."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum, StrEnum
from typing import Self


class Weight(IntEnum):
    """What a change asks of the reviewer; the heaviest first."""

    PERSON = 0
    LOOK = 1
    NOTE = 2


class Kind(StrEnum):
    """The kinds of change, in the order in which a reviewer must not miss them."""

    heading: str
    usual: Weight

    def __new__(cls, word: str, heading: str, usual: Weight) -> Self:
        """Make a kind with its heading and the weight it usually has."""
        member = str.__new__(cls, word)
        member._value_ = word
        member.heading = heading
        member.usual = usual
        return member

    FLIP = "flip", "Ranking flips", Weight.PERSON
    SEAL_VOID = "seal-void", "Seal void", Weight.PERSON
    SIGNATURE_BAD = "signature-bad", "Signature does not fit", Weight.PERSON
    KEYS = "keys", "List of keys changed", Weight.PERSON
    RULE_NEW = "rule-new", "Newly broken", Weight.PERSON
    CHOICE = "choice", "Choice", Weight.PERSON
    OPTION_REMOVED = "option-removed", "Option removed", Weight.PERSON
    DISSENT_REMOVED = "dissent-removed", "Dissent removed", Weight.PERSON
    HAZARD_REMOVED = "hazard-removed", "Hazard removed", Weight.PERSON
    LOSS_REMOVED = "loss-removed", "Listed loss removed", Weight.PERSON
    AGREEMENT_REMOVED = "agreement-removed", "Agreement removed", Weight.PERSON
    DELETED = "deleted", "Record deleted", Weight.PERSON
    UNREADABLE = "unreadable", "Record cannot be read", Weight.PERSON
    PUBLIC = "public", "Private becomes public", Weight.PERSON
    POLICY_AND_SCORES = "policy-and-scores", "Policy and scores together", Weight.PERSON
    POLICY_EDITED = "policy-edited", "Policy edited", Weight.PERSON
    STATE_BACK = "state-back", "State", Weight.PERSON
    MOVED = "moved", "Machine", Weight.PERSON
    RANKING = "ranking", "Ranking", Weight.LOOK
    STATE = "state", "State", Weight.NOTE
    SCORE = "score", "Score", Weight.LOOK
    RISK = "risk", "Risk", Weight.LOOK
    FABRIC = "fabric", "Original material", Weight.LOOK
    STOCK = "stock", "Old stock", Weight.LOOK
    UNDO = "undo", "Undo level set by hand", Weight.LOOK
    RULE_MENDED = "rule-mended", "Mended", Weight.NOTE
    WAIVER = "waiver", "Waiver", Weight.LOOK
    POLICY = "policy", "Policy", Weight.LOOK
    AGREEMENT = "agreement", "Agreement", Weight.LOOK
    OPTION = "option", "Option", Weight.LOOK
    HAZARD = "hazard", "Hazard", Weight.LOOK
    STEP = "step", "Step or consequence", Weight.LOOK
    EVIDENCE = "evidence", "Evidence", Weight.LOOK
    DISSENT = "dissent", "Dissent", Weight.LOOK
    PROSE = "prose", "Words", Weight.NOTE
    PRIVATE = "private", "Public becomes private", Weight.LOOK
    WORK = "work", "Work and outcome", Weight.NOTE
    AROUND = "around", "Around the records", Weight.LOOK
    OTHER = "other", "Other field", Weight.LOOK
    AFFECTED = "affected", "Not changed but affected", Weight.LOOK
    NEW = "new", "New record", Weight.NOTE

    @property
    def rank(self) -> int:
        """The place in the order of a sheet."""
        return _ORDER[self]


_ORDER = {kind: number for number, kind in enumerate(Kind)}


@dataclass(frozen=True)
class Change:
    """One change: where, what it says in plain words, and the two sides as text.

    `field` is a path of names and ids. Every text may hold what people wrote, so that whoever
    shows it escapes it.
    """

    kind: Kind
    record: str
    field: str
    says: str
    before: str = ""
    after: str = ""
    who: str = ""
    remarks: tuple[str, ...] = ()
    is_public: bool = False
    place: str = ""
    weight: Weight = Weight.NOTE

    @classmethod
    def of(
        cls, kind: Kind, record: str, field: str, says: str, *, weight: Weight | None = None,
        before: str = "", after: str = "", who: str = "", remarks: tuple[str, ...] = (),
        is_public: bool = False, place: str = "",
    ) -> Change:  # fmt: skip
        """A change with the weight its kind usually has."""
        heavy = kind.usual if weight is None else weight
        return cls(kind, record, field, says, before, after, who, remarks, is_public, place, heavy)

    @property
    def needs_a_person(self) -> bool:
        """True when somebody has to decide about this."""
        return self.weight is Weight.PERSON


def in_order(changes: list[Change]) -> tuple[Change, ...]:
    """Changes with what needs a person first, then by kind, record and field."""
    return tuple(sorted(changes, key=lambda c: (c.weight, c.kind.rank, c.record, c.field, c.says)))
