"""A machine, its parts and findings as linked data."""

from __future__ import annotations

from collections.abc import Iterator

from witnessmark.exchange.export.addresses import Addresses
from witnessmark.exchange.export.nodes import Node, node, ref, refs, some, span, word
from witnessmark.exchange.export.people import people
from witnessmark.exchange.export.published import Finding, Machine, Part


def machine_nodes(machine: Machine, at: Addresses) -> Iterator[Node]:
    """The machine, its page, each part and finding, and whoever found."""
    me = at.machine(machine.id)
    parts = [part for assembly in machine.assemblies for part in assembly.parts]
    yield node(
        me,
        *("crm:E22_Human-Made_Object", "prov:Entity", "wm:Machine"),
        label=machine.name,
        **some(
            crm__P1_is_identified_by=_number(machine),
            crm__P2_has_type=word(machine.kept_now),
            crm__P3_has_note=[machine.what, machine.matters],
            crm__P50_has_current_keeper=ref(at.museum),
            crm__P46_is_composed_of=refs([at.part(machine.id, part.address) for part in parts]),
        ),
    )
    page = me.partition("#")[0]
    yield node(
        page,
        *("crm:E31_Document", "prov:Entity"),
        label=f"The page of {machine.name}",
        **some(crm__P70_documents=ref(me)),
    )
    yield from (_part(part, machine, at) for part in parts)
    yield from (_finding(finding, machine, at) for finding in machine.findings)
    yield from people((finding.by for finding in machine.findings), at)


def _number(machine: Machine) -> Node | None:
    if machine.number is None:
        return None
    return {"@type": "crm:E42_Identifier", "rdfs:label": machine.number}


def _part(part: Part, machine: Machine, at: Addresses) -> Node:
    """A part as the museum lists it; the piece in its place may have changed since."""
    return node(
        at.part(machine.id, part.address),
        *("crm:E22_Human-Made_Object", "wm:Part"),
        label=part.name,
        **some(
            crm__P2_has_type=[word(part.origin), word(part.made_to)],
            crm__P45_consists_of=material(part.material),
            crm__P46i_forms_part_of=ref(at.machine(machine.id)),
            wm__address=part.address,
            wm__count=part.count,
        ),
    )


def material(named: str | None) -> Node | None:
    """What something is made of, as the record words it."""
    return {"@type": "crm:E57_Material", "rdfs:label": named} if named else None


def _finding(finding: Finding, machine: Machine, at: Addresses) -> Node:
    concerned = at.part(machine.id, finding.place) if finding.place else at.machine(machine.id)
    state = {
        "@type": "crm:E3_Condition_State",
        "rdfs:label": finding.what,
        **some(crm__P3_has_note=finding.measurement),
    }
    return node(
        at.finding(machine.id, finding.id),
        *("crm:E14_Condition_Assessment", "prov:Activity", "wm:Finding"),
        label=finding.what,
        **some(
            crm__P2_has_type=[word(finding.basis), word(finding.grade)],
            crm__P4_has_time_span=span(finding.day, finding.day),
            crm__P14_carried_out_by=ref(at.person(finding.by)) if finding.by else None,
            crm__P34_concerned=ref(concerned),
            crm__P35_has_identified=state,
        ),
    )
