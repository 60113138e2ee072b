"""What of a museum's slips can be put right by the tool, file by file, and what it leaves alone."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from pydantic import BaseModel

from witnessmark.model.corrections import MENDABLE, MISSING, correction_of, corrections
from witnessmark.model.decision import Decision
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.findings import Findings
from witnessmark.model.library import Folder, Library, assemble
from witnessmark.model.machine import Machine
from witnessmark.model.museum import Museum
from witnessmark.model.people import People
from witnessmark.model.policy import Policy
from witnessmark.model.source import Document
from witnessmark.model.spelling import clear_winner
from witnessmark.model.stores import Stores
from witnessmark.model.words import State
from witnessmark.rules.check import check
from witnessmark.rules.checked import Checked, is_under
from witnessmark.rules.rulebook import RuleBook

SEALS = frozenset({"WM080", "WM081", "WM082", "WM083"})
STILL_WRITTEN = frozenset({State.DRAFT.value, State.FOR_REVIEW.value})
MOST_TRIED = 200
"""Findings of one check that are tried for a mend; each costs a reading of its file."""


@dataclass(frozen=True)
class Open:
    """A file as it stands, how it is read, and whether it may be edited.

    `name` is what the command line calls it; `closed` says why it is left alone, if it is.
    """

    document: Document
    model: type[BaseModel]
    name: str
    closed: str = ""
    is_draft: bool = False


@dataclass(frozen=True)
class Mended:
    """One file before and after, and the slips that were put right in it, in order."""

    before: Document
    after: Document
    slips: tuple[Diagnostic, ...]


@dataclass(frozen=True)
class Mending:
    """What would be written, and the files that were left alone with the reason."""

    files: tuple[Mended, ...]
    closed: tuple[tuple[str, str], ...]


def mend(
    folder: Folder, *, rulebook: RuleBook, under: str = "", codes: Collection[str] = MENDABLE
) -> Mending:
    """Every slip under a path that can be put right in one way only.

    An agreement tells whether what it rests on was mended rightly: where one would not stand with
    the mend, the file is left alone.
    """
    library = assemble(folder)
    checked = check(library, rulebook=rulebook, under=under)
    files: list[Mended] = []
    closed: list[tuple[str, str]] = []
    for one in opened(library):
        found = [d for d in checked.diagnostics if d.file == one.document.file and d.code in codes]
        if not is_under(one.document.file, under):
            continue
        if one.closed:
            if any(correction_of(one.document, slip, one.model) for slip in found):
                closed.append((one.document.file, one.closed))
        elif mended := _mended(one, found, codes):
            files.append(mended)
    files, doubtful = _less_doubtful(folder, files, rulebook)
    return Mending(tuple(files), (*closed, *doubtful))


def _mended(one: Open, found: list[Diagnostic], codes: Collection[str]) -> Mended | None:
    """The file with its slips put right: those of its own text first, then those of names."""
    document, slips = one.document, []
    for correction in corrections(document, one.model, codes=codes, blanks=one.is_draft):
        document = correction.document
        slips.append(correction.found)
    said = {(slip.code, slip.path) for slip in slips}
    for slip in found:
        if slip.code == MISSING or (slip.code, slip.path) in said:
            continue
        after = correction_of(document, slip, one.model)
        if after is not None:
            document = after
            slips.append(slip)
    return Mended(one.document, document, tuple(slips)) if slips else None


def _less_doubtful(
    folder: Folder, files: list[Mended], rulebook: RuleBook
) -> tuple[list[Mended], list[tuple[str, str]]]:
    """The files less those that an agreement rests on which would not stand with the mend."""
    if not any(_may_be_sealed(one.after.file, folder) for one in files):
        return files, []
    root = f"{folder.name}/"
    texts = {one.after.file.removeprefix(root): one.after.text.encode() for one in files}
    after = assemble(replace(folder, files={**folder.files, **texts}))
    found = check(after, rulebook=rulebook).diagnostics
    void = {one.file.rpartition("/")[0] for one in found if one.code in SEALS}
    doubtful = [
        one
        for one in files
        if _may_be_sealed(one.after.file, folder) and _rests_on(one.after.file, folder, void)
    ]
    reason = "An agreement that rests on it would not stand with the mend; mend it by hand."
    return [one for one in files if one not in doubtful], [
        (one.after.file, reason) for one in doubtful
    ]


def _may_be_sealed(file: str, folder: Folder) -> bool:
    """True for a machine's file and the stores, which agreements cover in part."""
    name = file.removeprefix(f"{folder.name}/")
    return name == "stores.yml" or name.endswith(("/machine.yml", "/findings.yml"))


