"""Which fields of a decision the public may be told of: a list, and nothing outside it."""

from __future__ import annotations

from witnessmark.model.differences import Path

_ANY = "*"
_TEXTS = """
title question aim.what aim.because departs_from_policy departs_from_ranking
hazards.*.what hazards.none.because
options.*.title options.*.what options.*.way_back options.*.later_cost options.*.why_not
options.*.not_scored options.*.misses_aim options.*.ruled_out.because
options.*.steps.*.what options.*.steps.*.because options.*.steps.*.material
options.*.steps.*.drawing options.*.steps.*.marked
options.*.consequences.*.becomes options.*.consequences.*.because options.*.consequences.none
options.*.judged.*.because options.*.unaffected.* options.*.not_applicable.*
options.*.answers.*.because options.*.answers.*.none options.*.answers.*.controls.*.what
choice.because choice.gives_up choice.would_change_our_mind
choice.dissent.*.what choice.dissent.*.answer
losses.*.what losses.none.because departs_from.*.because
waivers.*.because explained.*.because accepted_risk.because emergency.because
outcome.*.what outcome.what look_again.or_after work.departures work.departures.*
"""
_FACTS = """
state policy about findings worksheets.*.given worksheets.*.sheet worksheets.*.bears_on
worksheets.order hazards.*.when hazards.*.before
options.*.kind options.*.steps.order options.*.steps.*.do options.*.steps.*.parts
options.*.steps.*.count options.*.steps.*.fate options.*.steps.*.labels options.*.steps.*.like
options.*.steps.*.undo options.*.consequences.*.count options.*.consequences.*.undo
options.*.judged.*.low options.*.judged.*.likely options.*.judged.*.high
options.*.answers.*.after options.*.answers.*.controls.*.order
choice.option choice.dissent losses.*.recorded_by
waivers.*.rule waivers.*.until explained.*.rule accepted_risk.until
work.started work.ended work.as_done.*.do work.as_done.*.parts work.as_done.*.count
work.as_done.*.fate work.as_done.*.labels work.as_done.*.like work.as_done.*.material
work.as_done.*.drawing work.as_done.*.marked work.as_done.*.what work.as_done.*.because
outcome.*.date outcome.date look_again.date until
"""
"""The lists of the design, section 2, as paths: `*` stands for the id of a list's member."""


def _paths(words: str) -> tuple[Path, ...]:
    return tuple(tuple(word.split(".")) for word in words.split())


_PUBLIC_TEXTS = _paths(_TEXTS)
_PUBLIC = _PUBLIC_TEXTS + _paths(_FACTS)


def is_public(path: Path) -> bool:
    """True for a public field, what lies in it, and what holds one, such as a whole option.

    >>> is_public(("options", "rebush", "steps", "remove drum/bush", "place"))
    False
    >>> is_public(("options", "rebush", "steps", "remove drum/bush")), is_public(("note",))
    (True, False)
    """
    return any(_agree(path, pattern) for pattern in _PUBLIC)


def is_public_text(path: Path) -> bool:
    """True for a public field that holds sentences for people."""
    return any(len(path) == len(pattern) and _agree(path, pattern) for pattern in _PUBLIC_TEXTS)


def _agree(path: Path, pattern: Path) -> bool:
    return all(want in (_ANY, step) for step, want in zip(path, pattern, strict=False))
