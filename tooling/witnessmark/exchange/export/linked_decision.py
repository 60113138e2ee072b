"""A decision as linked data: the act, its record, what could have been done, and what follows."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from witnessmark.exchange.export.addresses import Addresses
from witnessmark.exchange.export.linked_scores import score_nodes
from witnessmark.exchange.export.linked_work import work_nodes
from witnessmark.exchange.export.nodes import (
    Node,
    figure,
    in_role,
    node,
    on_day,
    ref,
    refs,
    some,
    span,
    word,
    word_term,
)
from witnessmark.exchange.export.people import by, people
from witnessmark.exchange.export.published import Decision, Option, RuleNote

APPROVER = "wm:approver"
_ASSIGNED = ("crm:E13_Attribute_Assignment", "prov:Activity")


def decision_nodes(decision: Decision, at: Addresses) -> Iterator[Node]:
    """Everything that one decision's record tells."""
    yield _act(decision, at)
    yield _record(decision, at)
    yield from (_option(option, decision, at) for option in decision.options)
    yield from score_nodes(decision, at)
    yield from _choice(decision, at)
    yield from _agreements(decision, at)
    yield from _rests(decision, at)
    yield from _precedents(decision, at)
    yield from work_nodes(decision, at)
    yield from _afterwards(decision, at)
    yield from people(_named(decision), at)


def _named(decision: Decision) -> Iterator[str | None]:
    yield decision.proposed_by
    yield from (signed.by for signed in decision.agreed)
    yield from (aspect.by for option in decision.options for aspect in option.aspects)
    yield from (note.approver for note in decision.rules.waived)
    yield from (outcome.by for outcome in decision.outcomes)
    yield from (dissent.who for dissent in decision.choice.dissent)
    yield from decision.work.by if decision.work else ()


def _act(decision: Decision, at: Addresses) -> Node:
    earlier = [at.decision(found.decision) for found in decision.precedents]
    found = [at.finding(decision.machine, finding.id) for finding in decision.findings]
    options = [at.option(decision.id, option.id) for option in decision.options]
    replaced = at.decision(decision.replaces) if decision.replaces else None
    return node(
        at.decision(decision.id),
        *("crm:E7_Activity", "crm:E65_Creation", "prov:Activity", "wm:Decision"),
        label=decision.title,
        **some(
            crm__P2_has_type=word(decision.state),
            crm__P3_has_note=decision.question,
            crm__P4_has_time_span=span(decision.opened, decision.settled),
            crm__P14_carried_out_by=by((signed.by for signed in decision.agreed), at),
            crm__P15_was_influenced_by=refs(earlier),
            crm__P16_used_specific_object=refs(options),
            crm__P17_was_motivated_by=refs(found),
            crm__P33_used_specific_technique=ref(at.policy(decision.policy)),
            crm__P94_has_created=ref(at.record(decision.id)),
            crm__P134_continued=ref(replaced) if replaced else None,
            prov__wasInformedBy=refs([*earlier, *([replaced] if replaced else [])]),
        ),
    )


def _record(decision: Decision, at: Addresses) -> Node:
    """The page: what it is about, and the plans it holds."""
    plans = [at.option(decision.id, option.id) for option in decision.options]
    if decision.look_again.day:
        plans.append(at.within(decision.id, "look-again"))
    about = [at.part(decision.machine, place) for place in decision.about]
    earlier = at.record(decision.replaces) if decision.replaces else None
    return node(
        at.record(decision.id),
        *("crm:E31_Document", "prov:Entity", "wm:Record"),
        label=f"Decision {decision.id}: {decision.title}",
        **some(
            crm__P70_documents=refs([at.decision(decision.id), at.machine(decision.machine)]),
            crm__P129_is_about=refs(about),
            crm__P165_incorporates=refs(plans),
            prov__wasGeneratedBy=ref(at.decision(decision.id)),
            prov__wasRevisionOf=ref(earlier) if earlier else None,
        ),
    )


def _option(option: Option, decision: Decision, at: Addresses) -> Node:
    """An option is a plan, whether it was chosen or not, and whether or not it was carried out."""
    weighed = decision.weighing.options if decision.weighing else ()
    row = next((row for row in weighed if row.option == option.id), None)
    planned = [step.text for step in (*option.steps, *option.consequences)]
    return node(
        at.option(decision.id, option.id),
        *("crm:E29_Design_or_Procedure", "prov:Plan", "wm:Option"),
        label=option.title,
        **some(
            crm__P2_has_type=word(option.kind),
            crm__P3_has_note=planned,
            crm__P43_has_dimension=figure(row.value) if row and row.value is not None else None,
            wm__standing=row.standing if row else None,
            wm__whyNot=option.why_not,
        ),
    )


