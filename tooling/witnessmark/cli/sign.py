"""witnessmark sign: one agreement under a record."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import click

from witnessmark import __version__
from witnessmark.cli.opening import MUSEUM, DayParam, day_or_today, find_decision, open_museum
from witnessmark.cli.printing import plural
from witnessmark.cli.signing_key import write_signature
from witnessmark.errors import RefusedError
from witnessmark.model.decision import Decision, Signature
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.people import Person
from witnessmark.model.source import Document
from witnessmark.model.surgery import with_block, with_item, with_scalar
from witnessmark.model.words import Role, State
from witnessmark.repository.writing import replace_text
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.weighing.case import Case, work_out
from witnessmark.weighing.seals import reckoned_of, seals_of

SIGNABLE = frozenset({State.FOR_REVIEW, State.AGREED})
TWO_AGREE = frozenset({"WM160", "WM161"})
"""Findings that further agreements mend, so the first is not refused for them."""
SEAL_TO_COME = "WM083"


@click.command("sign")
@click.argument("decision", metavar="ID")
@click.option("--by", "person", required=True, metavar="PERSON", help="An id from people.yml.")
@click.option(
    "--role", required=True, type=click.Choice([role.value for role in Role]), help="In which role."
)
@click.option(
    "--date", "on", type=DayParam(), metavar="DATE", help="The day of agreement. Default: today."
)
@click.option(
    "--key",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Also write a detached signature with this SSH private key.",
)
@MUSEUM
def command(
    decision: str, *, person: str, role: str, on: date | str | None, key: Path | None, museum: str
) -> None:
    """Put one agreement under a record, with a seal over what is agreed.

    Refused when the person does not hold the role on that day, has signed already, or a must rule
    is neither kept nor waived. At the second valid agreement the record's state becomes agreed.
    The seal shows later changes; it does not prove who typed the name. A detached signature does,
    for those who hold the list of keys: it is written to signatures/ID-ROLE.sig by ssh-keygen.

    Example: witnessmark sign 2024-003 --by curator --role collections --date 2024-03-02
    """
    opened = open_museum(museum)
    entry = find_decision(opened.library, decision)
    day = day_or_today(on, opened.library)
    document, state = _signed(opened.library, entry, person, Role.named(role), day)
    if key:
        write_signature(opened.folder, entry, document, key=key)
    before = entry.shaped.document.text
    replace_text(Path(opened.folder.parent, entry.file), document.text, was=before)
    found = plural(len(entry.value.agreed) + 1 if entry.value else 1, "agreement")
    click.echo(f"{entry.file}: recorded as agreed by {person} ({role}) on {day}.")
    click.echo(f"{found} so far; the state is {state.value}.")


def _signed(
    library: Library, entry: DecisionFile, person: str, role: Role, day: date
) -> tuple[Document, State]:
    """The record's text with the agreement, and the state it then has."""
    decision = _ready(entry)
    _refuse_person(decision, library.people.get(person), person, role, day)
    provisional = Signature(role=role, by=person, date=day, seal="-", words="-")
    as_agreed = decision.model_copy(
        update={"state": State.AGREED, "agreed": (*decision.agreed, provisional)}
    )
    case = work_out(as_agreed, entry.machine, library)
    _refuse_unmet(as_agreed, library, entry)
    record = entry.shaped.document.data
    seals = seals_of(case, library, record) if isinstance(record, dict) else None
    if seals is None:
        raise RefusedError(f"{entry.file}: machine or policy cannot be read.", remedy="Mend them.")
    _refuse_other_seal(decision, seals[0])
    state = State.AGREED if _is_enough(as_agreed) else decision.state
    return _written(entry.shaped.document, provisional, seals, case, state), state


def _ready(entry: DecisionFile) -> Decision:
    decision = entry.value
    if decision is None or not entry.shaped.whole:
        raise RefusedError(
            f"{entry.file} has faults of shape.", remedy="Run `witnessmark check` and mend them."
        )
    if decision.state not in SIGNABLE:
        raise RefusedError(
            f"{entry.file} is {decision.state.value}; only a record for review can be signed.",
            remedy="Set the state to for-review when everything in it is written.",
        )
    return decision


