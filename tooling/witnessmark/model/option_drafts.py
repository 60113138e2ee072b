"""What an option of each kind begins with: steps, consequences, and who has to judge what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from witnessmark.model.words import Aspect, Do, Fate, Kind, Like

Fields = Mapping[str, str]
"""Fields of one step or consequence as they are to be written; an empty text is a blank."""

SHORT_IDS: Final[Mapping[Kind, str]] = MappingProxyType(
    {
        Kind.LEAVE_AS_FOUND: "leave",
        Kind.STOP_RUNNING: "stop",
        Kind.RESTRICT_USE: "restrict",
        Kind.CONSERVE_IN_PLACE: "conserve",
        Kind.RENEW_LIKE_FOR_LIKE: "renew",
        Kind.RENEW_EQUIVALENT: "equivalent",
        Kind.FIT_OLD_STOCK: "old-stock",
        Kind.FIT_FROM_DONOR: "donor",
    }
)
"""Ids for the kinds whose own word is long; the others are called by their kind."""

_NOTHING_DONE: Final = frozenset({Kind.LEAVE_AS_FOUND, Kind.RESTRICT_USE})
"""Kinds by which no hand is laid on the machine, so that no danger of the work is there."""
_RENEWS: Final[Mapping[Kind, tuple[Do, Like]]] = MappingProxyType(
    {
        Kind.RENEW_LIKE_FOR_LIKE: (Do.FIT_NEW, Like.SAME),
        Kind.RENEW_EQUIVALENT: (Do.FIT_NEW, Like.UNLIKE),
        Kind.FIT_OLD_STOCK: (Do.FIT_OLD_STOCK, Like.SAME),
        Kind.FIT_FROM_DONOR: (Do.FIT_FROM_DONOR, Like.SAME),
    }
)
_TOUCHED: Final[Mapping[Kind, tuple[Aspect, ...]]] = MappingProxyType(
    {
        Kind.LEAVE_AS_FOUND: (Aspect.USE,),
        Kind.RESTRICT_USE: (Aspect.USE, Aspect.TECHNIQUE),
        Kind.STOP_RUNNING: (Aspect.USE, Aspect.TECHNIQUE, Aspect.SPIRIT),
        Kind.SERVICE: (Aspect.TECHNIQUE,),
        Kind.MODIFY: (Aspect.FORM, Aspect.USE, Aspect.TECHNIQUE),
        Kind.RENEW_EQUIVALENT: (Aspect.FORM, Aspect.USE, Aspect.TECHNIQUE),
    }
)
"""The aspects a kind usually touches; form and technique for those that are not named."""

_JUDGED: Final = tuple(aspect for aspect in Aspect if aspect is not Aspect.MATERIAL)


@dataclass(frozen=True, kw_only=True)
class OptionDraft:
    """An option as it is to be written; empty texts are blanks to be filled.

    `answers` hold a grade such as 2E and its reason by the hazard's id, `none` the hazards that are
    not there with the reason. `judged` are levels with their reasons, `unaffected` the sentences of
    the others.
    """

    id: str
    kind: Kind
    title: str
    what: str = ""
    steps: tuple[Fields, ...] = ()
    consequences: tuple[Fields, ...] = ()
    answers: Mapping[str, tuple[str, str]] = field(default_factory=dict)
    none: Mapping[str, str] = field(default_factory=dict)
    judged: Mapping[Aspect, tuple[str, str]] = field(default_factory=dict)
    unaffected: Mapping[Aspect, str] = field(default_factory=dict)
    way_back: str | None = None
    why_not: str = ""
    hours: tuple[str, str] | None = None
    cost: tuple[str, str] | None = None


def begun(
    kind: Kind,
    title: str,
    *,
    about: Sequence[str],
    hazards: Mapping[str, bool],
    taken: Sequence[str] = (),
) -> OptionDraft:
    """An option with all that follows from its kind, and the rest blank.

    `hazards` says of each hazard whether it belongs to doing the work; `taken` are ids in use.
    """
    touched = _TOUCHED.get(kind, (Aspect.FORM, Aspect.TECHNIQUE))
    is_left = kind in _NOTHING_DONE
    none = {name: "No work is done" for name, in_work in hazards.items() if in_work and is_left}
    return OptionDraft(
        id=_free(SHORT_IDS.get(kind, kind.value), taken),
        kind=kind,
        title=title or kind.definition.rstrip("."),
        steps=() if kind in _NOTHING_DONE else tuple(_steps(kind, about)),
        consequences=tuple(_consequences(about)) if kind in _NOTHING_DONE else (),
        answers={name: ("", "") for name in hazards if name not in none},
        none=none,
        judged=dict.fromkeys(touched, ("", "")),
        unaffected={
            aspect: "Nothing is done to it" if is_left and aspect is Aspect.FORM else ""
            for aspect in _JUDGED
            if aspect not in touched
        },
        way_back=None if kind in _NOTHING_DONE else "",
    )


def _free(name: str, taken: Sequence[str]) -> str:
    tries = (name if number == 1 else f"{name}-{number}" for number in range(1, len(taken) + 2))
    return next(one for one in tries if one not in taken)


def _consequences(about: Sequence[str]) -> Iterator[Fields]:
    for part in about:
        yield {"part": part, "becomes": "", "undo": "", "because": ""}


def _steps(kind: Kind, about: Sequence[str]) -> Iterator[Fields]:
    for part in about:
        if kind in _RENEWS:
            yield from renewed(part, *_RENEWS[kind])
        elif kind is Kind.STOP_RUNNING:
            yield {"do": Do.LOCK_OUT.value, "part": part, "what": ""}
        elif kind is Kind.CONSERVE_IN_PLACE:
            yield {"do": Do.CLEAN.value, "part": part, "what": ""}
        else:
            yield {"do": "", "part": part, "what": ""}


def renewed(part: str, do: Do, like: Like) -> Iterator[Fields]:
    """One part out and kept, another in; what only the workshop knows is blank."""
    yield {
        "do": Do.REMOVE.value, "part": part, "fate": Fate.STORED.value, "label": "", "place": "",
        "care": "",
    }  # fmt: skip
    fit = {"do": do.value, "part": part, "like": like.value}
    if do is Do.FIT_NEW:
        yield {**fit, "material": "", "drawing": "", "made_by": "", "marked": ""}
    else:
        yield {**fit, "from": "", "inspected": ""}
