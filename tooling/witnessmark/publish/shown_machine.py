"""A machine as the public sees it: what it is, why it matters, its parts, findings and pictures."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date, timedelta

from witnessmark.model.findings import Finding
from witnessmark.model.library import Library
from witnessmark.model.machine import Machine, Part, Photo
from witnessmark.model.position import Pieces, position_on
from witnessmark.model.words import Aspect, Origin, State
from witnessmark.publish.public import (
    PublicAssembly,
    PublicFinding,
    PublicKept,
    PublicMachine,
    PublicPart,
    PublicPicture,
)
from witnessmark.publish.shown_account import account_of
from witnessmark.publish.shown_lists import public_runs
from witnessmark.publish.shown_names import Names
from witnessmark.repository.photos import Copy
from witnessmark.repository.prepared import Prepared


def public_machine(
    library: Library,
    name: str,
    *,
    as_of: date,
    published: Collection[str],
    names: Names,
    pictures: Prepared,
) -> PublicMachine:
    """One machine on a day; `published` are the ids of the decisions shown."""
    machine = library.machines[name]
    return PublicMachine(
        id=name,
        name=machine.name,
        what=machine.what,
        built=machine.built,
        number=machine.number,
        as_of=machine.as_of,
        kept=_kept(machine),
        kept_now=machine.kept_on(as_of),
        matters=machine.significance.statement,
        judged_against=machine.significance.state,
        carried_by=tuple(
            (aspect, weight, machine.significance.present.get(aspect, 4))
            for aspect in Aspect
            if (weight := machine.significance.carried_by.get(aspect))
        ),
        assemblies=_assemblies(library, name, as_of, published),
        account=account_of(library, name, as_of=as_of, published=published),
        findings=tuple(
            public_finding(library, name, finding, published=published, names=names)
            for finding in sorted(library.findings_of(name), key=lambda f: (f.date, f.id))
            if finding.public and finding.date <= as_of
        ),
        pictures=public_pictures(name, machine.photos, pictures=pictures),
        decisions=tuple(sorted(_own(library, name, published), reverse=True)),
        runs=public_runs(library, name, as_of=as_of, published=published, names=names),
    )


def _own(library: Library, name: str, published: Collection[str]) -> Iterator[str]:
    return (d.id for d in library.decisions_of(name) if d.id in published)


def _kept(machine: Machine) -> tuple[PublicKept, ...]:
    ways = sorted(machine.kept, key=lambda way: way.since)
    return tuple(PublicKept(since=w.since, how=w.how, because=w.because) for w in ways)


def _assemblies(
    library: Library, name: str, as_of: date, published: Collection[str]
) -> tuple[PublicAssembly, ...]:
    places = position_on(library, name, as_of + timedelta(days=1)).places
    return tuple(
        PublicAssembly(
            id=assembly.id,
            name=assembly.name,
            parts=tuple(
                _part(f"{assembly.id}/{part.id}", part, places, published)
                for part in assembly.parts
            ),
        )
        for assembly in library.machines[name].assemblies
    )


def _part(
    address: str,
    part: Part,
    places: Mapping[str, tuple[Pieces, ...]],
    published: Collection[str],
) -> PublicPart:
    return PublicPart(
        address=address,
        name=part.name,
        count=part.count,
        origin=part.origin,
        made_to=part.made_to,
        mass=part.mass,
        material=part.material,
        drawing=part.drawing,
        can_be_made=part.can_be_made,
        last_known=part.last_known,
        today=tuple(_today(places.get(address, ()), part, published)),
    )


def _today(here: Iterable[Pieces], part: Part, published: Collection[str]) -> Iterator[str]:
    """What sits in the place now, where that is not simply what was listed."""
    found = [pieces for pieces in here if pieces.count]
    if not found:
        yield "Nothing; the place is empty"
    for pieces in found:
        if pieces.fitted_by is None and pieces.count == part.count:
            continue
        came = "another machine" if pieces.donor else "the old stock" if pieces.lot else ""
        whence = f"from {came}, " if came else ""
        new = "made for it" if pieces.origin is Origin.MUSEUM_MADE else pieces.origin.value
        by = f" (decision {pieces.fitted_by})" if pieces.fitted_by in published else ""
        yield f"{pieces.count} {whence}{new}{by}"


def public_finding(
    library: Library,
    machine: str,
    finding: Finding,
    *,
    published: Collection[str],
    names: Names,
) -> PublicFinding:
    """One finding marked public; open until work that names it has ended or another answers it."""
    naming = [d for d in library.decisions_of(machine) if finding.id in d.findings]
    ended = any(d.state in {State.DONE, State.REPLACED} and d.work for d in naming)
    answered = any(finding.id in other.answers for other in library.findings_of(machine))
    put_off = finding.put_off
    return PublicFinding(
        id=finding.id,
        day=finding.date,
        by=names.in_words(finding.by),
        part=names.part(machine, finding.part) if finding.part else None,
        place=finding.part,
        basis=finding.basis,
        what=finding.what,
        grade=finding.grade,
        measurement=finding.measurement,
        instrument=finding.instrument,
        put_off_until=put_off.until if put_off else None,
        put_off_because=put_off.because if put_off else None,
        answered_by=tuple(d.id for d in naming if d.id in published),
        is_open=not (ended or answered),
    )


def public_pictures(
    machine: str, photos: Iterable[Photo], *, pictures: Prepared
) -> tuple[PublicPicture, ...]:
    """Pictures marked public whose file was handed over and may be shown."""
    return tuple(
        _picture(photo, pictures[f"{machine}/{photo.file}"])
        for photo in photos
        if photo.public and f"{machine}/{photo.file}" in pictures
    )


def _picture(photo: Photo, copies: tuple[Copy, ...]) -> PublicPicture:
    """One picture; browsers that know no sizes get the second, which fills a page."""
    shown = copies[:2][-1]
    return PublicPicture(
        path=picture_address(shown.name),
        width=shown.width,
        height=shown.height,
        sizes=tuple((picture_address(copy.name), copy.width) for copy in copies),
        alt=photo.alt,
        caption=photo.caption,
        day=photo.date,
        stage=photo.stage,
    )


def picture_address(name: str) -> str:
    """Where a picture lies on the site, by its path below the museum folder."""
    return f"m/{name}"
