"""From a library to a site: every file by its path, the same bytes for the same records."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import partial

from witnessmark.model.library import Library
from witnessmark.publish.allow import NO_REVISIONS, public_museum
from witnessmark.publish.other_formats import NO_OTHERS, OtherFormats
from witnessmark.publish.pages import (
    Page,
    Skin,
    beside_makers,
    page_makers,
    plain_shell,
    static_files,
)
from witnessmark.publish.public import PublicMuseum
from witnessmark.publish.public_decision import PublicRevision
from witnessmark.publish.shown_history import NO_VERSIONS
from witnessmark.publish.site_files import Maker, SiteFiles, always
from witnessmark.repository.photos import Copy
from witnessmark.repository.picture_store import PictureStore
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
    store: PictureStore | None = None,
) -> SiteFiles:
    """Every file of the site by path: whole pages in the plain skin, bodies in the themed one.

    `revisions` gives the last revision of each decision's file by decision id, `versions` all that
    git keeps of each, `pictures` the files below the museum folder that records may show, `others`
    what stands beside the pages in formats of other packages, and `store` the copies of pictures
    that are kept between runs.

    Raises:
        WitnessmarkError: museum.yml could not be read whole, or a picture cannot be shown.

    """
    copies = prepared(pictures, library, store=store)
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
) -> SiteFiles:
    """Every file of the site of a museum that is public already; `copies` are of its pictures."""
    pages = page_makers(museum, skin=skin)
    found: dict[str, Maker] = {
        path: partial(_file, make, museum, skin) for path, make in pages.items()
    }
    found |= {path: always(content) for path, content in static_files().items()}
    pictures = shown_copies(museum, copies)
    found |= {path: copy.read for path, copy in pictures.items()}
    return SiteFiles(found | beside_makers(museum, pages, others))


def _file(make: Callable[[], Page], museum: PublicMuseum, skin: Skin) -> str:
    page = make()
    return plain_shell(page, museum) if skin == "plain" else str(page.body)


def shown_pictures(museum: PublicMuseum, pictures: Prepared) -> dict[str, bytes]:
    """The bytes of the copies that some page shows, by address."""
    return {path: copy.content for path, copy in shown_copies(museum, pictures).items()}


def shown_copies(museum: PublicMuseum, pictures: Prepared) -> dict[str, Copy]:
    """The copies that some page shows, by address; all others stay in the house."""
    shown = [picture for machine in museum.machines for picture in machine.pictures]
    shown += [picture for decision in museum.decisions for picture in decision.pictures]
    wanted = {path for picture in shown for path, _ in picture.sizes}
    made = (copy for copies in pictures.values() for copy in copies)
    return {f"m/{copy.name}": copy for copy in made if f"m/{copy.name}" in wanted}
