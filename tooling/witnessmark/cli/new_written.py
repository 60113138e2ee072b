"""Writing a draft: checked first, beside what is there, and never over anything."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

import click

from witnessmark.cli.new_asked import Wanted
from witnessmark.cli.opening import Opened
from witnessmark.cli.printing import folded, plural, visible
from witnessmark.errors import RefusedError
from witnessmark.model.blanks import BLANK
from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.findings import Findings
from witnessmark.model.library import DecisionFile, Library
from witnessmark.model.new_decision import (
    Draft,
    draft_text,
    free_id,
    policy_on,
    working_title,
)
from witnessmark.model.new_finding import Given, next_id, with_finding
from witnessmark.model.option_drafts import OptionDraft, begun
from witnessmark.model.question_sorts import SORTS, Foreseen
from witnessmark.model.shape import shape
from witnessmark.model.source import Document, read
from witnessmark.model.words import Kind, Phase
from witnessmark.repository.writing import create_text, replace_text
from witnessmark.rules.check import check
from witnessmark.rules.rulebook_check import load_shipped


@dataclass(frozen=True)
class Written:
    """What is to be written: the new record, and the log with one finding more where there is."""

    path: str
    text: str
    log: Document | None
    library: Library
    """The museum as it will be."""


def write_draft(opened: Opened, wanted: Wanted, *, today: date, dry_run: bool) -> None:
    """Write the draft of what is wanted, and say what is still blank and what comes next."""
    found = _finding(opened.library, wanted, today)
    draft = _draft(opened.library, wanted, today, found)
    put_down(opened, wanted.machine or "", draft, found=found, dry_run=dry_run)


def put_down(
    opened: Opened, machine: str, draft: Draft, *, found: Given | None, dry_run: bool
) -> None:
    """Write a draft and its new finding, once a check has found no error in them."""
    ready = prepared(opened.library, machine, draft, found=found)
    blanks = _checked(ready)
    if dry_run:
        click.echo(visible(ready.text))
        return
    create_text(opened.folder.parent / ready.path, ready.text)
    if ready.log is not None and found is not None:
        old = opened.library.finding_files.get(machine)
        was = old.document.text if old else None
        replace_text(Path(opened.folder.parent, ready.log.file), ready.log.text, was=was)
        click.echo(f"{ready.log.file}: {found['id']} written.")
    click.echo(_told(ready.path, draft, blanks, has_finding=bool(draft.findings)))


def prepared(library: Library, machine: str, draft: Draft, *, found: Given | None) -> Written:
    """The new record's text and the museum as it will be with it; nothing is on disk yet."""
    log = _log(library, machine, found) if found else None
    path = f"{library.root}/{machine}/{draft.file_name}"
    text = draft_text(draft)
    entry = DecisionFile(
        machine, draft.id, shape(read(path, text.encode()), Decision, record=draft.id)
    )
    decisions = tuple(sorted([*library.decisions, entry], key=lambda one: (one.id, one.file)))
    files = {**library.finding_files, **({machine: shape(log, Findings)} if log else {})}
    will_be = replace(library, decisions=decisions, finding_files=files)
    return Written(path, text, log, will_be)


def _log(library: Library, machine: str, found: Given) -> Document:
    old = library.finding_files.get(machine)
    file = old.document.file if old else f"{library.root}/{machine}/findings.yml"
    return with_finding(old.document if old else None, found, file=file)


def _checked(ready: Written) -> list[Diagnostic]:
    """The blanks of the draft.

    Raises:
        RefusedError: something in it would be an error.
    """
    checked = check(ready.library, rulebook=load_shipped(), under=ready.path)
    for fault in checked.diagnostics:
        if fault.level is Level.ERROR:
            raise RefusedError(f"{fault.field}: {fault.message}", remedy=fault.fix)
    return list(checked.diagnostics)


def new_finding(
    library: Library, machine: str, fields: Mapping[str, str], *, today: date, by: str, part: str
) -> Given:
    """A finding of today with the next free id; `fields` say what, how it is known and the rest."""
    log = library.findings_of(machine)
    given = {"id": next_id(log), "date": today.isoformat(), "by": by, "part": part, **fields}
    return {name: text for name, text in given.items() if text}


def _finding(library: Library, wanted: Wanted, today: date) -> Given | None:
    if not wanted.found:
        return None
    fields = {"basis": wanted.basis or "", "what": wanted.found, "grade": wanted.grade or ""}
    return new_finding(
        library, wanted.machine or "", fields, today=today, by=wanted.by or "", part=wanted.parts[0]
    )


def _draft(library: Library, wanted: Wanted, today: date, found: Given | None) -> Draft:
    sort, machine = SORTS[wanted.sort or "other"], library.machines[wanted.machine or ""]
    new = (str(found["id"]),) if found else ()
    return Draft(
        id=free_id(library, today),
        title=wanted.title or working_title(machine, wanted.parts),
        question=wanted.question or "",
        aim=wanted.aim or "",
        aim_because=wanted.aim_because or "",
        about=wanted.parts,
        findings=(*wanted.findings, *new),
        policy=policy_on(library, today),
        opened=today,
        proposed_by=wanted.by or "",
        hazards=sort.hazards,
        options=tuple(options_of(wanted.kinds, about=wanted.parts, hazards=sort.hazards)),
        sheets=sort.sheets,
    )


def options_of(
    kinds: tuple[tuple[Kind, str], ...], *, about: tuple[str, ...], hazards: tuple[Foreseen, ...]
) -> Iterator[OptionDraft]:
    """An option for each kind and title, each with an id of its own."""
    phases = {hazard.id: hazard.when is Phase.DOING_THE_WORK for hazard in hazards}
    taken: list[str] = []
    for kind, title in kinds:
        option = begun(kind, title, about=about, hazards=phases, taken=taken)
        taken.append(option.id)
        yield option


def _told(path: str, draft: Draft, found: list[Diagnostic], *, has_finding: bool) -> str:
    blanks = sum(one.code == BLANK for one in found)
    lines = [f"{path} written: {draft.id}, a draft with {plural(blanks, 'blank')} to fill."]
    machine = path.split("/")[1]
    if not has_finding:
        text = (
            "It rests on no finding yet. Add one with "
            f"`witnessmark finding {machine} --by {draft.proposed_by} ...`, and name its id in "
            "findings."
        )
        lines += folded(text, first="  ", rest="  ")
    lines += [
        "Next:",
        "  1. open it in a text editor and fill what is blank",
        f"  2. witnessmark check {path}",
        "     says what is still wanted; when nothing is, write state: for-review",
        f"  3. witnessmark weigh {draft.id}",
        f"  4. witnessmark sign {draft.id} --by PERSON --role ROLE, two people, each in a role",
    ]
    return "\n".join(lines)
