"""A decision worked out, and the museum around it, as the records that rules are asked of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING

from witnessmark.model.decision import Decision
from witnessmark.model.library import Library
from witnessmark.model.trace import Trace, Traces
from witnessmark.model.words import Criterion, State
from witnessmark.rules.around_facts import followed_views, tension_parts, tension_views
from witnessmark.rules.decision_facts import decision_view
from witnessmark.rules.machine_facts import (
    finding_view,
    machine_view,
    museum_view,
    whole_machine_view,
)
from witnessmark.rules.option_facts import levels_of, option_view, planned_steps, work_steps
from witnessmark.rules.rule import Scope
from witnessmark.rules.step_facts import Setting
from witnessmark.rules.view_decision import AlikeView, EarlierView, FactsView
from witnessmark.weighing.case import Case
from witnessmark.weighing.near import decided_otherwise

if TYPE_CHECKING:
    from witnessmark.rules.rule import Path
    from witnessmark.rules.view_option import StepView
    from witnessmark.rules.views import Context
    from witnessmark.scoring.scores import Ground


@dataclass(frozen=True, slots=True)
class Asking:
    """One record that rules of a scope are asked of, and the path it has in its file."""

    scope: Scope
    context: Context
    path: Path = ()


def askings_of_decision(case: Case, library: Library) -> Iterator[Asking]:
    """The decision, each option and each step; nothing while it cannot be scored."""
    ground = case.ground
    if ground is None:
        return
    setting = Setting(case.decision, case.machine_id, library, ground.places, ground.day)
    shared: Context = {
        "decision": decision_view(case, setting),
        "machine": machine_view(library, case.machine_id, ground.day),
        "facts": _facts(case, ground, library),
    }
    count = range(len(case.decision.options))
    steps = [planned_steps(index, case, setting) for index in count]
    levels = levels_of(case)
    options = [option_view(index, case, steps[index], levels=levels) for index in count]
    chosen = [option for option in options if option["is_chosen"]]
    yield Asking(Scope.DECISION, {**shared, "options": options, "chosen": chosen})
    for option in options:
        yield Asking(Scope.OPTION, {**shared, "option": option}, ("options", option["index"]))
    for index in count:
        yield from _of_steps(steps[index], shared, ("options", index, "steps"))
    yield from _of_steps(work_steps(case, setting), shared, ("work", "as_done"))


def _of_steps(steps: list[StepView], shared: Context, path: Path) -> Iterator[Asking]:
    for step in steps:
        yield Asking(Scope.STEP, {**shared, "step": step}, (*path, step["index"]))


def askings_of_machine(machine: str, library: Library) -> Iterator[Asking]:
    """A machine that could be read."""
    if machine in library.machines:
        yield Asking(Scope.MACHINE, {"machine": whole_machine_view(library, machine)})


def askings_of_findings(machine: str, library: Library) -> Iterator[Asking]:
    """Each finding of a machine that could be read."""
    is_read = machine in library.machines
    for index, finding in enumerate(library.findings_of(machine) if is_read else ()):
        context: Context = {
            "finding": finding_view(finding, machine=machine, library=library),
            "machine": machine_view(library, machine, finding.date),
        }
        yield Asking(Scope.FINDING, context, ("findings", index))


def asking_of_museum(library: Library) -> Asking:
    """The museum as a whole."""
    return Asking(Scope.MUSEUM, {"museum": museum_view(library)})


def _facts(case: Case, ground: Ground, library: Library) -> FactsView:
    floor = ground.policy.floors.get(ground.kept, {}).get(Criterion.SAFETY)
    return {
        "policy": ground.policy_id,
        "kept": ground.kept.value,
        "safety_floor": float(floor) if floor is not None else 0.0,
        "leading": list(case.winners),
        "roles_held": _roles_held(library, ground.day),
        "earlier": list(_earlier(case.decision, case.machine_id, library)),
        "alike": list(_alike(case.decision, case.machine_id, library)),
        "followed": followed_views(case.decision, library),
        "runs_on_tracks": bool(tension_parts(library, case.machine_id)),
        "tension": tension_views(case, library),
    }


@lru_cache(maxsize=4096)
def _roles_held(library: Library, day: date) -> list[str]:
    people = library.people.values()
    return sorted({held.role.value for p in people for held in p.roles if held.covers(day)})


def _earlier(decision: Decision, machine: str, library: Library) -> Iterator[EarlierView]:
    """The settled decisions opened before this one about some of the same parts."""
    table = _about_parts(library.traces)
    near = {t.id: t for address in decision.about for t in table.get((machine, address), ())}
    named = {*decision.follows, *(d.decision for d in decision.departs_from), decision.replaces}
    for other in near.values():
        if (other.opened, other.id) >= (decision.opened, decision.id):
            continue
        yield {
            "id": other.id,
            "title": other.title,
            "state": other.state.value,
            "chosen_kind": other.chosen_kind.value if other.chosen_kind else "",
            "parts": sorted(set(other.about) & set(decision.about)),
            "is_named": other.id in named,
        }


def _alike(decision: Decision, machine: str, library: Library) -> Iterator[AlikeView]:
    """The nearest standing decisions opened before this one that were decided otherwise."""
    answered = {*(d.decision for d in decision.departs_from), decision.replaces}
    for near in decided_otherwise(decision, machine, library):
        earlier = near.decision
        yield {
            "id": earlier.id,
            "title": earlier.title,
            "chosen_kind": near.kind.value,
            "likeness": int((near.likeness.similarity or 0) * 100),
            "is_answered": earlier.id in answered,
        }


@lru_cache(maxsize=8)
def _about_parts(traces: Traces) -> Mapping[tuple[str, str], tuple[Trace, ...]]:
    """The decisions that were agreed and are about a part, by machine and address."""
    found: dict[tuple[str, str], list[Trace]] = {}
    for trace in traces.all:
        if trace.is_settled or trace.state is State.REPLACED:
            for address in trace.about:
                found.setdefault((trace.machine, address), []).append(trace)
    return {key: tuple(about) for key, about in found.items()}
