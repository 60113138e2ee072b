"""A decision as the public sees it, from the record and all that was reckoned from it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from witnessmark.model.decision import Decision, Explained, Waiver
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.museum import Museum
from witnessmark.model.options import NoneSigned
from witnessmark.model.words import Kept
from witnessmark.publish.public import PublicFinding, PublicPicture
from witnessmark.publish.public_decision import (
    PublicAgreement,
    PublicDecision,
    PublicRevision,
    PublicRuleNote,
    PublicSheet,
)
from witnessmark.publish.shown_events import old_parts, stock_in_question, timeline
from witnessmark.publish.shown_history import public_history
from witnessmark.publish.shown_machine import public_finding, public_pictures
from witnessmark.publish.shown_names import Names
from witnessmark.publish.shown_options import letters_of, public_options
from witnessmark.publish.shown_sheets import public_sheet
from witnessmark.publish.shown_steps import public_steps
from witnessmark.publish.shown_unknown import still_unknown
from witnessmark.publish.shown_weighing import public_weighing
from witnessmark.repository.prepared import Prepared
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.rules.facts import askings_of_decision
from witnessmark.rules.kept import rules_for, what_rules_say
from witnessmark.rules.rule import Rule, Standing
from witnessmark.rules.rulebook import RuleBook
from witnessmark.rules.rulebook_check import OVER
from witnessmark.weighing.case import Case

SEAL_SHOWN = 16  # "wm1:" and twelve signs of the digest: enough to compare by eye


@dataclass(frozen=True)
class Surroundings:
    """What a decision's page draws on beside the record itself."""

    library: Library
    names: Names
    museum: Museum
    as_of: date
    published: Collection[str]
    listed: Collection[str]
    pictures: Prepared
    revisions: Mapping[str, PublicRevision]
    versions: RecordVersions
    rules: Mapping[str, Rule]
    book: RuleBook


def public_decision(
    entry: DecisionFile, around: Surroundings, *, case: Case
) -> PublicDecision | None:
    """One decision, from its file worked out; None where it lacks what every published one has."""
    decision = entry.value
    if decision is None or decision.choice is None:
        return None
    names, machine, choice = around.names, entry.machine, decision.choice
    work, look = decision.work, decision.look_again
    hazards, losses = decision.hazards, decision.losses
    rules = rules_for(decision.policy, around.library, book=around.book.rules)
    said = what_rules_say(rules, askings_of_decision(case, around.library))
    rested = {w.rule for w in decision.waivers} | {e.rule for e in decision.explained}
    return PublicDecision(
        id=entry.id,
        machine=machine,
        machine_name=names.machine(machine),
        kept=case.ground.kept if case.ground else Kept.RESERVE,
        title=decision.title,
        question=decision.question,
        aim=decision.aim.what,
        aim_because=decision.aim.because,
        about=names.parts(machine, decision.about),
        places=decision.about,
        findings=tuple(_findings(decision, machine, around)),
        policy=decision.policy,
        departs_from_policy=decision.departs_from_policy,
        state=decision.state,
        opened=decision.opened,
        settled=max((s.date for s in decision.agreed), default=decision.opened),
        until=decision.until,
        proposed_by=names.person(decision.proposed_by),
        judged_by=names.person(decision.judged_by.by) if decision.judged_by else None,
        no_hazards=hazards.none.because if isinstance(hazards, NoneSigned) else None,
        options=public_options(case, names=names, museum=around.museum),
        because=choice.because,
        gives_up=choice.gives_up,
        would_change_our_mind=choice.would_change_our_mind,
        dissent=_dissent(decision, names),
        losses=tuple((loss.what, loss.recorded_by) for loss in decision.listed_losses),
        no_losses=losses.none.because if isinstance(losses, NoneSigned) else None,
        weighing=public_weighing(case),
        departs_from_ranking=decision.departs_from_ranking,
        precedents=_precedents(decision, around.listed),
        accepted_risk=_accepted(decision, names),
        sheets=tuple(_sheets(case, names)),
        waived=tuple(_waived(w, around) for w in decision.waivers),
        explained=tuple(_explained(e, around) for e in decision.explained),
        met=_said(said, Standing.HOLDS, around.rules),
        broken=tuple(
            row
            for row in _said(said, Standing.BROKEN, around.rules)
            if row[0] not in rested and decision.state not in OVER
        ),
        emergency=decision.emergency.because if decision.emergency else None,
        started=work.started if work else None,
        ended=work.ended if work else None,
        done_by=tuple(filter(None, (names.in_words(by) for by in work.by))) if work else (),
        as_done=public_steps(work.as_done, machine=machine, names=names) if work else (),
        departures=_departures(decision),
        old_parts=old_parts(decision, machine, library=around.library, names=names),
        stock=tuple(stock_in_question(decision, around.library, around.as_of)),
        outcomes=tuple((o.date, names.person(o.by), o.what) for o in decision.outcomes),
        look_again=look.date if look else None,
        look_after=look.or_after if look else None,
        unknown=tuple(still_unknown(case, names)),
        agreed=tuple(
            PublicAgreement(
                role=s.role, by=names.person(s.by), day=s.date, seal=s.seal[:SEAL_SHOWN]
            )
            for s in decision.agreed
        ),
        timeline=timeline(decision, around.as_of),
        pictures=_pictures(decision, machine, around.pictures),
        replaced_by=decision.replaced_by if decision.replaced_by in around.listed else None,
        replaces=decision.replaces if decision.replaces in around.listed else None,
        file=entry.file,
        revision=around.revisions.get(entry.id),
        history=public_history(entry, around.versions),
    )


