"""Work that was done as linked data: what came off, what went in, and what was altered.

Work that is only planned, or still goes on, is no event here: its option says what is planned.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from witnessmark.exchange.export.addresses import Addresses
from witnessmark.exchange.export.linked_machine import material
from witnessmark.exchange.export.nodes import Node, node, ref, refs, some, span, word
from witnessmark.exchange.export.people import by
from witnessmark.exchange.export.published import Decision, OldPart, Step, Work
from witnessmark.model.options import ALTERS, FITS
from witnessmark.model.words import Do, Fate, Origin


@dataclass(frozen=True)
class _Job:
    """A decision's ended work, with what turns its words into addresses."""

    decision: Decision
    work: Work
    at: Addresses

    def mark(self, mark: str) -> str:
        """An address within the decision."""
        return self.at.within(self.decision.id, mark)

    @property
    def off(self) -> list[tuple[str, OldPart]]:
        """What came off, each with its address: by its label where it has one."""
        old = enumerate(self.decision.old_parts, start=1)
        return [
            (self.at.labelled(o.label) if o.label else self.mark(f"removed-{n}"), o)
            for n, o in old
            if o.day is not None
        ]


def _classes(found: Node) -> list[str]:
    classes = found["@type"]
    return [str(each) for each in classes] if isinstance(classes, list) else []


@dataclass(frozen=True)
class _Act:
    """One step at one place: its nodes, the first of which is the act itself."""

    place: str
    do: Do
    nodes: tuple[Node, ...]

    @property
    def address(self) -> str:
        """The address of the act."""
        return str(self.nodes[0]["@id"])

    @property
    def events(self) -> list[str]:
        """The act, and the removal from a machine that gives to it."""
        giving = (n for n in self.nodes[1:] if "crm:E80_Part_Removal" in _classes(n))
        return [self.address, *(str(found["@id"]) for found in giving)]


def work_nodes(decision: Decision, at: Addresses) -> Iterator[Node]:
    """The work with its steps and the pieces that came off or went in; none before its end."""
    if decision.work is None or decision.work.ended is None:
        return
    job = _Job(decision, decision.work, at)
    acts = list(_acts(job))
    swaps = list(_swaps(job, acts))
    swapped = {str(part["@id"]) for swap in swaps for part in _parts_of(swap)}
    events = [address for act in acts for address in act.events]
    loose = [address for address in events if address not in swapped]
    yield _work(job, [*(str(swap["@id"]) for swap in swaps), *loose])
    yield from swaps
    yield from (found for act in acts for found in act.nodes)
    yield from (_piece(address, old, job) for address, old in job.off)


def _parts_of(swap: Node) -> list[Node]:
    found = swap["crm:P9_consists_of"]
    return [part for part in found if isinstance(part, dict)] if isinstance(found, list) else []


def _work(job: _Job, steps: list[str]) -> Node:
    work, decision, at = job.work, job.decision, job.at
    chosen = decision.choice.option
    return node(
        job.mark("work"),
        *("crm:E11_Modification", "prov:Activity", "wm:Work"),
        label=f"The work of decision {decision.id}",
        **some(
            crm__P3_has_note=list(work.departures),
            crm__P4_has_time_span=span(work.started, work.ended or work.started),
            crm__P9_consists_of=refs(steps),
            crm__P14_carried_out_by=by(work.by, at),
            crm__P17_was_motivated_by=ref(at.decision(decision.id)),
            crm__P31_has_modified=ref(at.machine(decision.machine)),
            crm__P33_used_specific_technique=ref(at.option(decision.id, chosen))
            if chosen
            else None,
            prov__wasInformedBy=ref(at.decision(decision.id)),
        ),
    )


def _swaps(job: _Job, acts: list[_Act]) -> Iterator[Node]:
    """One modification for each place where something came out and something went in."""
    places: dict[str, list[_Act]] = defaultdict(list)
    for act in acts:
        if act.do is Do.REMOVE or act.do in FITS:
            places[act.place].append(act)
    swapped = {p: found for p, found in places.items() if len({a.do for a in found}) > 1}
    for number, (place, found) in enumerate(swapped.items(), start=1):
        if not any(act.do is Do.REMOVE for act in found):
            continue
        yield node(
            job.mark(f"swap-{number}"),
            *("crm:E11_Modification", "prov:Activity", "wm:Swap"),
            label=f"A swap at {place}",
            **some(
                crm__P31_has_modified=refs(_wholes(job, place)),
                crm__P9_consists_of=refs([act.address for act in found]),
            ),
        )


def _wholes(job: _Job, place: str) -> list[str]:
    """What loses or gains a piece: the machine, and the part as a place in it."""
    machine = job.decision.machine
    return [job.at.machine(machine), job.at.part(machine, place)]


def _acts(job: _Job) -> Iterator[_Act]:
    """Each step at each of its places, in the order of the work."""
    out = {place for step in job.work.as_done if step.do is Do.REMOVE for place in step.places}
    for number, step in enumerate(job.work.as_done, start=1):
        for index, place in enumerate(step.places):
            mark = f"{number}-{index + 1}"
            if step.do is not None:
                nodes = tuple(_nodes_of(job, step, index, mark, comes_back=place in out))
                yield _Act(place, step.do, nodes)