def _choice(decision: Decision, at: Addresses) -> Iterator[Node]:
    """What was chosen and why; a departure from the ranking, and who thought otherwise."""
    choice, act = decision.choice, ref(at.decision(decision.id))
    if choice.option:
        yield node(
            at.within(decision.id, "choice"),
            *(*_ASSIGNED, "wm:Choice"),
            label=f"The choice of decision {decision.id}",
            **some(
                crm__P3_has_note=choice.because,
                crm__P140_assigned_attribute_to=ref(at.option(decision.id, choice.option)),
                crm__P141_assigned=ref("wm:chosen"),
                prov__wasInformedBy=act,
            ),
        )
    if choice.departs_from_ranking:
        yield node(
            at.within(decision.id, "departure-from-ranking"),
            *("crm:E33_Linguistic_Object", "wm:DepartureFromRanking"),
            label=f"Why decision {decision.id} departs from the ranking",
            **some(
                crm__P129_is_about=act,
                crm__P190_has_symbolic_content=choice.departs_from_ranking,
            ),
        )
    for number, dissent in enumerate(choice.dissent, start=1):
        yield node(
            at.within(decision.id, f"dissent-{number}"),
            *(*_ASSIGNED, "wm:Dissent"),
            label=f"Dissent from decision {decision.id}",
            **some(
                crm__P3_has_note=[dissent.what, f"Answer: {dissent.answer}"],
                crm__P14_carried_out_by=ref(at.person(dissent.who)),
                crm__P140_assigned_attribute_to=ref(at.record(decision.id)),
                crm__P141_assigned=ref("wm:dissents"),
            ),
        )


def _agreements(decision: Decision, at: Addresses) -> Iterator[Node]:
    policy = at.policy(decision.policy)
    for signed in decision.agreed:
        yield node(
            at.within(decision.id, f"agreed-{signed.role.value}"),
            *(*_ASSIGNED, "wm:Agreement"),
            label=f"Agreement for {signed.role.value} to decision {decision.id}",
            **some(
                crm__P4_has_time_span=span(signed.day, signed.day),
                crm__P14_carried_out_by=ref(at.person(signed.by)),
                crm__P140_assigned_attribute_to=ref(at.record(decision.id)),
                crm__P141_assigned=ref("wm:approved"),
                prov__qualifiedAssociation=[
                    in_role(at.person(signed.by), APPROVER, plan=policy),
                    in_role(at.person(signed.by), word_term(signed.role), plan=policy),
                ],
            ),
        )


def _rests(decision: Decision, at: Addresses) -> Iterator[Node]:
    """Rules that were waived, and those that are not followed with a reason."""
    for note in decision.rules.waived:
        yield _rest(note, decision, at, "waived", "wm:Waiver")
    for note in decision.rules.explained:
        yield _rest(note, decision, at, "explained", "wm:Explanation")


def _rest(note: RuleNote, decision: Decision, at: Addresses, how: str, kind: str) -> Node:
    return node(
        at.within(decision.id, f"{how}-{note.rule}"),
        *(*_ASSIGNED, kind),
        label=f"{note.title}: {how}",
        **some(
            crm__P3_has_note=note.because,
            crm__P14_carried_out_by=ref(at.person(note.approver)) if note.approver else None,
            crm__P140_assigned_attribute_to=ref(at.decision(decision.id)),
            crm__P141_assigned=ref(at.rule(note.rule)),
            crm__P177_assigned_property_of_type=ref(f"wm:{how}"),
            wm__until=on_day(note.until) if note.until else None,
        ),
    )


def _precedents(decision: Decision, at: Addresses) -> Iterator[Node]:
    """What the decision makes of each earlier one that it names."""
    for found in decision.precedents:
        followed = found.how == "follows"
        yield node(
            at.within(decision.id, f"{found.how}-{found.decision}"),
            *(*_ASSIGNED, "wm:Precedent"),
            label=f"Decision {decision.id} {found.how.replace('-', ' ')} {found.decision}",
            **some(
                crm__P3_has_note=found.because,
                crm__P140_assigned_attribute_to=ref(at.decision(decision.id)),
                crm__P141_assigned=ref(at.decision(found.decision)),
                crm__P177_assigned_property_of_type=ref(
                    "wm:followed" if followed else "wm:departed-from"
                ),
            ),
        )


def _afterwards(decision: Decision, at: Addresses) -> Iterator[Node]:
    """When somebody looks again, which is a plan, and what was seen when somebody did."""
    if decision.look_again.day:
        yield _look_again(decision, decision.look_again.day, at)
    for number, outcome in enumerate(decision.outcomes, start=1):
        yield node(
            at.within(decision.id, f"outcome-{number}"),
            *("crm:E14_Condition_Assessment", "prov:Activity", "wm:Outcome"),
            label=outcome.what,
            **some(
                crm__P4_has_time_span=span(outcome.day, outcome.day),
                crm__P14_carried_out_by=ref(at.person(outcome.by)),
                crm__P17_was_motivated_by=ref(at.decision(decision.id)),
                crm__P34_concerned=ref(at.machine(decision.machine)),
            ),
        )


def _look_again(decision: Decision, due: date, at: Addresses) -> Node:
    return node(
        at.within(decision.id, "look-again"),
        *("crm:E29_Design_or_Procedure", "prov:Plan", "wm:Review"),
        label=f"Looking again at decision {decision.id}",
        **some(crm__P3_has_note=decision.look_again.after, wm__due=on_day(due)),
    )
