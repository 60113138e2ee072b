"""A decision as rules see it: the record in small, with what was reckoned from it."""

from __future__ import annotations

from witnessmark.model.decision import Decision, Interest, Loss, Signature
from witnessmark.model.library import Library
from witnessmark.model.options import NoneSigned
from witnessmark.model.words import Carrier, Role
from witnessmark.rules.hazard_facts import hazard_views
from witnessmark.rules.machine_facts import finding_view, iso
from witnessmark.rules.step_facts import Setting
from witnessmark.rules.view_decision import (
    DecisionView,
    DissentView,
    HeardView,
    InterestView,
    LossView,
    SheetView,
    SignatureView,
)
from witnessmark.rules.view_machine import FindingView
from witnessmark.rules.view_words import Given
from witnessmark.rules.work_facts import work_view
from witnessmark.weighing.case import Case

EXACT = frozenset({Carrier.DRAWING, Carrier.RUBBING, Carrier.SCAN, Carrier.SAMPLE})
"""Records that keep a size or a substance, which a photograph alone does not."""


def decision_view(case: Case, setting: Setting) -> DecisionView:
    """The record in small, without its options and steps."""
    decision = case.decision
    choice, look = decision.choice, decision.look_again
    return {
        "id": decision.id,
        "title": decision.title,
        "state": decision.state.value,
        "is_settled": decision.is_settled,
        "opened": decision.opened.isoformat(),
        "read_on": decision.reference_day.isoformat(),
        "until": iso(decision.until),
        "about": list(decision.about),
        "aim": decision.aim.what,
        "proposer": decision.proposed_by,
        "findings": _findings(decision, setting),
        "has_worksheets": bool(decision.worksheets),
        "sheets": _sheets(case),
        "hazards_given": _given(decision.hazards),
        "hazards": hazard_views(decision),
        "has_choice": choice is not None,
        "choice_because": choice.because if choice else "",
        "gives_up": choice.gives_up if choice else "",
        "dissent_given": _given(choice.dissent) if choice else "blank",
        "dissent": _dissent(decision, setting.library),
        "interests_given": _given(decision.interests),
        "interests": _interests(decision),
        "heard": _heard(decision, setting.library),
        "sources": [
            {"index": n, "what": source.what, "where": source.where or ""}
            for n, source in enumerate(decision.sources)
        ],
        "losses_given": _given(decision.losses),
        "losses_signed": isinstance(decision.losses, NoneSigned),
        "losses": [_loss(n, loss) for n, loss in enumerate(decision.listed_losses)],
        "leaves_out": decision.leaves_out or "",
        "adds_up_to": decision.adds_up_to or "",
        "signatures": [_signature(s, setting.library) for s in decision.agreed],
        "has_emergency": decision.emergency is not None,
        "emergency_ratified": iso(decision.emergency.ratified if decision.emergency else None),
        "has_accepted_risk": decision.accepted_risk is not None,
        "has_consent": decision.consent is not None,
        "consent_by": decision.consent.by if decision.consent else "",
        "consent_on": iso(decision.consent.date if decision.consent else None),
        "consent_text": (decision.consent.text or "") if decision.consent else "",
        "conditions_kept": decision.conditions_kept or "",
        "work": work_view(decision, setting),
        "look_again_on": iso(look.date if look else None),
        "look_again_after": (look.or_after or "") if look else "",
        "looks": len(decision.outcomes),
        "follows": list(decision.follows),
        "departs_from": [departs.decision for departs in decision.departs_from],
        "replaces": decision.replaces or "",
        "replaces_because": decision.replaces_because or "",
        "is_public": decision.publish is True,
        "is_withheld": not isinstance(decision.publish, bool),
    }


def _given(written: object) -> Given:
    """An empty list says nothing; a word or a signed none says that there is nothing."""
    if not written:
        return "blank"
    return "listed" if isinstance(written, tuple) else "none"


def _findings(decision: Decision, setting: Setting) -> list[FindingView]:
    library, machine = setting.library, setting.machine_id
    found = [library.finding(machine, name) for name in decision.findings]
    return [finding_view(f, machine=machine, library=library) for f in found if f is not None]


def _sheets(case: Case) -> list[SheetView]:
    return [
        {
            "id": sheet.used.id,
            "sheet": sheet.used.sheet,
            "verdict": sheet.verdict.verdict or "",
            "bears_on": list(sheet.used.bears_on),
        }
        for sheet in case.sheets
    ]


def _dissent(decision: Decision, library: Library) -> list[DissentView]:
    dissent = decision.choice.dissent if decision.choice else ()
    return [
        {
            "index": index,
            "who": one.who,
            "is_objector": _holds(one.who, Role.OBJECTOR, decision, library),
            "what": one.what,
            "answer": one.answer,
            "answer_words": len(one.answer.split()),
        }
        for index, one in enumerate(dissent if isinstance(dissent, tuple) else ())
    ]


def _holds(who: str, role: Role, decision: Decision, library: Library) -> bool:
    """Whether somebody held a role on the day the decision is read."""
    person = library.people.get(who)
    return person is not None and person.holds(role, on=decision.reference_day)


def _interests(decision: Decision) -> list[InterestView]:
    signed = {signature.by for signature in decision.agreed}
    return [
        {
            "index": index,
            "who": one.who,
            "what": one.what,
            "answer": one.answer,
            "has_signed": one.who in signed,
        }
        for index, one in enumerate(decision.interests or ())
        if isinstance(one, Interest)
    ]


def _heard(decision: Decision, library: Library) -> list[HeardView]:
    return [
        {
            "by": one.by,
            "role": one.role.value,
            "what": one.what,
            "holds_role": _holds(one.by, one.role, decision, library),
        }
        for one in decision.heard
    ]


def _loss(index: int, loss: Loss) -> LossView:
    return {
        "index": index,
        "what": loss.what,
        "where": loss.where or "",
        "has_photograph": Carrier.PHOTOGRAPH in loss.recorded_by,
        "has_exact_record": not EXACT.isdisjoint(loss.recorded_by),
    }


def _signature(signature: Signature, library: Library) -> SignatureView:
    person = library.people.get(signature.by)
    return {
        "role": signature.role.value,
        "by": signature.by,
        "signed_on": signature.date.isoformat(),
        "holds_role": person is not None and person.holds(signature.role, on=signature.date),
    }
