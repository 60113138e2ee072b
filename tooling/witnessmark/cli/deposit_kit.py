"""Gathering what a deposit is made from: disk, git and the public model, each asked once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from importlib.resources import files
from zoneinfo import ZoneInfo

import rfc8785

from witnessmark import __version__
from witnessmark.cli.opening import Opened, day_or_today
from witnessmark.exchange.deposit.kit import Agreed, Kit, Listed, Sort
from witnessmark.exchange.deposit.paper import SITE, Leaf, has_printer, printed
from witnessmark.exchange.deposit.written import written_yaml
from witnessmark.exchange.export import export_files, read_published
from witnessmark.exchange.schema import schema_files
from witnessmark.model.decision import Decision, Signature
from witnessmark.model.judgement import digest, judgement_of
from witnessmark.model.library import DecisionFile, Folder, Library
from witnessmark.model.prose import words_of
from witnessmark.model.statement import signature_path, statement_of
from witnessmark.publish import PublicMuseum, PublicRevision, public_museum
from witnessmark.publish.anchors import ASPECT_ANCHORS, SAFETY_ANCHORS, UNDO_ANCHORS
from witnessmark.publish.copies import public_copies
from witnessmark.publish.public_json import public_files
from witnessmark.publish.reading import Record, readings
from witnessmark.publish.render import shown_pictures, site_files
from witnessmark.publish.shown_names import Names
from witnessmark.repository.bundle import Kept, read_history
from witnessmark.repository.deposits import read_files
from witnessmark.repository.disk import read_museum
from witnessmark.repository.past import read_past
from witnessmark.repository.prepared import Prepared, prepared
from witnessmark.repository.site import read_pictures
from witnessmark.rules.rulebook_check import load_shipped
from witnessmark.weighing.case import work_out
from witnessmark.weighing.seals import facts_of

_SAYS = "A public copy: private fields are left out. README-FIRST.txt explains every field."


@dataclass(frozen=True)
class Gathered:
    """A museum read for one sort of deposit: what is on disk, in git and public, and the day."""

    sort: Sort
    library: Library
    folder: Folder
    others: Mapping[str, bytes]
    public: PublicMuseum
    copies: Prepared
    day: date
    revision: str | None
    kept: Kept

    @property
    def entries(self) -> Iterator[DecisionFile]:
        """The decisions in this deposit: in a public one those that are published."""
        shown = {decision.id for decision in self.public.decisions}
        for name, entry in sorted(self.library.by_id.items()):
            if self.sort is Sort.SEALED or name in shown:
                yield entry


def gather(
    opened: Opened, sort: Sort, *, as_of: date | str | None, with_history: bool = True
) -> Gathered:
    """Everything that has to be read for a deposit or a comparison.

    A comparison asks for no history, since the packing of it takes long.

    Raises:
        WitnessmarkError: a file, the history or museum.yml cannot be read whole.
    """
    library, folder = opened.library, read_museum(opened.folder)
    museum = library.museum.value
    past = read_past(opened.folder, zone=ZoneInfo(museum.time_zone if museum else "Etc/UTC"))
    head = past.history.head
    day = _day(as_of, library, head.day if head else None)
    copies = prepared(read_pictures(opened.folder, folder.names), library)
    is_sealed = sort is Sort.SEALED
    return Gathered(
        sort=sort,
        library=library,
        folder=folder,
        others=read_files(opened.folder, folder.names) if is_sealed else {},
        public=public_museum(
            library,
            load_shipped(),
            as_of=day,
            revisions=_revisions(library, past.history.last),
            versions=past.versions,
            pictures=copies,
        ),
        copies=copies,
        day=day,
        revision=head.name if head else None,
        kept=read_history(opened.folder, with_bundle=is_sealed and with_history),
    )


def _revisions(library: Library, last: Mapping[str, object]) -> dict[str, PublicRevision]:
    from witnessmark.repository.history import Revision

    found = ((entry.id, last.get(entry.file)) for entry in library.decisions)
    return {
        name: PublicRevision(name=revision.name, day=revision.day)
        for name, revision in found
        if isinstance(revision, Revision)
    }


def _day(as_of: date | str | None, library: Library, head: date | None) -> date:
    """The day asked for, else that of HEAD, else the newest day on which the records say anything.

    Never today: a deposit that is made again must be the same.
    """
    if as_of is not None:
        return day_or_today(as_of, library)
    if head is not None:
        return head
    days = [machine.as_of for machine in library.machines.values()]
    days += [f.date for name in library.machines for f in library.findings_of(name)]
    for entry in library.decisions:
        days += _days_of(entry.value) if entry.value else []
    return max(days, default=date(1970, 1, 1))


def _days_of(decision: Decision) -> list[date]:
    work, judged = decision.work, decision.judged_by
    told: list[date | None] = [judged.date] if judged else []
    told += [work.started, work.ended] if work else []
    told += [signature.date for signature in decision.agreed]
    told += [outcome.date for outcome in decision.outcomes]
    return [decision.opened, *(day for day in told if day)]


def records_of(gathered: Gathered) -> dict[str, bytes]:
    """The museum's own files for a sealed deposit, the public copies and pictures for others."""
    if gathered.sort is Sort.SEALED:
        return {**gathered.folder.files, **gathered.others}
    copies = public_copies(gathered.library, gathered.public)
    pictures = shown_pictures(gathered.public, gathered.copies)
    return {
        **{path: written_yaml(data, says=_SAYS) for path, data in copies.items()},
        **{path.removeprefix("m/"): raw for path, raw in pictures.items()},
    }


