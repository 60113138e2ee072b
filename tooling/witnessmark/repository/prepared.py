"""The pictures that records may show, each made ready in its sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

from witnessmark.errors import WitnessmarkError
from witnessmark.model.library import Library
from witnessmark.model.machine import Photo
from witnessmark.model.remains import Path
from witnessmark.model.shape import Shaped
from witnessmark.repository.photos import Copy, PictureFault, has_pillow, is_photo
from witnessmark.repository.photos import photo_copies as _photo_copies
from witnessmark.repository.photos import photo_fault as _photo_fault
from witnessmark.repository.picture_store import PictureStore
from witnessmark.repository.sketches import sketch_copies, sketch_fault

Prepared = Mapping[str, tuple[Copy, ...]]
"""Copies of each picture, the narrowest first, by the picture's path below the museum folder."""

NO_PILLOW = "This museum shows photos, and Pillow, the library that makes them ready, is missing."
NO_PILLOW_FIX = "Install it: pip install 'witnessmark[photos]'."


def prepared(
    pictures: Mapping[str, bytes], library: Library, *, store: PictureStore | None = None
) -> dict[str, tuple[Copy, ...]]:
    """Every picture marked public that was handed over, made ready or taken from the store.

    Raises:
        WitnessmarkError: a picture cannot be shown, or Pillow is missing.

    """
    wanted = sorted({name for name, *_ in public_photos(library)} & pictures.keys())
    if any(is_photo(name) for name in wanted) and not has_pillow():
        raise WitnessmarkError(NO_PILLOW, remedy=NO_PILLOW_FIX)
    if store is None:
        return {name: _copies(name, pictures[name]) for name in wanted}
    return {name: store.copies(name, pictures[name], make=_made) for name in wanted}


def picture_fault(name: str, content: bytes) -> PictureFault | None:
    """What keeps one picture from being shown."""
    return _photo_fault(name, content) if is_photo(name) else sketch_fault(content)


def public_photos(library: Library) -> Iterator[tuple[str, Shaped[Any], str | None, Path]]:
    """Every picture marked public: its path, and the file, record and place that name it."""
    for machine, shaped in sorted(library.machine_files.items()):
        photos = shaped.value.photos if shaped.value else ()
        for name, number in _public(machine, photos):
            yield name, shaped, None, ("photos", number)
    for entry in library.decisions:
        if entry.value is None:
            continue
        work = entry.value.work.photos if entry.value.work else ()
        for name, number in _public(entry.machine, entry.value.photos):
            yield name, entry.shaped, entry.id, ("photos", number)
        for name, number in _public(entry.machine, work):
            yield name, entry.shaped, entry.id, ("work", "photos", number)


def _public(machine: str, photos: tuple[Photo, ...]) -> Iterator[tuple[str, int]]:
    for number, photo in enumerate(photos):
        if photo.public:
            yield f"{machine}/{photo.file}", number


@lru_cache(maxsize=16)
def _copies(name: str, content: bytes) -> tuple[Copy, ...]:
    """Few are remembered, for a page that is looked at again and again while it is written."""
    return _made(name, content)


def _made(name: str, content: bytes) -> tuple[Copy, ...]:
    if is_photo(name):
        return _photo_copies(name, content)
    if fault := sketch_fault(content):
        raise WitnessmarkError(f"{name} cannot be shown. {fault.message}", remedy=fault.fix)
    return sketch_copies(name, content)
