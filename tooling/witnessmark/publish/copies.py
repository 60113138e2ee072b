"""The museum's files as the public may hold them: public fields only, as plain data.

Not the files themselves: they hold private fields, so a copy is made. Which fields go into it is
said by the notes beside the models (`model.field_notes`), the same words that say what the site
shows; a field without the word Public stays out, and so does every field added later.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from witnessmark.model.decision import Withheld
from witnessmark.model.library import Library
from witnessmark.publish.copied_fields import Copier, Plain, number
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicDecision, PublicOption
from witnessmark.publish.shown_names import Names

MARK: Mapping[str, Plain] = MappingProxyType({"witnessmark_public_copy": 1})
"""What stands first in every copy, so that no reader takes it for the museum's own file."""


def public_copies(library: Library, museum: PublicMuseum) -> dict[str, Plain]:
    """The content of each public copy by its path, below a folder that stands for the museum."""
    return dict(sorted(_copies(library, museum)))


def _copies(library: Library, museum: PublicMuseum) -> Iterator[tuple[str, Plain]]:
    copier = _copier(library, museum)
    yield "museum.yml", {**MARK, **copier.record(library.museum.value)}
    yield "people.yml", {**MARK, "as_of": museum.as_of.isoformat(), "roles": _roles(museum)}
    for policy in museum.policies:
        yield f"policy/{policy.id}.yml", {**MARK, **copier.record(library.policies[policy.id])}
    for machine in museum.machines:
        at = copier.at(machine.id)
        yield f"{machine.id}/machine.yml", {**MARK, **at.record(library.machines[machine.id])}
        if machine.findings:
            known = {finding.id for finding in machine.findings}
            found = [f for f in library.findings_of(machine.id) if f.id in known]
            rows = [at.record(finding) for finding in found]
            yield f"{machine.id}/findings.yml", {**MARK, "findings": rows}
    for decision in museum.decisions:
        yield f"{decision.machine}/{decision.id}.yml", _decision(decision, library, copier)
    for kept_back in museum.withheld:
        why = Withheld(withheld=kept_back.because)
        said = {"id": kept_back.id, "machine": kept_back.machine, "publish": copier.record(why)}
        yield f"{kept_back.machine}/{kept_back.id}.yml", {**MARK, **said}


def _copier(library: Library, museum: PublicMuseum) -> Copier:
    shown = library.museum.value.shown if library.museum.value else None
    return Copier(
        names=Names(library),
        listed=frozenset(
            {decision.id for decision in museum.decisions}
            | {kept_back.id for kept_back in museum.withheld}
        ),
        pictures=frozenset(
            {picture.path for machine in museum.machines for picture in machine.pictures}
            | {picture.path for decision in museum.decisions for picture in decision.pictures}
        ),
        has_money=bool(shown and shown.money),
        has_hours=bool(shown and shown.hours),
    )


def _roles(museum: PublicMuseum) -> Plain:
    """Who holds which role on the day of the copy, by title: the register itself stays private."""
    return [{"role": row.role.value, "held_by": list(row.holders)} for row in museum.roles]


def _decision(decision: PublicDecision, library: Library, copier: Copier) -> Plain:
    record = library.by_id[decision.id].value
    copied = copier.at(decision.machine).record(record)
    return {
        **MARK,
        "machine": decision.machine,
        "kept": decision.kept.value,
        **copied,
        "reckoned": _reckoned(decision),
    }


def _reckoned(decision: PublicDecision) -> Plain:
    """The figures that the site shows; low, likely and high of each score."""
    weighing = decision.weighing
    found: dict[str, Plain] = {"scores": {o.id: _scores(o) for o in decision.options}}
    if weighing:
        values = {row.option: row.value for row in weighing.rows}
        found["values"] = {name: number(v) for name, v in values.items() if v is not None}
        found["standing"] = {row.option: row.standing.value for row in weighing.rows}
        found["verdict"] = weighing.word.value
    return found


def _scores(option: PublicOption) -> Plain:
    return {
        criterion.value: [number(n) for n in (score.low, score.likely, score.high)]
        if score.is_given
        else "not scored"
        for criterion, score in option.scores
    }