def agreements_now(gathered: Gathered) -> Iterator[tuple[Agreed, bool]]:
    """Every agreement in the deposit, and whether the judgement of today fits its seal."""
    names = Names(gathered.library)
    for entry in gathered.entries:
        if entry.value is None or not entry.value.agreed:
            continue
        judgement = _judgement(entry, entry.value, gathered.library)
        for signature in entry.value.agreed:
            fits = judgement is not None and signature.seal == f"wm1:{digest(judgement)}"
            yield _agreed(entry, signature, judgement, gathered, names), fits


def _judgement(entry: DecisionFile, decision: Decision, library: Library) -> object:
    if not entry.shaped.whole:
        return None
    facts = facts_of(work_out(decision, entry.machine, library), library)
    return None if facts is None else judgement_of(decision, facts)


def _agreed(
    entry: DecisionFile, signature: Signature, judgement: object, gathered: Gathered, names: Names
) -> Agreed:
    told = Agreed(
        decision=entry.id,
        file=record_path(entry, gathered),
        role=signature.role.value,
        by=names.person(signature.by),
        day=signature.date,
        seal=signature.seal,
    )
    if gathered.sort is Sort.PUBLIC:
        return told
    beside = signature_path(entry.machine, entry.id, signature.role.value)
    is_signed = beside in gathered.others
    data = entry.shaped.document.data
    return replace(
        told,
        by=signature.by,
        words_seal=signature.words,
        judgement=None if judgement is None else rfc8785.dumps(judgement),  # type: ignore[arg-type]
        words=rfc8785.dumps(words_of(data)) if isinstance(data, dict) else None,
        statement=statement_of(entry.id, signature) if is_signed else None,
        signature=beside if is_signed else None,
    )


def record_path(entry: DecisionFile, gathered: Gathered) -> str:
    """Where a decision's record lies below records/."""
    if gathered.sort is Sort.PUBLIC:
        return f"{entry.machine}/{entry.id}.yml"
    return entry.file.partition("/")[2]


def levels() -> dict[str, tuple[str, ...]]:
    """What each level from 0 to 4 means, by the name of what is judged."""
    aspects = {f"authenticity, {a.value}": anchors for a, anchors in ASPECT_ANCHORS.items()}
    return {**aspects, "safety": SAFETY_ANCHORS, "reversibility": UNDO_ANCHORS}


def kit_of(gathered: Gathered) -> Kit:
    """Everything that goes into the deposit; printing the reading copy is what takes the time."""
    public, records = gathered.public, records_of(gathered)
    site = site_files(public, skin="plain", copies=gathered.copies)
    is_sealed = gathered.sort is Sort.SEALED
    return Kit(
        sort=gathered.sort,
        museum=public.name,
        place=public.place,
        about=public.about,
        web=public.web,
        licence=public.licence,
        day=gathered.day,
        program=__version__,
        revision=gathered.revision,
        is_edited=gathered.kept.is_edited,
        decisions=tuple(_listed(gathered)),
        agreed=tuple(agreed for agreed, _ in agreements_now(gathered)),
        records=records,
        rulebook=_rulebook(),
        schemas={name: text.encode() for name, text in schema_files().items()},
        site={path: raw if isinstance(raw, bytes) else raw.encode() for path, raw in site.items()},
        readings=_readings(gathered, records),
        tables=_tables(public),
        history=gathered.kept.bundle if is_sealed else None,
    )


def _tables(public: PublicMuseum) -> dict[str, bytes]:
    """The public data as tables and, where things have an address to be named by, as a graph."""
    formats = ["csv", "jsonld"] if public.web_root else ["csv"]
    return export_files([read_published(public_files(public))], formats)


def _rulebook() -> dict[str, bytes]:
    here = files("witnessmark") / "rulebook"
    return {f.name: f.read_bytes() for f in here.iterdir() if f.name.endswith(".yml")}


def _listed(gathered: Gathered) -> Iterator[Listed]:
    names = Names(gathered.library)
    for entry in gathered.entries:
        yield Listed(
            id=entry.id,
            title=entry.value.title if entry.value else "it cannot be read as a decision",
            machine=entry.machine,
            machine_name=names.machine(entry.machine),
            file=record_path(entry, gathered),
        )


def _readings(gathered: Gathered, records: Mapping[str, bytes]) -> dict[str, bytes]:
    """The reading copy by file name: PDF where it can be made, else pages for a browser."""
    public = gathered.public
    written = _written(gathered, records) if gathered.sort is Sort.SEALED else {}
    if not has_printer():
        found = readings(public, root="../site/", written=written)
        return {f"{one.name}.html": one.html.encode() for one in found}
    paths = {entry.id: record_path(entry, gathered) for entry in gathered.entries}
    leaves = [
        Leaf(name=one.name, html=one.html, attached=_attached(paths.get(one.name), records))
        for one in readings(public, root=SITE, written=written)
    ]
    pictures = shown_pictures(public, gathered.copies)
    return printed(leaves, pictures=pictures, day=gathered.day)


def _attached(path: str | None, records: Mapping[str, bytes]) -> dict[str, bytes]:
    return {} if path is None else {path.rpartition("/")[2]: records[path]}


def _written(gathered: Gathered, records: Mapping[str, bytes]) -> dict[str, Record]:
    return {
        entry.id: Record(
            title=entry.value.title if entry.value else entry.id,
            text=records[record_path(entry, gathered)].decode("utf-8", "replace"),
        )
        for entry in gathered.entries
    }
