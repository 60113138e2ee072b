"""Past decisions under another policy: which option leads now, and which led then."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from witnessmark.errors import UnknownNameError
from witnessmark.model.library import Library
from witnessmark.weighing.case import Case, work_out


@dataclass(frozen=True, slots=True)
class Replayed:
    """One past decision under two policies; winners are all tied best, None if nothing is weighed.

    `chosen` is the option people chose, whoever led.
    """

    decision: str
    machine: str
    chosen: str | None
    then: tuple[str, ...] | None
    now: tuple[str, ...] | None

    @property
    def is_changed(self) -> bool:
        """Tell whether other options lead under the other policy."""
        return self.then != self.now


def replay(cases: Iterable[Case], *, under: Callable[[Case], Case]) -> tuple[Replayed, ...]:
    """Give every decision as it comes out anew, in order of id.

    `under` works a case out under the other policy: scores and floors change with it, not only
    weights.
    """
    found = [_replayed(case, under(case)) for case in cases]
    return tuple(sorted(found, key=lambda replayed: replayed.decision))


def under_policy(policy: str, *, library: Library) -> Callable[[Case], Case]:
    """Give what works a case out under a policy of the museum.

    Raises:
        UnknownNameError: the museum has no such policy.

    """
    if policy not in library.policies:
        raise UnknownNameError(
            f"There is no policy called {policy}.",
            remedy=f"Name one of {', '.join(library.policies)}.",
        )

    def anew(case: Case) -> Case:
        decision = case.decision.model_copy(update={"policy": policy})
        return work_out(decision, case.machine_id, library)

    return anew


def _replayed(then: Case, now: Case) -> Replayed:
    choice = then.decision.choice
    return Replayed(
        decision=then.decision.id,
        machine=then.machine_id,
        chosen=choice.option if choice else None,
        then=None if then.weighing is None else then.weighing.winner,
        now=None if now.weighing is None else now.weighing.winner,
    )
