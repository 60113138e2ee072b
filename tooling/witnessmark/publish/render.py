"""From a library to a site: every file by its path, the same bytes for the same records."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from witnessmark.model.library import Library
from witnessmark.publish.allow import NO_REVISIONS, public_museum
from witnessmark.publish.other_formats import NO_OTHERS, OtherFormats
from witnessmark.publish.pages import (
    Page,
    Skin,
    beside_files,
    plain_shell,
    render_pages,
    static_files,
)
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicRevision
from witnessmark.publish.shown_history import NO_VERSIONS
from witnessmark.repository.prepared import Prepared, prepared
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.rules.rulebook import RuleBook

NO_PICTURES: Mapping[str, bytes] = {}


def render(
    library: Library,
    *,
    rulebook: RuleBook,
    as_of: date,
    skin: Skin,
    revisions: Mapping[str, PublicRevision] = NO_REVISIONS,
    versions: RecordVersions = NO_VERSIONS,
    pictures: Mapping[str, bytes] = NO_PICTURES,
    others: OtherFormats = NO_OTHERS,
) -> dict[str, str | bytes]:
    """Every file of the site by path: whole pages in the plain skin, bodies in the themed one.

    `revisions` gives the last revision of each decision's file by decision id, `versions` all that
    git keeps of each, `pictures` the files below the museum folder that records may show, and
    `others` what stands beside the pages in formats of other packages.

    Raises:
        WitnessmarkError: museum.yml could not be read whole, or a picture cannot be shown.

    """
    copies = prepared(pictures, library)
    museum = public_museum(
        library,
        rulebook,
        as_of=as_of,
        revisions=revisions,
        versions=versions,
        pictures=copies,
        beside=others.names,
    )
    return site_files(museum, skin=skin, copies=copies, others=others)


def site_files(
    museum: PublicMuseum,
    *,
    skin: Skin,
    copies: Prepared,
    others: OtherFormats = NO_OTHERS,
) -> dict[str, str | bytes]:
    """Every file of the site of a museum that is public already; `copies` are of its pictures."""
    pages = render_pages(museum, skin=skin)
    found: dict[str, str | bytes] = {page.path: _file(page, museum, skin) for page in pages}
    made = shown_pictures(museum, copies) | beside_files(museum, found, others)
    return dict(sorted((found | static_files() | made).items()))


def _file(page: Page, museum: PublicMuseum, skin: Skin) -> str:
    return plain_shell(page, museum) if skin == "plain" else str(page.body)


def shown_pictures(museum: PublicMuseum, pictures: Prepared) -> dict[str, bytes]:
    """The copies that some page shows, by address; all others stay in the house."""
    shown = [picture for machine in museum.machines for picture in machine.pictures]
    shown += [picture for decision in museum.decisions for picture in decision.pictures]
    wanted = {path for picture in shown for path, _ in picture.sizes}
    made = (copy for copies in pictures.values() for copy in copies)
    return {f"m/{copy.name}": copy.content for copy in made if f"m/{copy.name}" in wanted}
