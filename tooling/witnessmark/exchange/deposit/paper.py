"""The reading copy as PDF for paper and for long keeping, where WeasyPrint is installed.

Each file is made to the rules of PDF/A-3u (ISO 19005-3:2012, level U) and carries its record as an
attached file. No validator has proved that: it is claimed, not proven. Nothing is fetched but the
pictures that are given. The bytes depend on the fonts and the version of WeasyPrint at hand.
"""

from __future__ import annotations

import hashlib
import warnings
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from weasyprint import Attachment, Document

EXTRA = "weasyprint"
SITE = "museum:/"
"""What the site is called in pages for paper; no such address can be fetched."""

VARIANT = "pdf/a-3u"
ALL = "all"
_PICTURE = "image/svg+xml"


@dataclass(frozen=True, kw_only=True)
class Leaf:
    """One page to be printed: its name, its HTML, and the records attached to it by file name."""

    name: str
    html: str
    attached: Mapping[str, bytes]


def has_printer() -> bool:
    """True where the library that makes PDF is installed."""
    return find_spec(EXTRA) is not None


def printed(
    leaves: Iterable[Leaf], *, pictures: Mapping[str, bytes], day: date
) -> dict[str, bytes]:
    """Each leaf as a PDF by file name, and all of them in one, in the order given."""
    found: dict[str, bytes] = {}
    laid: list[tuple[Leaf, Document]] = []
    for leaf in leaves:
        document = _laid_out(leaf.html, pictures)
        laid.append((leaf, document))
        if leaf.attached:
            found[f"{leaf.name}.pdf"] = _pdf(document, leaf.name, leaf.attached, day)
    if laid:
        pages = [page for _, document in laid for page in document.pages]
        every = {name: raw for leaf, _ in laid for name, raw in leaf.attached.items()}
        found[f"{ALL}.pdf"] = _pdf(laid[0][1].copy(pages), ALL, every, day)
    return found


def _laid_out(html: str, pictures: Mapping[str, bytes]) -> Document:
    from weasyprint import HTML
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class Given(URLFetcher):  # type: ignore[misc]  # the library is untyped
        """Gives the pictures at hand and asks nobody for anything."""

        def fetch(self, url: str, headers: Any = None) -> URLFetcherResponse:  # noqa: ANN401, ARG002
            """A picture that was given; the printer leaves out whatever is refused."""
            content = pictures.get(url.removeprefix(SITE)) if url.startswith(SITE) else None
            if content is None:
                raise ValueError(f"{url} is not among the pictures given")
            return URLFetcherResponse(url, content, headers={"Content-Type": _PICTURE})

    document = HTML(string=html, url_fetcher=Given()).render(pdf_variant=VARIANT, pdf_tags=True)
    for page in document.pages:
        # Links within the site lead nowhere on paper.
        page.links = [link for link in page.links if not str(link[1]).startswith(SITE)]
    return document


def _pdf(document: Document, name: str, attached: Mapping[str, bytes], day: date) -> bytes:
    document.metadata.attachments = [
        _attachment(file, raw, day) for file, raw in sorted(attached.items())
    ]
    with warnings.catch_warnings():
        # WeasyPrint 70 leaves its own colour profile open, which is not ours to close.
        warnings.simplefilter("ignore", ResourceWarning)
        content = document.write_pdf(
            pdf_variant=VARIANT,
            pdf_tags=True,
            pdf_identifier=hashlib.sha256(f"{name} {day}".encode()).digest()[:16],
        )
    if not isinstance(content, bytes):
        raise TypeError("a PDF without a target is bytes")
    return content


def _attachment(name: str, content: bytes, day: date) -> Attachment:
    from weasyprint import Attachment

    moment = datetime(day.year, day.month, day.day, tzinfo=UTC)
    return Attachment(
        string=content,
        name=name,
        description=f"The record {name} as data",
        created=moment,
        modified=moment,
        relationship="Source",
    )