def _refuse_person(
    decision: Decision, person: Person | None, name: str, role: Role, day: date
) -> None:
    if person is None:
        raise RefusedError(f'"{name}" is not in people.yml.', remedy="Enter the person there.")
    if not person.holds(role, on=day):
        raise RefusedError(
            f"{name} does not hold the role {role.value} on {day}.",
            remedy="Let a holder of the role sign, or correct the register if it is wrong.",
        )
    if any(signature.by == name for signature in decision.agreed):
        raise RefusedError(
            f"{name} has signed this record already.", remedy="Let another person sign."
        )
    if day < decision.opened:
        raise RefusedError(
            f"{day} is before the record was opened, {decision.opened}.", remedy="Correct the day."
        )
    if name == decision.proposed_by and not decision.agreed:
        raise RefusedError(
            f"{name} proposed this record, and nobody else has agreed to it yet.",
            remedy="Let the others sign first; the proposer may be one of three.",
        )
    first = min((signature.date for signature in decision.agreed), default=day)
    if day < first:
        raise RefusedError(
            f"{day} is before the first agreement, {first}, on whose day the record is read.",
            remedy="Sign with a day from then on.",
        )


def _refuse_unmet(decision: Decision, library: Library, entry: DecisionFile) -> None:
    """Refuse where the record, were it agreed now, would have an error."""
    shaped = replace(entry.shaped, value=decision)
    others = tuple(
        replace(one, shaped=shaped) if one is entry else one for one in library.decisions
    )
    imagined = replace(library, decisions=others)
    checked = check(imagined, rulebook=load_shipped(), under=entry.file)
    awaited = {SEAL_TO_COME} | (frozenset() if _is_enough(decision) else TWO_AGREE)
    errors = [d for d in checked.diagnostics if d.level.value == "error" and d.code not in awaited]
    if errors:
        told = "\n  ".join(f"{d.code} line {d.line}: {d.message}" for d in errors)
        raise RefusedError(
            f"{entry.file} cannot be agreed yet:\n  {told}", remedy="Mend or waive these first."
        )


def _refuse_other_seal(decision: Decision, seal: str) -> None:
    if any(signature.seal != seal for signature in decision.agreed):
        raise RefusedError(
            "The judgement has changed since the first agreement.",
            remedy="Remove the earlier agreements and let everybody sign the same judgement.",
        )


def _is_enough(decision: Decision) -> bool:
    """Two people, collections and engineering or safety; a third where the proposer is one."""
    roles = {signature.role for signature in decision.agreed}
    people = {signature.by for signature in decision.agreed}
    sides = Role.COLLECTIONS in roles and bool(roles & {Role.ENGINEERING, Role.SAFETY})
    return sides and len(people - {decision.proposed_by}) >= 2  # noqa: PLR2004  two others


def _written(
    document: Document, signature: Signature, seals: tuple[str, str], case: Case, state: State
) -> Document:
    item = (
        f"{{role: {signature.role.value}, by: {signature.by}, date: {signature.date}, "
        f'seal: "{seals[0]}", words: "{seals[1]}"}}'
    )
    document = with_item(document, "agreed", item)
    if state is not case.decision.state or document.data is not None:
        document = with_scalar(document, ("state",), state.value)
    return with_block(document, "reckoned", _reckoned_block(case))


def _reckoned_block(case: Case) -> str:
    """The figures as YAML, numbers as text so that they stay exact."""
    figures = reckoned_of(case, program=__version__)
    lines = ["reckoned:", f'  program: "{figures["program"]}"', "  options:"]
    for name, row in figures["options"].items():
        lines.append(f"    {name}:")
        lines += [f"      {field}: {_flow(value)}" for field, value in row.items()]
    lines.append(f"  winner: {_flow(figures['winner'])}")
    lines.append(f"  verdict: {figures['verdict']}")
    sheets = ", ".join(f"{name}: {word}" for name, word in figures["worksheets"].items())
    lines.append(f"  worksheets: {{{sheets}}}")
    return "\n".join(lines) + "\n"


def _flow(value: object) -> str:
    if isinstance(value, list):
        return "[" + ", ".join(_flow(member) for member in value) + "]"
    return f'"{value}"'