def _nodes_of(job: _Job, step: Step, index: int, mark: str, *, comes_back: bool) -> Iterator[Node]:
    place = step.places[index]
    if step.do is Do.REMOVE:
        label = step.labels[index] if index < len(step.labels) else None
        yield _removal(job, step, mark, place, _taken(job, place, label))
    elif step.do in FITS:
        yield from _fit(job, step, mark, place)
    elif step.do is Do.REFIT and comes_back:
        yield _addition(job, step, mark, place, _taken(job, place, None)[:1])
    else:
        yield _other(job, step, mark, place)


def _taken(job: _Job, place: str, label: str | None) -> list[str]:
    """The pieces this job took from a place and that stayed out; else the part itself."""
    machine = job.decision.machine
    here = [(a, old) for a, old in job.off if (old.machine, old.address) == (machine, place)]
    if label:
        here = [(a, old) for a, old in here if (old.label or "").upper() == label.upper()]
    return [address for address, _ in here] or [job.at.part(machine, place)]


def _removal(job: _Job, step: Step, mark: str, place: str, pieces: list[str]) -> Node:
    return node(
        job.mark(f"work-{mark}"),
        *("crm:E80_Part_Removal", "prov:Activity"),
        label=step.text,
        **some(
            crm__P112_diminished=refs(_wholes(job, place)),
            crm__P113_removed=refs(pieces),
            crm__P3_has_note=step.because,
        ),
    )


def _addition(job: _Job, step: Step, mark: str, place: str, pieces: list[str]) -> Node:
    return node(
        job.mark(f"work-{mark}"),
        *("crm:E79_Part_Addition", "prov:Activity"),
        label=step.text,
        **some(
            crm__P2_has_type=word(step.like) if step.like else None,
            crm__P110_augmented=refs(_wholes(job, place)),
            crm__P111_added=refs(pieces),
            crm__P3_has_note=step.because,
        ),
    )


def _fit(job: _Job, step: Step, mark: str, place: str) -> Iterator[Node]:
    """What went in: a new piece with its making, old stock, or a piece from another machine."""
    if step.source is not None:
        given = _given(job, step)
        yield _addition(job, step, mark, place, given)
        yield _giving(job, step, mark, given)
        return
    piece = job.mark(f"fitted-{mark}")
    yield _addition(job, step, mark, place, [piece])
    new = step.do is Do.FIT_NEW
    yield node(
        piece,
        *("crm:E22_Human-Made_Object", "prov:Entity", "wm:Piece"),
        label=step.what or f"What was fitted at {place}",
        **some(
            crm__P2_has_type=word(Origin.MUSEUM_MADE) if new else None,
            crm__P3_has_note=f"Marked {step.marked}" if step.marked else None,
            crm__P45_consists_of=material(step.material),
            crm__P46i_forms_part_of=ref(job.at.part(job.decision.machine, place)),
            wm__count=step.count,
        ),
    )
    if new:
        yield node(
            job.mark(f"making-{mark}"),
            *("crm:E12_Production", "prov:Activity"),
            label=f"The making of what was fitted at {place}",
            **some(
                crm__P108_has_produced=ref(piece),
                crm__P3_has_note=f"Drawing {step.drawing}" if step.drawing else None,
            ),
        )


def _given(job: _Job, step: Step) -> list[str]:
    """The pieces that another machine gave."""
    found = [a for a, old in job.off if (old.machine, old.address) == step.source]
    return found or [job.at.part(*step.source)] if step.source else []


def _giving(job: _Job, step: Step, mark: str, given: list[str]) -> Node:
    """The removal from the machine that gives."""
    machine, address = step.source or (job.decision.machine, "")
    return node(
        job.mark(f"giving-{mark}"),
        *("crm:E80_Part_Removal", "prov:Activity"),
        label=f"Taken from the giving machine. {step.text}",
        **some(
            crm__P112_diminished=refs([job.at.machine(machine), job.at.part(machine, address)]),
            crm__P113_removed=refs(given),
        ),
    )


def _other(job: _Job, step: Step, mark: str, place: str) -> Node:
    """A step in which no piece changes its machine; one that alters metal is a modification."""
    part = ref(job.at.part(job.decision.machine, place))
    alters = step.do in ALTERS or step.do is Do.EXCHANGE
    return node(
        job.mark(f"work-{mark}"),
        *("crm:E11_Modification" if alters else "crm:E7_Activity", "prov:Activity"),
        label=step.text,
        **some(
            crm__P31_has_modified=part if alters else None,
            crm__P16_used_specific_object=None if alters else part,
            crm__P32_used_general_technique=word(step.do) if step.do else None,
            crm__P3_has_note=step.because,
        ),
    )


def _piece(address: str, old: OldPart, job: _Job) -> Node:
    """What came off: what it is, and whether it can be seen. Where it lies in store is private."""
    at = job.at
    kept = old.fate is not None and old.fate is not Fate.LOST
    label = {"@type": "crm:E42_Identifier", "rdfs:label": old.label} if old.label else None
    elsewhere = at.machine(job.decision.machine) if old.now_in else None
    words = [word(each) for each in (old.origin, old.fate) if each is not None]
    return node(
        address,
        *("crm:E22_Human-Made_Object", "prov:Entity", "wm:RemovedPiece"),
        label=old.name,
        **some(
            crm__P1_is_identified_by=label,
            crm__P2_has_type=list(words),
            crm__P46i_forms_part_of=ref(elsewhere) if elsewhere else None,
            crm__P50_has_current_keeper=ref(at.museum) if kept else None,
            crm__P55_has_current_location=ref(at.on_show) if old.fate is Fate.DISPLAYED else None,
            wm__count=old.count,
        ),
    )
