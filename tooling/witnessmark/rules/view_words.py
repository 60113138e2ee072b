"""The closed words as rules see them: texts to Python, closed lists to the check of expressions.

The CEL engine takes plain texts only, so a record's word goes in by its `value`; the list it comes
from stays known, so that a rule that asks for a word outside it is refused when the book loads.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from witnessmark.model.words import (
    Aspect,
    Basis,
    CarriedOn,
    Do,
    DoneBy,
    Fate,
    Floor,
    Grade,
    HazardKind,
    Kept,
    Kind,
    Like,
    Lubricant,
    MadeTo,
    Order,
    Origin,
    Phase,
    Presence,
    Purpose,
    Role,
    State,
    Word,
)
from witnessmark.scoring.matrix882 import RiskLevel

Given = Literal["listed", "none", "blank"]
"""Whether a list was written, said to be none, or left blank."""

Known = Literal["true", "false", "unknown"]
"""An answer that may be unknown, as records write it."""


def _or_unsaid(words: type[Word | RiskLevel]) -> Any:  # noqa: ANN401  a Literal made at run time
    return Literal[("", *(word.value for word in words))]


if TYPE_CHECKING:
    AspectWord: TypeAlias = str
    BasisWord: TypeAlias = str
    CarriedOnWord: TypeAlias = str
    DoneByWord: TypeAlias = str
    FloorWord: TypeAlias = str
    HazardKindWord: TypeAlias = str
    LubricantWord: TypeAlias = str
    OrderWord: TypeAlias = str
    PresenceWord: TypeAlias = str
    DoWord: TypeAlias = str
    FateWord: TypeAlias = str
    FoundMadeToWord: TypeAlias = str
    GradeWord: TypeAlias = str
    HowWord: TypeAlias = str
    KeptWord: TypeAlias = str
    KindWord: TypeAlias = str
    ChosenKindWord: TypeAlias = str
    LikeWord: TypeAlias = str
    MadeToWord: TypeAlias = str
    OriginWord: TypeAlias = str
    PhaseWord: TypeAlias = str
    PurposeWord: TypeAlias = str
    RiskWord: TypeAlias = str
    RoleWord: TypeAlias = str
    StateWord: TypeAlias = str
else:
    AspectWord, BasisWord, DoWord, GradeWord, KeptWord = Aspect, Basis, Do, Grade, Kept
    KindWord, MadeToWord, OriginWord, PhaseWord = Kind, MadeTo, Origin, Phase
    PurposeWord, RoleWord, StateWord = Purpose, Role, State
    OrderWord = Order
    HowWord = Literal["computed", "judged", "unaffected", "not applicable", "blank"]
    # These may be left unsaid, which rules see as an empty text.
    FateWord, LikeWord = _or_unsaid(Fate), _or_unsaid(Like)
    FoundMadeToWord = _or_unsaid(MadeTo)
    RiskWord, ChosenKindWord = _or_unsaid(RiskLevel), _or_unsaid(Kind)
    HazardKindWord, PresenceWord = _or_unsaid(HazardKind), _or_unsaid(Presence)
    LubricantWord, DoneByWord = _or_unsaid(Lubricant), _or_unsaid(DoneBy)
    FloorWord, CarriedOnWord = _or_unsaid(Floor), _or_unsaid(CarriedOn)
