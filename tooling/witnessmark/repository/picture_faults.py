"""Pictures that cannot be shown, as findings at the place where a record names them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from witnessmark.model.diagnostics import Diagnostic, Level
from witnessmark.model.library import Library
from witnessmark.repository.photos import has_pillow, is_photo
from witnessmark.repository.prepared import NO_PILLOW, NO_PILLOW_FIX, picture_fault, public_photos
from witnessmark.rules.checked import is_under
from witnessmark.rules.report import Report


def picture_faults(
    library: Library, pictures: Mapping[str, bytes], *, under: str = ""
) -> Iterator[Diagnostic]:
    """What is wrong with each picture marked public that records below a path name.

    `pictures` are the files by their path below the museum folder; each is asked for once, when
    its turn comes. Without Pillow one note stands for all photos.
    """
    unread = False
    for name, shaped, record, path in public_photos(library):
        if name not in pictures or not is_under(shaped.document.file, under):
            continue
        report, place = Report(shaped, record), (*path, "file")
        if is_photo(name) and not has_pillow():
            if not unread:
                note = Level.NOTE
                yield report.at(place, "WM054", NO_PILLOW, fix=NO_PILLOW_FIX, level=note)
            unread = True
        elif fault := picture_fault(name, pictures[name]):
            message = f"{name} cannot be shown. {fault.message}"
            yield report.at(place, "WM046", message, fix=fault.fix)
