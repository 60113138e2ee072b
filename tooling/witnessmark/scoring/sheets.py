"""The worksheets a decision uses, reckoned from what the record gives them."""

from __future__ import annotations

from dataclasses import dataclass

from witnessmark.model.decision import Decision, UsedSheet
from witnessmark.scoring.risk import SheetVerdict
from witnessmark.worksheets.faults import Fault, SheetRefuses, SheetUnknown
from witnessmark.worksheets.registry import find_sheet
from witnessmark.worksheets.run import Run, run


@dataclass(frozen=True)
class Reckoned:
    """One used worksheet: its run, or why there is none."""

    used: UsedSheet
    run: Run | None
    faults: tuple[Fault, ...] = ()

    @property
    def verdict(self) -> SheetVerdict:
        """What scoring needs of it."""
        word = self.run.verdict.word if self.run and self.run.verdict else None
        return SheetVerdict(self.used.id, word, self.used.bears_on)


def reckon_sheets(decision: Decision) -> tuple[Reckoned, ...]:
    """Every used worksheet, in the order written."""
    return tuple(_reckon(used) for used in decision.worksheets)


def _reckon(used: UsedSheet) -> Reckoned:
    try:
        given = {name: v if isinstance(v, str) else list(v) for name, v in used.given.items()}
        return Reckoned(used, run(find_sheet(used.sheet), given))
    except SheetUnknown as unknown:
        return Reckoned(used, None, (Fault(name="", message=unknown.message, fix=unknown.fix),))
    except SheetRefuses as refusal:
        return Reckoned(used, None, refusal.faults)