def _rests_on(file: str, folder: Folder, void: set[str]) -> bool:
    """True when a record whose agreement does not stand may rest on a file."""
    name = file.removeprefix(f"{folder.name}/")
    return bool(void) if name == "stores.yml" else file.rpartition("/")[0] in void


def told(checked: Checked, library: Library) -> Checked:
    """What was found, each slip that `fix` can put right with a sentence that says so.

    Only the first two hundred are tried, since each costs a reading of its file.
    """
    files = {one.document.file: one for one in opened(library) if not one.closed}
    left = MOST_TRIED
    diagnostics = []
    for found in checked.diagnostics:
        one = files.get(found.file)
        if one and found.code in MENDABLE and left > 0:
            left -= 1
            diagnostics.append(_told(found, one))
        else:
            diagnostics.append(found)
    return replace(checked, diagnostics=tuple(diagnostics))


def _told(found: Diagnostic, one: Open) -> Diagnostic:
    is_blank = found.code == MISSING
    if is_blank and not one.is_draft:
        return found
    if correction_of(one.document, found, one.model) is None:
        return found
    does = "adds it with what it means" if is_blank else "does this for you"
    sentence = f"`witnessmark fix {one.name}` {does}."
    # A fix that shows lines of a record would run on into the sentence.
    shows_lines = "\n" in found.fix
    fix = f"{sentence} By hand: {found.fix}" if shows_lines else f"{found.fix} {sentence}"
    return replace(found, fix=fix)


def opened(library: Library) -> Iterator[Open]:
    """Every file that was read, with the reason why it is left alone if it is."""
    yield Open(library.museum.document, Museum, library.museum.document.file)
    if library.people_file:
        yield Open(library.people_file.document, People, library.people_file.document.file)
    if library.stores_file:
        yield Open(library.stores_file.document, Stores, library.stores_file.document.file)
    settled = {
        entry.value.policy
        for entry in library.decisions
        if entry.value and _is_settled(entry.value)
    }
    for name, policy in sorted(library.policy_files.items()):
        closed = "Decisions were agreed under it; write a new policy." if name in settled else ""
        yield Open(policy.document, Policy, policy.document.file, closed)
    for _, machine in sorted(library.machine_files.items()):
        yield Open(machine.document, Machine, machine.document.file)
    for _, log in sorted(library.finding_files.items()):
        yield Open(log.document, Findings, log.document.file)
    for entry in library.decisions:
        document = entry.shaped.document
        state, is_draft = _standing(document)
        yield Open(document, Decision, entry.named, _why_closed(state), is_draft)


def _is_settled(decision: Decision) -> bool:
    return decision.is_settled or decision.state is State.REPLACED or bool(decision.agreed)


def _standing(document: Document) -> tuple[str, bool]:
    """What a record's state comes to, and whether it is a draft; "agreed" where anybody signed."""
    data = document.data if isinstance(document.data, dict) else {}
    if data.get("agreed") or data.get("reckoned") or data.get("work"):
        return State.AGREED.value, False
    written = str(data.get("state") or State.DRAFT.value)
    state = clear_winner(written, [one.value for one in State]) or written
    return state, state == State.DRAFT.value


def _why_closed(state: str) -> str:
    if state in STILL_WRITTEN:
        return ""
    if state in {one.value for one in State}:
        return "It is agreed or closed, and no such record is edited by the tool."
    return f'Its state, "{state}", is not known, so it may be agreed.'
