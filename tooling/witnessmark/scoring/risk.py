"""Safety of an option: the worst risk that remains. Never typed, never averaged."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from witnessmark.model.decision import Decision, Hazard
from witnessmark.model.options import ALTERS, FITS, NoneSigned, Option
from witnessmark.model.words import Do, Kind, Phase
from witnessmark.scoring.matrix882 import LEVEL_OF_RISK, RiskLevel, cell_words, risk_level
from witnessmark.scoring.score import Score, Scored, Withheld

CAP_WHEN_BEYOND = 1
CHANGED_BY = ALTERS | FITS | {Do.EXCHANGE}


@dataclass(frozen=True)
class SheetVerdict:
    """What a used worksheet says, by its id in the record, in the order written."""

    id: str
    verdict: str | None
    bears_on: tuple[str, ...]


@dataclass(frozen=True)
class Residual:
    """One hazard under one option: the cell before and after, and the risk that is left."""

    hazard: str
    what: str
    when: Phase
    before: str
    after: str | None
    because: str | None
    left: RiskLevel


@dataclass(frozen=True)
class Safety:
    """The residual of every hazard, the caps by worksheets, and the score.

    `held_down_by` are the worksheets that set the score, since every hazard alone would leave more;
    a worksheet beyond its limit is not among them where the risk left is as bad as its cap.
    """

    residuals: tuple[Residual, ...]
    unanswered: tuple[str, ...]
    caps: tuple[str, ...]
    score: Scored
    held_down_by: tuple[str, ...] = ()

    @property
    def worst(self) -> RiskLevel | None:
        """The gravest risk left, or None where there is no hazard."""
        levels = [residual.left for residual in self.residuals]
        return min(levels, key=lambda level: LEVEL_OF_RISK[level], default=None)


def reckon_safety(option: Option, *, decision: Decision, sheets: Sequence[SheetVerdict]) -> Safety:
    """The worst residual over both phases, capped where a worksheet is beyond its limit."""
    beyond = tuple(_beyond(option, sheets))
    caps = tuple(_cap(sheet, address) for sheet, address in beyond)
    if isinstance(decision.hazards, NoneSigned):
        signed = decision.hazards.none
        fact = f"{signed.by} signed that there is no hazard: {signed.because}"
        return Safety((), (), caps, *_capped(Score.exactly(4, fact), beyond))
    why = tuple(_phases_missing(decision))
    unanswered = tuple(h.id for h in decision.listed_hazards if h.id not in option.answers)
    why += tuple(f"The hazard {name} is not answered." for name in unanswered)
    residuals = tuple(_residuals(option, decision.listed_hazards))
    if why:
        return Safety(residuals, unanswered, caps, Withheld(why))
    return Safety(residuals, (), caps, *_capped(_worst(residuals), beyond))


def _phases_missing(decision: Decision) -> Iterator[str]:
    found = {hazard.when for hazard in decision.listed_hazards}
    for phase in Phase:
        if phase not in found:
            yield f"No hazard is listed for {phase.value}."


def _residuals(option: Option, hazards: Sequence[Hazard]) -> Iterator[Residual]:
    for hazard in hazards:
        answer = option.answers.get(hazard.id)
        if answer is None:
            continue
        left = risk_level(answer.after) if answer.after else RiskLevel.ELIMINATED
        because = answer.none or answer.because
        yield Residual(
            hazard.id, hazard.what, hazard.when, hazard.before, answer.after, because, left
        )


def _worst(residuals: Sequence[Residual]) -> Score:
    level = min(LEVEL_OF_RISK[residual.left] for residual in residuals)
    governing = [r for r in residuals if LEVEL_OF_RISK[r.left] == level]
    return Score.exactly(level, *(_sentence(residual) for residual in governing))


def _sentence(residual: Residual) -> str:
    phase = residual.when.value.replace("-", " ")
    if residual.after is None:
        return f"{residual.what} ({phase}): does not arise, {residual.because}"
    return (
        f"{residual.what} ({phase}): {residual.before} before, {cell_words(residual.after)} left."
    )


def _beyond(option: Option, sheets: Sequence[SheetVerdict]) -> Iterator[tuple[str, str]]:
    """Worksheets beyond their limit, with each part the option leaves in service unchanged."""
    if option.kind is Kind.STOP_RUNNING:
        return
    changed = _changed(option)
    relied = [(n, s) for n, s in enumerate(sheets) if s.id in option.relies_on]
    for number, sheet in enumerate(sheets):
        if sheet.verdict != "beyond":
            continue
        later = {a for n, s in relied if n > number for a in s.bears_on}
        for address in sheet.bears_on:
            if address not in changed and address not in later:
                yield sheet.id, address


def _cap(sheet: str, address: str) -> str:
    return (
        f"By the worksheet {sheet}, {address} is beyond its limit and stays in service as it is,"
        f" so the score is {CAP_WHEN_BEYOND} at most."
    )


def _changed(option: Option) -> set[str]:
    """The places that hold something else afterwards; what is only put back is not changed."""
    changed: set[str] = set()
    out: set[str] = set()
    for step in option.steps:
        if step.do is Do.REMOVE:
            out.update(step.addresses)
        elif step.do is Do.REFIT:
            out.difference_update(step.addresses)
        elif step.do in CHANGED_BY:
            changed.update(step.addresses)
    return changed | out


def _capped(score: Score, beyond: Sequence[tuple[str, str]]) -> tuple[Score, tuple[str, ...]]:
    """The score, and the worksheets that hold it down."""
    if not beyond or score.likely <= CAP_WHEN_BEYOND:
        return score, ()
    held = Score.exactly(CAP_WHEN_BEYOND, *(_cap(*each) for each in beyond))
    return held, tuple(dict.fromkeys(sheet for sheet, _ in beyond))