def _said(
    said: Mapping[str, Standing], wanted: Standing, rules: Mapping[str, Rule]
) -> tuple[tuple[str, str], ...]:
    """Rules of one standing, by id and title."""
    return tuple((name, rules[name].title) for name in sorted(said) if said[name] is wanted)


def _findings(decision: Decision, machine: str, around: Surroundings) -> Iterator[PublicFinding]:
    for name in decision.findings:
        found = around.library.finding(machine, name)
        if found and found.public:
            yield public_finding(
                around.library, machine, found, published=around.published, names=around.names
            )


def _sheets(case: Case, names: Names) -> Iterator[PublicSheet]:
    """The worksheets, each with the letters of the options that rely on it."""
    letters, options = letters_of(case.decision), case.decision.options
    for sheet in case.sheets:
        rest = tuple(letters[o.id] for o in options if sheet.used.id in o.relies_on)
        yield public_sheet(sheet, machine=case.machine_id, names=names, relied_on_by=rest)


def _dissent(decision: Decision, names: Names) -> tuple[tuple[str, str, str], ...]:
    """Who, by title or role, what they said and the answer."""
    dissent = decision.choice.dissent if decision.choice else "none raised"
    if isinstance(dissent, str):
        return ()
    return tuple((names.in_words(d.who) or "one of us", d.what, d.answer) for d in dissent)


def _precedents(decision: Decision, listed: Collection[str]) -> tuple[tuple[str, str], ...]:
    """Earlier decisions it follows, with no reason, and those it departs from, with one."""
    followed = [(name, "") for name in decision.follows]
    departed = [(d.decision, d.because) for d in decision.departs_from]
    return tuple((name, why) for name, why in (*followed, *departed) if name in listed)


def _accepted(decision: Decision, names: Names) -> tuple[str, str, date] | None:
    risk = decision.accepted_risk
    return (names.person(risk.by), risk.because, risk.until) if risk else None


def _waived(waiver: Waiver, around: Surroundings) -> PublicRuleNote:
    rule = around.rules.get(waiver.rule)
    return PublicRuleNote(
        rule=waiver.rule,
        title=rule.title if rule else waiver.rule,
        level=rule.level if rule else None,
        because=waiver.because,
        approver=around.names.person(waiver.approver),
        until=waiver.until,
    )


def _explained(explained: Explained, around: Surroundings) -> PublicRuleNote:
    rule = around.rules.get(explained.rule)
    title, level = (rule.title, rule.level) if rule else (explained.rule, None)
    return PublicRuleNote(rule=explained.rule, title=title, level=level, because=explained.because)


def _departures(decision: Decision) -> tuple[str, ...]:
    """What the work did otherwise than planned; the word `none` is no departure."""
    found = decision.work.departures if decision.work else ()
    if isinstance(found, str):
        return () if found.casefold() == "none" else (found,)
    return found


def _pictures(decision: Decision, machine: str, pictures: Prepared) -> tuple[PublicPicture, ...]:
    photos = (*decision.photos, *(decision.work.photos if decision.work else ()))
    return public_pictures(machine, photos, pictures=pictures)
