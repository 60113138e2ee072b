"""Record checks: no piece of old stock, and no donor's part, is used up by two records."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import Library
from witnessmark.model.options import Step
from witnessmark.model.position import position_on
from witnessmark.model.remains import Path
from witnessmark.model.trace import TAKES, Trace, Traces, holds_from
from witnessmark.model.words import Do
from witnessmark.rules.report import Report
from witnessmark.weighing.case import Case

OVERDRAWN = "WM087"


@dataclass(frozen=True)
class Claim:
    """What one settled record takes, or has reserved, from a lot or a donor's place.

    `day` is the day from which it holds; `ended` the day the work ended, none while it is reserved;
    `count` is None where a donor gives all that is there.
    """

    decision: str
    count: int | None
    day: date
    ended: date | None

    @property
    def told(self) -> str:
        """The claim in words, with the record's name.

        >>> Claim("2023-009", 2, date(2023, 1, 1), None).told
        '2023-009 has reserved 2'
        """
        pieces = "all" if self.count is None else str(self.count)
        if self.ended is None:
            return f"{self.decision} has reserved {pieces}"
        return f"{self.decision} took {pieces} on {self.ended}"


def check_stock(case: Case, library: Library, report: Report) -> Iterator[Diagnostic]:
    """No option, and no work done, takes more than other records have left for it."""
    decision = case.decision
    stores = library.stores_file.value if library.stores_file else None
    every = claims(library.traces, stores.as_of if stores else None)
    for path, steps in _takings(decision):
        wanted: Counter[str] = Counter()
        for number, step in steps:
            source = step.source or ""
            wanted[source] += _pieces(step) or 1
            earlier = _earlier(decision, every.get(source, ()))
            left = _left(library, step, decision, earlier)
            if left is not None and wanted[source] > left:
                message = _told(decision, source, wanted[source], max(left, 0), earlier)
                yield report.at((*path, number, "from"), OVERDRAWN, message)


def _told(decision: Decision, source: str, wanted: int, left: int, earlier: Sequence[Claim]) -> str:
    message = f"{decision.id} draws {wanted} from {source}, but {left} are left for it"
    others = "; ".join(claim.told for claim in earlier)
    return f"{message}: {others}." if others else f"{message}."


def _takings(decision: Decision) -> Iterator[tuple[Path, list[tuple[int, Step]]]]:
    """The steps that take something, with their numbers, option by option and as done."""
    lists: list[tuple[Path, Iterable[Step]]] = [
        (("options", index, "steps"), option.steps) for index, option in enumerate(decision.options)
    ]
    if decision.work:
        lists.append((("work", "as_done"), decision.work.as_done))
    for path, steps in lists:
        yield path, [(number, step) for number, step in enumerate(steps) if step.do in TAKES]


def _left(library: Library, step: Step, decision: Decision, earlier: Sequence[Claim]) -> int | None:
    """Pieces that earlier records leave; None where the source is not known."""
    if step.do is Do.FIT_OLD_STOCK:
        lot = library.lots.get(step.source or "")
        return lot.count - sum(claim.count or 0 for claim in earlier) if lot else None
    giver, _, address = (step.source or "").partition("/")
    machine = library.machines.get(giver)
    listed = {place: part.count for place, _, part in machine.parts()} if machine else {}
    if address not in listed:
        return None
    if any(claim.count is None for claim in earlier):
        return 0
    day = decision.reference_day if decision.is_settled else None
    there = position_on(library, giver, day, without=decision.id).places.get(address, ())
    ended = {claim for claim in earlier if claim.ended and (day is None or claim.ended < day)}
    reserved = sum(claim.count or 0 for claim in earlier if claim not in ended)
    return sum(pieces.count for pieces in there) - reserved


def _earlier(decision: Decision, claims: Sequence[Claim]) -> list[Claim]:
    """The claims of other records that come before this one; all of them until it is agreed."""
    mine = (holds_from(decision), decision.id)
    others = (claim for claim in claims if claim.decision != decision.id)
    return [
        claim for claim in others if not decision.is_settled or (claim.day, claim.decision) < mine
    ]


def _pieces(step: Step) -> int | None:
    if step.count is None and step.do is Do.FIT_FROM_DONOR:
        return None
    return (step.count or 1) * len(step.addresses)


@lru_cache(maxsize=8)
def claims(traces: Traces, counted: date | None) -> Mapping[str, tuple[Claim, ...]]:
    """Every claim by its source, the earliest first; draws before the stores' count are in it."""
    found: dict[str, list[Claim]] = {}
    for trace in traces.all:
        for step, claim in _of(trace):
            is_counted = counted and claim.ended and claim.ended < counted
            if step.source and not (is_counted and step.do is Do.FIT_OLD_STOCK):
                found.setdefault(step.source, []).append(claim)
    return {
        source: tuple(sorted(claims, key=lambda claim: (claim.day, claim.decision)))
        for source, claims in found.items()
    }


def _of(trace: Trace) -> Iterator[tuple[Step, Claim]]:
    for step in trace.done or trace.reserves:
        if step.do in TAKES:
            yield step, Claim(trace.id, _pieces(step), trace.holds_from, trace.ended)
