"""The pages of a museum folder for a theme's shell, read and rendered in one go."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from witnessmark.errors import WitnessmarkError
from witnessmark.model.library import assemble
from witnessmark.publish.allow import NO_REVISIONS, public_museum
from witnessmark.publish.other_formats import NO_OTHERS, OtherFormats
from witnessmark.publish.pages import Page, beside_makers, render_pages, static_files
from witnessmark.publish.public_decision import PublicRevision
from witnessmark.publish.render import shown_pictures
from witnessmark.publish.shown_history import NO_VERSIONS
from witnessmark.publish.site_files import Content
from witnessmark.repository.disk import find_museum, read_museum
from witnessmark.repository.picture_store import PictureStore
from witnessmark.repository.prepared import prepared
from witnessmark.repository.record_versions import RecordVersions
from witnessmark.repository.site import read_pictures
from witnessmark.rules.rulebook_check import load_shipped


def themed_site(
    place: Path,
    *,
    as_of: str | None,
    revisions: Mapping[str, PublicRevision] = NO_REVISIONS,
    versions: RecordVersions = NO_VERSIONS,
    others: OtherFormats = NO_OTHERS,
    store: PictureStore | None = None,
) -> tuple[list[Page], dict[str, bytes]]:
    """The pages, with titles and headings, and the other files by path.

    Without `as_of` the site is made for the day that museum.yml gives as `demo_as_of`.

    Raises:
        WitnessmarkError: there is no museum, no day, or museum.yml cannot be read whole.

    """
    folder = read_museum(find_museum(place))
    library = assemble(folder)
    museum = library.museum.value
    day = _day(as_of) if as_of else museum.demo_as_of if museum else None
    if day is None:
        raise WitnessmarkError(
            "It is not said for which day the site is made.",
            remedy="Write as_of: YYYY-MM-DD under plugins, witnessmark, in mkdocs.yml.",
        )
    pictures = prepared(read_pictures(place, folder.names), library, store=store)
    shown = public_museum(
        library,
        load_shipped(),
        as_of=day,
        revisions=revisions,
        versions=versions,
        pictures=pictures,
        beside=others.names,
    )
    pages = list(render_pages(shown, skin="themed"))
    beside = beside_makers(shown, [page.path for page in pages], others)
    made = {path: _bytes(make()) for path, make in beside.items()}
    return pages, static_files() | shown_pictures(shown, pictures) | made


def _bytes(content: Content) -> bytes:
    return content if isinstance(content, bytes) else content.encode()


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise WitnessmarkError(
            f"'{text}' is no day of the calendar.", remedy="Write as_of: YYYY-MM-DD."
        ) from None
